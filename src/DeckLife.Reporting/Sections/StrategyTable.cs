using System.Collections.Immutable;
using DeckLife.Projection;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>The strategies side by side: what they do, how long they last, what they cost, how sure the ranking is.</summary>
public static class StrategyTable
{
    /// <summary>Makes the table.</summary>
    /// <param name="projection">The projection.</param>
    public static ReportTable Of(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        var priced = projection.Strategies.FirstOrDefault(s => s.Cost is not null)?.Cost;
        var columns = ImmutableArray.Create<ReportColumn>(
            new("Strategy"),
            new("Year"),
            new("Removal"),
            new("Overlay"),
            new("Years to the limit, median (5\u00A0to\u00A095\u00A0%)")
            {
                Basis = SourceAnchor.ServiceLife,
            }
        );
        if (priced is not null)
        {
            columns = columns.AddRange(
                new ReportColumn(
                    $"Present value, {priced.Currency} of {priced.PriceYear}, mean (5\u00A0to\u00A095\u00A0%)",
                    true
                )
                {
                    Basis = SourceAnchor.PresentValue,
                },
                new ReportColumn("Probability of being the cheapest", true)
                {
                    Basis = SourceAnchor.Cheapest,
                },
                new ReportColumn("Expected regret", true, FixedUnit: priced.Currency)
                {
                    Basis = SourceAnchor.Cheapest,
                }
            );
        }

        return new(
            $"Strategies compared. Limit: {string.Join("; ", projection.Strategies.Select(s => s.ServiceLife.Criterion).Distinct(StringComparer.Ordinal))}",
            columns,
            [.. projection.Strategies.Select((s, i) => Row(projection, s, i, priced is not null))]
        )
        {
            StacksOnPhones = true,
        };
    }

    private static ImmutableArray<ReportCell> Row(
        DeckProjection projection,
        StrategyProjection s,
        int index,
        bool withCost
    )
    {
        var key = new HtmlFragment(
            $"<i class=\"dl-key dl-key-{index % 6}\" aria-hidden=\"true\"></i>"
        );
        var chosen = SourceAnchor.Strategy(projection.Deck, s.Strategy.Name);
        var row = ImmutableArray.Create(
            ReportCell.Fragment(HtmlFragment.Of($"{key}{s.Strategy.Name}"), s.Strategy.Name),
            ReportCell.Words(StrategyWords.Years(s, projection.Deck.SurveyYear)) with
            {
                Basis = chosen,
            },
            ReportCell.Fragment(StrategyWords.Removal(s), StrategyWords.RemovalText(s)) with
            {
                Basis = StrategyWords.IsRemovalByRule(s) ? SourceAnchor.RemovalDepth : chosen,
            },
            ReportCell.Fragment(StrategyWords.Overlay(s), StrategyWords.OverlayText(s)) with
            {
                Basis = chosen,
            },
            ReportCell.Words(LifeText.Brief(s.ServiceLife, projection.Deck.Horizon.Years))
        );
        return withCost
            ? row.AddRange(
                s.Cost is { } cost
                    ? ReportCell.Words(
                        $"{Thousands(cost.MeanPresentValue)} ({Thousands(cost.PresentValue.P05)}–{Thousands(cost.PresentValue.P95)})"
                    )
                    : ReportCell.Missing("no price"),
                Cheapest(s),
                s.ExpectedRegret is { } regret
                    ? new(HtmlFragment.FromText(Thousands(regret)), Thousands(regret), regret)
                    : ReportCell.Missing("not ranked")
            )
            : row;
    }

    /// <summary>The Monte Carlo error of the probability of being the cheapest, with its sign; nothing where there is none.</summary>
    internal static string Error(StrategyProjection strategy) =>
        strategy.ErrorOfCheapestProbability is { } error
            ? $" (±{NumberNotation.Percent(error)})"
            : "";

    private static ReportCell Cheapest(StrategyProjection strategy)
    {
        var cell = ReportCell.Percent(strategy.CheapestProbability);
        return cell with
        {
            Html = HtmlFragment.Of($"{cell.Html}<span class=\"dl-se\">{Error(strategy)}</span>"),
            Text = cell.Text + Error(strategy),
        };
    }

    private static string Thousands(double amount) => NumberNotation.Money(amount, "").TrimStart();
}
