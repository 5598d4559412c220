namespace DeckLife.Studies;

/// <summary>One-at-a-time swings.</summary>
/// <param name="Low">Probability of the low quantile.</param>
/// <param name="High">Probability of the high quantile.</param>
public sealed record SwingMethod(double Low, double High) : StudyMethod
{
    /// <inheritdoc/>
    public override string Name => "swings";
}
