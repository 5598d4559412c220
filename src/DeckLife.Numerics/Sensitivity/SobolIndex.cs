namespace DeckLife.Numerics.Sensitivity;

/// <summary>A share of an output's variance with its limits.</summary>
/// <param name="Value">The estimate; estimates of small shares can lie below 0.</param>
/// <param name="Lower">Lower limit, 95 %.</param>
/// <param name="Upper">Upper limit, 95 %.</param>
/// <param name="IsToldApartFromZero">Whether the sample shows that the share is above 0: the lower limit is.</param>
public sealed record SobolIndex(double Value, double Lower, double Upper, bool IsToldApartFromZero)
{
    /// <summary>The verdict in words.</summary>
    public string Verdict => IsToldApartFromZero ? "above 0" : "not told apart from 0";
}
