using System.Collections.Immutable;
using DeckLife.Projection;
using DeckLife.Rehabilitation;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;

namespace DeckLife.Reporting.Sections;

/// <summary>What a strategy does, in words.</summary>
internal static class StrategyWords
{
    /// <summary>Removal of the interventions, for a table.</summary>
    public static HtmlFragment Removal(StrategyProjection strategy) =>
        Listed(
            strategy,
            (i, index) =>
                i.Removal is null
                    ? HtmlFragment.FromText("none")
                    : Depth(i.Removal, strategy, index)
        );

    /// <summary>Depth of the first removal, for the first screen.</summary>
    public static HtmlFragment RemovalDepth(StrategyProjection strategy)
    {
        var first = FirstRemoval(strategy);
        return first is null ? HtmlFragment.FromText("nothing")
            : first.Value.Rule is FixedDepthRemoval f
                ? QuantityHtml.Value(UnitScale.Depth, f.Depth.Millimetres)
            : MedianDepth(strategy, first.Value.Index) is { } mm
                ? QuantityHtml.Value(UnitScale.Depth, mm)
            : HtmlFragment.FromText("by rule");
    }

    /// <summary>What the depth of the first removal means.</summary>
    public static HtmlFragment RemovalNote(StrategyProjection strategy) =>
        FirstRemoval(strategy)?.Rule switch
        {
            null => HtmlFragment.FromText("no removal in this strategy"),
            FixedDepthRemoval => HtmlFragment.FromText("of the old concrete, everywhere"),
            ChlorideLimitRemoval c => HtmlFragment.Of(
                $"in the median, down to {QuantityHtml.Value(UnitScale.Chloride, c.Limit.KilogramsPerCubicMetre)}; at least {QuantityHtml.Value(UnitScale.Depth, c.MinimumDepth.Millimetres)}, at most {QuantityHtml.Value(UnitScale.Depth, c.MaximumDepth.Millimetres)}"
            ),
            _ => HtmlFragment.FromText("in the median, by the strategy's rule"),
        };

    private static (RemovalRule Rule, int Index)? FirstRemoval(StrategyProjection strategy) =>
        strategy
            .Strategy.Interventions.Select((i, index) => (i.Removal, index))
            .Where(r => r.Removal is not null)
            .Select(r => ((RemovalRule Rule, int Index)?)(r.Removal!, r.index))
            .FirstOrDefault();

    /// <summary>Removal in text, canonical units.</summary>
    public static string RemovalText(StrategyProjection strategy) =>
        Texts(
            strategy,
            (i, index) =>
                i.Removal switch
                {
                    null => "none",
                    FixedDepthRemoval f => Si(f.Depth.Millimetres),
                    _ => MedianDepth(strategy, index) is { } mm
                        ? $"to limit, median {Si(mm)}"
                        : "to a chloride limit",
                }
        );

    /// <summary>Whether any of its removals is as deep as a rule asks for, not as deep as was chosen.</summary>
    public static bool IsRemovalByRule(StrategyProjection strategy) =>
        strategy.Strategy.Interventions.Any(i => i.Removal is not (null or FixedDepthRemoval));

    /// <summary>Overlays of the interventions, for a table.</summary>
    public static HtmlFragment Overlay(StrategyProjection strategy) =>
        Listed(
            strategy,
            (i, _) =>
                i.Overlay is null
                    ? HtmlFragment.FromText("none")
                    : HtmlFragment.Of(
                        $"{QuantityHtml.Value(UnitScale.Depth, i.Overlay.Thickness.Millimetres)} {i.Overlay.Material}"
                    )
        );

    /// <summary>Overlays in text, canonical units.</summary>
    public static string OverlayText(StrategyProjection strategy) =>
        Texts(
            strategy,
            (i, _) =>
                i.Overlay is null
                    ? "none"
                    : $"{Si(i.Overlay.Thickness.Millimetres)} {i.Overlay.Material}"
        );

    /// <summary>Dates of the interventions, for a table.</summary>
    public static string Years(StrategyProjection strategy, int surveyYear) =>
        strategy.Strategy.Interventions.IsDefaultOrEmpty
            ? "–"
            : string.Join(
                ", ",
                strategy.Strategy.Interventions.Select(i =>
                    NumberNotation.Fixed(surveyYear + i.At.Years, 0)
                )
            );

    private static HtmlFragment Depth(RemovalRule rule, StrategyProjection strategy, int index) =>
        rule switch
        {
            FixedDepthRemoval f => QuantityHtml.Value(UnitScale.Depth, f.Depth.Millimetres),
            ChlorideLimitRemoval c => MedianDepth(strategy, index) is { } mm
                ? HtmlFragment.Of(
                    $"to {QuantityHtml.Value(UnitScale.Chloride, c.Limit.KilogramsPerCubicMetre)}, median {QuantityHtml.Value(UnitScale.Depth, mm)}"
                )
                : HtmlFragment.Of(
                    $"to {QuantityHtml.Value(UnitScale.Chloride, c.Limit.KilogramsPerCubicMetre)}"
                ),
            _ => MedianDepth(strategy, index) is { } mm
                ? HtmlFragment.Of($"median {QuantityHtml.Value(UnitScale.Depth, mm)}")
                : HtmlFragment.FromText("by rule"),
        };

    private static double? MedianDepth(StrategyProjection strategy, int index) =>
        !strategy.MedianRemovalDepthMm.IsDefault
        && index < strategy.MedianRemovalDepthMm.Length
        && double.IsFinite(strategy.MedianRemovalDepthMm[index])
            ? strategy.MedianRemovalDepthMm[index]
            : null;

    private static string Si(double mm) => QuantityHtml.Text(UnitScale.Depth, mm, UnitSystem.Si);

    private static HtmlFragment Listed(
        StrategyProjection strategy,
        Func<Intervention, int, HtmlFragment> word
    )
    {
        var all = strategy.Strategy.Interventions;
        return all.IsDefaultOrEmpty ? HtmlFragment.FromText("none")
            : all.Length == 1 ? word(all[0], 0)
            : HtmlFragment.Join(all.Select((i, n) => HtmlFragment.Of($"<div>{word(i, n)}</div>")));
    }

    private static string Texts(
        StrategyProjection strategy,
        Func<Intervention, int, string> word
    ) =>
        strategy.Strategy.Interventions.IsDefaultOrEmpty
            ? "none"
            : string.Join("; ", strategy.Strategy.Interventions.Select(word));
}
