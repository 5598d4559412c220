namespace DeckLife.Numerics.Kernels;

/// <summary>A probability with the standard error that its random shifts show.</summary>
/// <param name="TimeYr">Time [yr].</param>
/// <param name="Probability">The estimate.</param>
/// <param name="StandardError">Its standard error.</param>
public readonly record struct ProbabilityEstimate(
    double TimeYr,
    double Probability,
    double StandardError
);
