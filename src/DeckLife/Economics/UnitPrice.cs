namespace DeckLife.Economics;

/// <summary>One price.</summary>
/// <param name="Item">What is paid, in words.</param>
/// <param name="Basis">What it is paid for.</param>
/// <param name="Amount">Price for one unit of <paramref name="Basis"/>, in the list's currency.</param>
/// <param name="Material">The overlay material it belongs to; absent: any.</param>
public sealed record UnitPrice(string Item, PriceBasis Basis, double Amount, string? Material);
