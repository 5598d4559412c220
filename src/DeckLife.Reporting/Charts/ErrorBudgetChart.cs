using System.Collections.Immutable;
using DeckLife.Decisions;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Charts;

/// <summary>What each headline number's band is made of, as one bar a number.</summary>
public static class ErrorBudgetChart
{
    private static readonly int[] Whole = [0, 100];
    private const string Points = "finite points and steps";
    private const string Together = "sources acting together";
    private const string Rest = "not explained";

    // Okabe and Ito's palette has a seventh colour for seven sources.
    private const string Seventh = "#F0E442";

    /// <summary>Draws the chart; nothing where there are no budgets.</summary>
    /// <param name="budgets">The budgets.</param>
    public static ReportChart? Draw(ImmutableArray<ErrorBudget> budgets)
    {
        if (budgets.IsDefaultOrEmpty)
        {
            return null;
        }

        var names = budgets
            .Select(b => HtmlEscape.WrappedChartLabel($"{b.Strategy}: {b.Number}"))
            .ToArray();
        var sources = budgets
            .SelectMany(b => b.Shares.Select(s => s.Source))
            .Distinct()
            .Order()
            .ToArray();
        var figure = new Figure();
        for (var i = 0; i < sources.Length; i++)
        {
            Bar(
                DecisionPhrases.Of(sources[i]),
                i < ChartPalette.Lines.Length ? ChartPalette.Line(i) : Seventh,
                [
                    .. budgets.Select(b =>
                        b.Shares.FirstOrDefault(s => s.Source == sources[i])?.Share ?? 0
                    ),
                ]
            );
        }

        Bar(Points, "#444444", [.. budgets.Select(b => b.NumericalShare ?? 0)]);
        var together = budgets
            .Select(b =>
                Math.Clamp(b.Together - b.Shares.Sum(s => s.Share), 0, Math.Max(0, b.NotAttributed))
            )
            .ToArray();
        Bar(Together, "#BBBBBB", together);
        Bar(
            Rest,
            "#EEEEEE",
            [.. budgets.Select((b, i) => Math.Max(0, b.NotAttributed - together[i]))]
        );
        var json = figure
            .Layout(
                ("barmode", "stack"),
                ("xaxis", Figure.Axis("Share of the variance [%]", ("range", Whole))),
                ("yaxis", Figure.Axis("", ("autorange", "reversed"), ("type", "category")))
            )
            .ToJson();
        return new ReportChart(
            "What each band is made of",
            "Each bar: the variance of one number over what is not known, by source, each by itself. Grey: sources acting together; pale: more than a smooth surface explains. Variation over the deck is no part of it: it is what the damaged share counts.",
            string.Join(
                " ",
                budgets.Select(b =>
                    b.Shares.IsEmpty
                        ? $"{b.Strategy}, {b.Number}: nothing that is not known is recorded."
                        : $"{b.Strategy}, {b.Number}: most from {DecisionPhrases.Of(b.Shares[0].Source)}, {NumberNotation.Percent(b.Shares[0].Share)}."
                )
            ),
            150 + (56 * budgets.Length),
            json,
            json,
            new(
                "What each band is made of",
                [
                    new("Strategy"),
                    new("Number"),
                    new("Standard deviation", true),
                    new("Monte Carlo error of the mean", true),
                    .. sources.Select(s => new ReportColumn(DecisionPhrases.Of(s), true)),
                    new("Finite points and steps", true),
                    new("All together", true),
                ],
                [
                    .. budgets.Select(b =>
                        ImmutableArray.Create<ReportCell>([
                            ReportCell.Words(b.Strategy),
                            ReportCell.Words($"{b.Number} [{b.Unit}]"),
                            ReportCell.Number(b.StandardDeviation),
                            ReportCell.Number(b.MonteCarloError),
                            .. sources.Select(s =>
                                ReportCell.Percent(
                                    b.Shares.FirstOrDefault(x => x.Source == s)?.Share
                                )
                            ),
                            ReportCell.Percent(b.NumericalShare),
                            ReportCell.Percent(b.Together),
                        ])
                    ),
                ]
            )
        )
        {
            KeepsHeight = true,
        };

        void Bar(string name, string colour, double[] shares) =>
            figure.Add(
                "bar",
                ("orientation", "h"),
                ("name", name),
                ("y", names),
                ("x", shares.Select(s => 100 * s).ToArray()),
                ("marker", new { color = colour }),
                ("hovertemplate", $"{name}: %{{x:.0f}} %<extra></extra>")
            );
    }
}
