namespace DeckLife.Studies;

/// <summary>Plain Monte Carlo.</summary>
/// <param name="Draws">Number of draws.</param>
/// <param name="Kept">Number of draws, from the first on, that are written out as a table.</param>
public sealed record MonteCarloMethod(long Draws, int Kept = 0) : StudyMethod
{
    /// <inheritdoc/>
    public override string Name => "monteCarlo";
}
