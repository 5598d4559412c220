using System.Collections.Immutable;
using DeckLife.Population;
using DeckLife.Rehabilitation;

namespace DeckLife.Decisions;

/// <summary>Works out what a case has of each limited quantity, and which limits it breaks.</summary>
internal sealed class LimitJudge(Deck deck, CoverSurvey cover, DepthLimits limits)
{
    /// <summary>Share of the area undercut below which no bar counts as undercut: rounding of a share of points.</summary>
    private const double LeastUndercut = 0.0005;

    private const double Rounding = 1e-9;

    private readonly double keptCoverMm = cover
        .Draw(0.5, 0)
        .Quantile(1 - Math.Clamp(limits.BarClearanceShare, 0, 1));

    /// <summary>The case with its numbers and broken limits.</summary>
    public DepthMapCell Judge(DepthMapCell cell)
    {
        if (cell.Projection is not { Interventions.IsEmpty: false } projection)
        {
            return cell;
        }

        var work = projection.Interventions[0];
        var deepest = work.DepthClasses.Max(c => c.DepthMm);
        var undercut = work.UndercutFraction.P50;
        // The deepest undercut bar lies with its middle just above the removed surface.
        var reach =
            undercut > LeastUndercut
                ? deepest + (0.5 * deck.TopBarDiameter.Millimetres) + BarRule.ClearUnderBarMm
                : deepest;
        var values = cell.Outcomes?.PresentValues ?? [];
        var mean = values.IsEmpty ? (double?)null : values.Average();
        var judged = cell with
        {
            ExpectedYears = cell.Outcomes?.ExpectedYears(deck.Horizon.Years),
            ExpectedPresentValue = mean,
            ErrorOfPresentValue = values.IsEmpty ? null : PairedMean.Of(values).Error,
            FirstCost = cell.Outcomes is { FirstCosts.IsEmpty: false } o
                ? o.FirstCosts.Average()
                : null,
            RemainingMm = deck.Thickness.Millimetres - reach,
            BarsExposed = work.ExposedAtOnceFraction.P50,
            BarClearanceMm = keptCoverMm - deepest,
        };
        var broken = ImmutableArray.CreateBuilder<LimitBreach>();
        Most(DepthLimits.GradeRiseName, work.GradeRiseMm, limits.GradeRise?.Millimetres, "mm");
        Most(
            DepthLimits.AddedDeadLoadName,
            work.AddedDeadLoadKnPerM2,
            limits.AddedDeadLoadKnPerM2,
            "kN/m2"
        );
        Least(
            DepthLimits.BarClearanceName,
            judged.BarClearanceMm,
            limits.BarClearance?.Millimetres,
            "mm"
        );
        Most(DepthLimits.BudgetName, judged.FirstCost, limits.Budget, deck.Prices?.Currency ?? "");
        Least(
            DepthLimits.RemainingThicknessName,
            judged.RemainingMm,
            limits.RemainingThickness?.Millimetres,
            "mm"
        );
        Most(DepthLimits.BarsExposedName, judged.BarsExposed, limits.BarsExposed, "");
        var specification = deck
            .Materials.FirstOrDefault(m => m.Name == cell.Material)
            ?.Specification;
        Least(
            "least thickness of the specification",
            cell.Thickness.Millimetres,
            specification?.LeastThickness?.Millimetres,
            "mm"
        );
        Most(
            "greatest thickness of the specification",
            cell.Thickness.Millimetres,
            specification?.GreatestThickness?.Millimetres,
            "mm"
        );
        return judged with { Broken = broken.ToImmutable() };

        void Most(string name, double? value, double? allowed, string unit)
        {
            if (allowed is { } most && !(value <= most + (Rounding * Math.Abs(most)) + Rounding))
            {
                broken.Add(new(name, value, most, unit));
            }
        }

        void Least(string name, double? value, double? allowed, string unit)
        {
            if (allowed is { } least && !(value >= least - (Rounding * Math.Abs(least)) - Rounding))
            {
                broken.Add(new(name, value, least, unit));
            }
        }
    }
}
