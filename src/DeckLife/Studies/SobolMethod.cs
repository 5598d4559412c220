using System.Collections.Immutable;
using DeckLife.Numerics.DesignOfExperiments;

namespace DeckLife.Studies;

/// <summary>First-order and total shares of variance.</summary>
/// <param name="Points">Number of points.</param>
/// <param name="Source">Where the points come from.</param>
/// <param name="Bootstrap">Number of bootstrap samples.</param>
/// <param name="Groups">Groups of quantities taken together; empty: each by itself.</param>
public sealed record SobolMethod(
    int Points,
    PointSource Source,
    int Bootstrap,
    ImmutableArray<ImmutableArray<StudyVariable>> Groups
) : StudyMethod
{
    /// <inheritdoc/>
    public override string Name => "sobol";
}
