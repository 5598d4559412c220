using System.Collections.Immutable;

namespace DeckLife.Numerics.Sensitivity;

/// <summary>Estimates from the first points of a sample.</summary>
/// <param name="Points">Number of points used.</param>
/// <param name="FirstOrder">First-order shares, one a group.</param>
/// <param name="Total">Total shares, one a group.</param>
public sealed record SobolConvergenceRow(
    int Points,
    ImmutableArray<double> FirstOrder,
    ImmutableArray<double> Total
);
