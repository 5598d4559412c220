namespace DeckLife.Numerics.LinearMixed;

/// <summary>The observations of one group of a linear mixed model y = X β + Z b + e with two random effects.</summary>
/// <param name="Response">y, n values.</param>
/// <param name="FixedDesign">X, n × p row by row.</param>
/// <param name="RandomDesign">Z, n × 2 row by row.</param>
public sealed record LinearMixedGroup(
    double[] Response,
    double[] FixedDesign,
    double[] RandomDesign
);
