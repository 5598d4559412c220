namespace DeckLife.Placement;

/// <summary>An estimate with the band that its scatter leaves.</summary>
/// <param name="Low">Lower end.</param>
/// <param name="Estimate">The estimate.</param>
/// <param name="High">Upper end.</param>
public readonly record struct EstimateBand(double Low, double Estimate, double High)
{
    /// <summary>Compares the band with a limit; a band that touches the limit straddles it.</summary>
    /// <param name="limit">The limit, in the estimate's unit.</param>
    public BandOutcome Against(double limit) =>
        High < limit ? BandOutcome.Below
        : Low > limit ? BandOutcome.Above
        : BandOutcome.Straddles;
}
