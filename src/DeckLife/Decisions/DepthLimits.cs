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

    /// <summary>Names of the limits that hold, as a case that breaks one names it.</summary>
    public IEnumerable<string> Stated
    {
        get
        {
            (bool Holds, string Name)[] all =
            [
                (GradeRise is not null, GradeRiseName),
                (AddedDeadLoadKnPerM2 is not null, AddedDeadLoadName),
                (BarClearance is not null, BarClearanceName),
                (Budget is not null, BudgetName),
                (RemainingThickness is not null, RemainingThicknessName),
                (BarsExposed is not null, BarsExposedName),
            ];
            return all.Where(l => l.Holds).Select(l => l.Name);
        }
    }

    internal const string GradeRiseName = "grade rise";
    internal const string AddedDeadLoadName = "added dead load";
    internal const string BarClearanceName = "bar clearance";
    internal const string BudgetName = "budget";
    internal const string RemainingThicknessName = "remaining thickness";
    internal const string BarsExposedName = "bars exposed at once";
}
