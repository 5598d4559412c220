using System.Collections.Immutable;
using DeckLife.Numerics.Sensitivity;
using DeckLife.Reporting.Charts;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;
using DeckLife.Studies;

namespace DeckLife.Reporting.Studies;

/// <summary>Charts of a study's results, each with the numbers behind it.</summary>
public static class StudyCharts
{
    /// <summary>The one-at-a-time swings of an output, the widest on top.</summary>
    /// <param name="result">The study's results.</param>
    /// <param name="kind">The output.</param>
    /// <returns>The chart; absent where the study has no swings of such an output.</returns>
    public static ReportChart? Swings(StudyResult result, StudyOutputKind kind)
    {
        ArgumentNullException.ThrowIfNull(result);
        if (
            result.Results.FirstOrDefault(r => r.Output.Kind == kind && r.Swings is not null)
            is not { Swings: { } swings } item
        )
        {
            return null;
        }

        var drawn = result.Study.Drawn;
        var figure = new Figure();
        foreach (
            var (side, name) in (ReadOnlySpan<(bool, string)>)
                [(false, "input low"), (true, "input high")]
        )
        {
            figure.Add(
                "bar",
                ("orientation", "h"),
                ("name", name),
                (
                    "y",
                    swings.Swings.Select(s => HtmlEscape.ChartLabel(drawn[s.Input].Name)).ToArray()
                ),
                (
                    "x",
                    swings
                        .Swings.Select(s => (side ? s.AtHigh : s.AtLow) - swings.AtMedians)
                        .ToArray()
                ),
                ("base", swings.Swings.Select(_ => swings.AtMedians).ToArray()),
                ("marker", new { color = ChartPalette.Line(side ? 1 : 0) })
            );
        }

        var json = figure
            .Layout(
                ("xaxis", Figure.Axis($"{item.Output.Name} [{item.Output.Unit}]")),
                (
                    "yaxis",
                    Figure.Axis(
                        "",
                        ("autorange", "reversed"),
                        ("type", "category"),
                        ("automargin", true)
                    )
                ),
                ("barmode", "overlay")
            )
            .ToJson();
        return new(
            $"Swing of {item.Output.Name}",
            "Each input from its low to its high quantile alone, the others at their medians. Interactions and dependence are not seen.",
            string.Join(
                " ",
                swings.Swings.Select(s =>
                    $"{drawn[s.Input].Name}: from {NumberNotation.Significant(s.AtLow)} to {NumberNotation.Significant(s.AtHigh)} {item.Output.Unit}."
                )
            ),
            120 + (44 * swings.Swings.Length),
            json,
            json,
            new(
                $"Swings of {item.Output.Name} [{item.Output.Unit}]",
                [
                    new("Input"),
                    new("Low input", true),
                    new("High input", true),
                    new("Unit"),
                    new("Output at low", true),
                    new("Output at high", true),
                ],
                [
                    .. swings.Swings.Select(s =>
                        ImmutableArray.Create(
                            ReportCell.Words(drawn[s.Input].Name),
                            ReportCell.Number(s.LowInput),
                            ReportCell.Number(s.HighInput),
                            ReportCell.Words(drawn[s.Input].Unit),
                            ReportCell.Number(s.AtLow),
                            ReportCell.Number(s.AtHigh)
                        )
                    ),
                ]
            )
        );
    }

    /// <summary>First-order and total shares of an output's variance, with their limits and verdicts.</summary>
    /// <param name="result">The study's results.</param>
    /// <param name="kind">The output.</param>
    /// <returns>The chart; absent where the study has no shares of such an output.</returns>
    public static ReportChart? Shares(StudyResult result, StudyOutputKind kind)
    {
        ArgumentNullException.ThrowIfNull(result);
        if (
            result.Results.FirstOrDefault(r =>
                r.Output.Kind == kind && r.Sobol is { HasNoVariance: false }
            )
            is not { Sobol: { } sobol } item
        )
        {
            return null;
        }

        string Label(SobolGroupResult g) =>
            string.Join("+", g.Inputs.Select(i => result.Study.Drawn[i].Name));
        var figure = new Figure();
        foreach (var isTotal in (ReadOnlySpan<bool>)[false, true])
        {
            var shares = sobol.Groups.Select(g => isTotal ? g.Total : g.FirstOrder).ToArray();
            figure.Add(
                "bar",
                ("name", isTotal ? "total" : "first order"),
                ("x", sobol.Groups.Select(g => HtmlEscape.ChartLabel(Label(g))).ToArray()),
                ("y", shares.Select(s => s.Value).ToArray()),
                (
                    "error_y",
                    new
                    {
                        type = "data",
                        symmetric = false,
                        array = shares.Select(s => s.Upper - s.Value).ToArray(),
                        arrayminus = shares.Select(s => s.Value - s.Lower).ToArray(),
                    }
                ),
                ("marker", new { color = ChartPalette.Line(isTotal ? 1 : 0) })
            );
        }

        var json = figure
            .Layout(
                ("xaxis", Figure.Axis("", ("type", "category"), ("automargin", true))),
                ("yaxis", Figure.Axis("Share of the variance [1]")),
                ("barmode", "group")
            )
            .ToJson();
        return new(
            $"Shares of the variance of {item.Output.Name}",
            "First order: what an input explains by itself; total: with every interaction it takes part in. Bars: 95 % limits.",
            string.Join(
                " ",
                sobol.Groups.Select(g =>
                    $"{Label(g)}: first order {NumberNotation.Significant(g.FirstOrder.Value)} ({g.FirstOrder.Verdict}), total {NumberNotation.Significant(g.Total.Value)}."
                )
            ),
            360,
            json,
            json,
            new(
                $"Shares of the variance of {item.Output.Name}",
                [
                    new("Input"),
                    new("First order", true),
                    new("Lower 95 %", true),
                    new("Upper 95 %", true),
                    new("Verdict"),
                    new("Total", true),
                    new("Lower 95 %", true),
                    new("Upper 95 %", true),
                ],
                [
                    .. sobol.Groups.Select(g =>
                        ImmutableArray.Create(
                            ReportCell.Words(Label(g)),
                            ReportCell.Number(g.FirstOrder.Value),
                            ReportCell.Number(g.FirstOrder.Lower),
                            ReportCell.Number(g.FirstOrder.Upper),
                            ReportCell.Words(g.FirstOrder.Verdict),
                            ReportCell.Number(g.Total.Value),
                            ReportCell.Number(g.Total.Lower),
                            ReportCell.Number(g.Total.Upper)
                        )
                    ),
                ]
            )
        );
    }
}
