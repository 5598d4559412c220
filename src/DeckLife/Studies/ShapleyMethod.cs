using DeckLife.Numerics.DesignOfExperiments;

namespace DeckLife.Studies;

/// <summary>Shapley effects.</summary>
/// <param name="Points">Number of points.</param>
/// <param name="Source">Where the points come from.</param>
/// <param name="Bootstrap">Number of bootstrap samples.</param>
public sealed record ShapleyMethod(int Points, PointSource Source, int Bootstrap) : StudyMethod
{
    /// <inheritdoc/>
    public override string Name => "shapley";
}
