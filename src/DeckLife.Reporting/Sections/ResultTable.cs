using System.Collections.Immutable;
using DeckLife.Decisions;
using DeckLife.Projection;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Tables;
using static System.FormattableString;

namespace DeckLife.Reporting.Sections;

/// <summary>How each kind of number on a report is made, and what it rests on: links to the inputs and assumptions.</summary>
public static class ResultTable
{
    /// <summary>Makes the table.</summary>
    /// <param name="projection">The projection.</param>
    /// <param name="map">Removal depth against overlay thickness, where the report shows it.</param>
    /// <param name="decision">How firm the decision is, where the report shows it.</param>
    public static ReportTable Of(
        DeckProjection projection,
        DepthMap? map = null,
        DecisionAnalysis? decision = null
    )
    {
        ArgumentNullException.ThrowIfNull(projection);
        var names = All(projection, map, decision)
            .Select(r => (r.Anchor, r.Name))
            .Concat(InputRows.Of(projection.Deck).Select(r => (r.Anchor, r.Name)))
            .ToDictionary(r => r.Anchor, r => r.Name, StringComparer.Ordinal);
        return new(
            "How each number is made",
            [new("Number"), new("How it is made"), new("Rests on")],
            [
                .. All(projection, map, decision)
                    .Select(r =>
                        ImmutableArray.Create(
                            ReportCell.Fragment(
                                HtmlFragment.Of($"<span id=\"{r.Anchor}\">{r.Name}</span>"),
                                r.Name
                            ),
                            ReportCell.Words(r.How),
                            RestsOn(r, names, projection)
                        )
                    ),
            ]
        )
        {
            StacksOnPhones = true,
        };
    }

    private static ReportCell RestsOn(
        Result result,
        Dictionary<string, string> names,
        DeckProjection projection
    )
    {
        var links = result
            .Basis.Where(names.ContainsKey)
            .Select(
                (a, i) => HtmlFragment.Of($"{(i > 0 ? "; " : "")}<a href=\"#{a}\">{names[a]}</a>")
            );
        var assumed = result.IsProjected
            ? HtmlFragment.Of(
                $"; assumptions {HtmlFragment.Join(AssumptionTable.All(projection).Select((_, i) => HtmlFragment.Of($"{(i > 0 ? ", " : "")}{AssumptionTable.Link(i)}")))}"
            )
            : HtmlFragment.Empty;
        return ReportCell.Fragment(
            HtmlFragment.Of($"{HtmlFragment.Join(links)}{assumed}"),
            string.Join("; ", result.Basis.Where(names.ContainsKey).Select(a => names[a]))
                + (result.IsProjected ? "; all assumptions" : "")
        );
    }

    private static ImmutableArray<Result> Results(DeckProjection projection)
    {
        var deck = projection.Deck;
        var materials = deck.Materials.Select((_, i) => SourceAnchor.Material(i));
        var strategies = deck.Strategies.Select(s => SourceAnchor.Strategy(deck, s.Name)).ToList();
        var prices = (deck.Prices?.Items ?? []).Select((_, i) => SourceAnchor.Price(i)).ToList();
        return
        [
            new(
                SourceAnchor.CoreFit,
                "Estimates of a core",
                "Fick's second law fitted to the slices' means by least squares; ± is one standard error. Slices left out are listed with their reason.",
                [SourceAnchor.Chlorides, SourceAnchor.Exposure, SourceAnchor.Density],
                false
            ),
            new(
                SourceAnchor.DeckFit,
                "Estimates of the deck",
                $"All usable cores together: {projection.Fit.Method}.",
                [SourceAnchor.CoreFit],
                false
            ),
            new(
                SourceAnchor.Condition,
                "Initiated, damaged and patched area by year",
                Invariant(
                    $"{projection.Settings.Draws} draws of what is not known; in each, {projection.Settings.Points} points of the deck with their own cover, chloride and threshold. A year's share is the share of points; line and band are its median and 5th to 95th percentile over the draws."
                ),
                [
                    SourceAnchor.DeckFit,
                    SourceAnchor.Covers,
                    SourceAnchor.Threshold,
                    SourceAnchor.Propagation,
                    .. materials,
                    .. strategies,
                    SourceAnchor.Soundings,
                    SourceAnchor.HalfCells,
                    SourceAnchor.Analysis,
                ],
                true
            ),
            new(
                SourceAnchor.ServiceLife,
                "Years to the limit",
                "In each draw, the first time at which the strategy's end criterion is met, counted from the survey; median and percentiles over the draws.",
                [SourceAnchor.Condition, SourceAnchor.DamageLimit, SourceAnchor.Horizon],
                true
            ),
            new(
                SourceAnchor.RemovalDepth,
                "Removal depth by a rule",
                "In each draw, the depth that the rule asks for at each point, in depth classes that a contractor can follow; median over points and draws.",
                [SourceAnchor.DeckFit, .. strategies],
                true
            ),
            new(
                SourceAnchor.Work,
                "Quantities of the work",
                "Areas and volumes of each draw at the time of the work; medians over the draws.",
                [SourceAnchor.Condition, SourceAnchor.Area, SourceAnchor.Slab, .. strategies],
                true
            ),
            new(
                SourceAnchor.PresentValue,
                "Present value",
                "Quantities of each draw times unit prices at their dates, discounted to the survey; median and percentiles over the draws.",
                [
                    SourceAnchor.Work,
                    SourceAnchor.ServiceLife,
                    .. prices,
                    "basis-renewal-life",
                    SourceAnchor.Discount,
                    SourceAnchor.Horizon,
                ],
                true
            ),
            new(
                SourceAnchor.Cheapest,
                "Probability of being the cheapest",
                "Share of the draws in which the strategy has the lowest present value of all; ± is its Monte Carlo standard error. Expected regret is the mean over the draws of what the strategy costs more than the cheapest of the same draw: the least one belongs to the strategy of least mean present value.",
                [SourceAnchor.PresentValue, .. strategies],
                true
            ),
        ];
    }

    private static IEnumerable<Result> All(
        DeckProjection projection,
        DepthMap? map,
        DecisionAnalysis? decision
    )
    {
        foreach (var result in Results(projection))
        {
            yield return result;
        }

        if (map is not null)
        {
            yield return Mapped(map);
        }

        if (decision is not null)
        {
            yield return new(
                SourceAnchor.Decision,
                "How firm the decision is",
                "From the draws behind the present values: how the difference between strategies moves with each input, and how what a survey would find reweighs the draws; Monte Carlo errors stand beside.",
                [SourceAnchor.PresentValue, SourceAnchor.Cheapest],
                true
            );
        }

        if (projection.Map is not null)
        {
            yield return new(
                SourceAnchor.Map,
                "Probability at each place of the deck",
                "The deck's projected share, laid over the deck by what the surveys saw at each place and near it.",
                [
                    SourceAnchor.Condition,
                    SourceAnchor.HalfCells,
                    SourceAnchor.Soundings,
                    SourceAnchor.Covers,
                ],
                true
            );
        }
    }

    private static Result Mapped(DepthMap map) =>
        new(
            SourceAnchor.DepthMap,
            "Removal depth against overlay thickness",
            Invariant(
                $"{map.Cells.Length} cases, each projected like a strategy of the deck; all share the same draws, fewer than the strategies', so that differences between cases are not chance. Its section says which limits a case has to keep."
            ),
            [SourceAnchor.Condition, SourceAnchor.PresentValue, SourceAnchor.Slab],
            true
        );

    private sealed record Result(
        string Anchor,
        string Name,
        string How,
        ImmutableArray<string> Basis,
        bool IsProjected
    );
}
