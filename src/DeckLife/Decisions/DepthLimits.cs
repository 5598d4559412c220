using DeckLife.Quantities;

namespace DeckLife.Decisions;

/// <summary>Limits that a removal and overlay must keep; one that is absent does not hold.</summary>
public sealed record DepthLimits
{
    /// <summary>Greatest rise of the finished grade.</summary>
    public Depth? GradeRise { get; init; }

    /// <summary>Greatest added dead load [kN/m²], mean over the deck.</summary>
    public double? AddedDeadLoadKnPerM2 { get; init; }

    /// <summary>Least distance between the removed surface and the top of the bars, kept over <see cref="BarClearanceShare"/> of the deck.</summary>
    public Depth? BarClearance { get; init; }

    /// <summary>Share of the deck over which <see cref="BarClearance"/> is kept.</summary>
    public double BarClearanceShare { get; init; } = 0.95;

    /// <summary>Greatest present value of the intervention, mean over the draws, in the price list's currency.</summary>
    public double? Budget { get; init; }

    /// <summary>Least thickness of old concrete that is left where removal goes deepest.</summary>
    public Depth? RemainingThickness { get; init; }

    /// <summary>Greatest share of the bars exposed at once, repairs counted.</summary>
    public double? BarsExposed { get; init; }
}
