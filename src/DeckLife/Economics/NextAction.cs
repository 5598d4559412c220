using DeckLife.Population;

namespace DeckLife.Economics;

/// <summary>What is done when the end criterion is met, before the deck is renewed: another overlay, a replacement.</summary>
/// <param name="Action">What is done, in words.</param>
/// <param name="AmountPerM2">Price for a square metre of deck, in the list's currency; its mean where it is uncertain.</param>
/// <param name="LifeYr">How long it lasts until the next action [yr].</param>
public sealed record NextAction(string Action, double AmountPerM2, UncertainValue LifeYr)
{
    /// <summary>Coefficient of variation of the price, lognormal.</summary>
    public double CoefficientOfVariation { get; init; }
}
