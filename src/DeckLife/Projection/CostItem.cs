using DeckLife.Economics;

namespace DeckLife.Projection;

/// <summary>What one item of a price list comes to under a strategy.</summary>
/// <param name="Item">The item.</param>
/// <param name="PaidBy">Who pays.</param>
/// <param name="MeanPresentValue">Mean present value over the draws, at the deck's rate.</param>
public sealed record CostItem(string Item, Payer PaidBy, double MeanPresentValue);
