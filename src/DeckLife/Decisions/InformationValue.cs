namespace DeckLife.Decisions;

/// <summary>What an offer is worth before deciding.</summary>
/// <param name="Offer">The offer.</param>
/// <param name="Value">Mean present value saved by deciding after it rather than now, before its own price; below 0 only by chance.</param>
/// <param name="ErrorOfValue">Monte Carlo standard error of it.</param>
/// <param name="ChangeProbability">Probability that it would change the decision.</param>
/// <param name="EffectiveDraws">Effective number of draws that a learned state rests on, mean: few mean that more draws are needed.</param>
public sealed record InformationValue(
    InformationOffer Offer,
    double Value,
    double ErrorOfValue,
    double ChangeProbability,
    double EffectiveDraws
)
{
    /// <summary>Value less price; absent where no price is stated.</summary>
    public double? Net => Offer.Price is { } price ? Value - price : null;
}
