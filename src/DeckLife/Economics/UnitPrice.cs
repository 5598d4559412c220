namespace DeckLife.Economics;

/// <summary>One price.</summary>
/// <param name="Item">What is paid, in words.</param>
/// <param name="Basis">What it is paid for.</param>
/// <param name="Amount">Price for one unit of <paramref name="Basis"/>, in the list's currency; its mean where it is uncertain.</param>
/// <param name="Material">The overlay material it belongs to; absent: any.</param>
public sealed record UnitPrice(string Item, PriceBasis Basis, double Amount, string? Material)
{
    /// <summary>Coefficient of variation of the price, lognormal; 0 for a price that is known.</summary>
    public double CoefficientOfVariation { get; init; }

    /// <summary>Who pays.</summary>
    public Payer PaidBy { get; init; }

    /// <summary>What the price includes, in words; absent: not stated.</summary>
    public string? Includes { get; init; }

    /// <summary>Growth of this price a year beyond general inflation, as a fraction; absent: the list's.</summary>
    public double? GrowthPerYr { get; init; }

    /// <summary>Depth class of <see cref="PriceBasis.RemovedArea"/>: deeper than this [mm]; where not stated: 0.</summary>
    public double FromDepthMm { get; init; }

    /// <summary>Depth class of <see cref="PriceBasis.RemovedArea"/>: up to this [mm]; absent: any deeper.</summary>
    public double? ToDepthMm { get; init; }
}
