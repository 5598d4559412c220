using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Numerics.Sensitivity;
using DeckLife.Studies;

namespace DeckLife.Data.Studies;

/// <summary>A study's results as rows: every number once, the same in text, JSON, CSV and Parquet.</summary>
public static class StudyTable
{
    /// <summary>The rows, in the study's order.</summary>
    /// <param name="result">The results.</param>
    public static ImmutableArray<StudyRow> Rows(StudyResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var rows = ImmutableArray.CreateBuilder<StudyRow>();
        foreach (var item in result.Results)
        {
            var names = result.Study.Drawn.Select(i => i.Name).ToArray();
            var units = result.Study.Drawn.Select(i => i.Unit).ToArray();
            void Add(
                string input,
                string quantity,
                string unit,
                double? value,
                double? lower = null,
                double? upper = null,
                string remark = "",
                long? samples = null
            ) =>
                rows.Add(
                    new(
                        item.MethodNumber + 1,
                        item.Method.Name,
                        item.Output.Name,
                        input,
                        quantity,
                        unit,
                        value,
                        lower,
                        upper,
                        samples ?? item.Evaluations,
                        remark
                    )
                );
            void AddIndex(string input, string quantity, SobolIndex index) =>
                Add(input, quantity, "1", index.Value, index.Lower, index.Upper, index.Verdict);
            if (item.Draws is { } draws)
            {
                AddDraws(item.Output, draws, Add);
            }

            if (item.Sobol is { } sobol)
            {
                Add("", "mean", item.Output.Unit, sobol.Mean);
                Add(
                    "",
                    "variance",
                    Squared(item.Output.Unit),
                    sobol.Variance,
                    remark: sobol.HasNoVariance ? "no variance" : ""
                );
                foreach (var group in sobol.Groups)
                {
                    var label = string.Join("+", group.Inputs.Select(i => names[i]));
                    AddIndex(label, "first-order share", group.FirstOrder);
                    AddIndex(label, "total share", group.Total);
                }

                foreach (var row in sobol.Convergence)
                {
                    for (var g = 0; g < sobol.Groups.Length; g++)
                    {
                        var label = string.Join("+", sobol.Groups[g].Inputs.Select(i => names[i]));
                        Add(
                            label,
                            "convergence: first-order share",
                            "1",
                            row.FirstOrder[g],
                            samples: row.Points
                        );
                        Add(
                            label,
                            "convergence: total share",
                            "1",
                            row.Total[g],
                            samples: row.Points
                        );
                    }
                }
            }

            if (item.Shapley is { } shapley)
            {
                Add(
                    "",
                    "variance",
                    Squared(item.Output.Unit),
                    shapley.Variance,
                    remark: shapley.HasNoVariance ? "no variance" : ""
                );
                for (var i = 0; i < shapley.Effects.Length; i++)
                {
                    AddIndex(names[i], "Shapley effect", shapley.Effects[i]);
                }
            }

            if (item.Morris is { } morris)
            {
                for (var i = 0; i < morris.Inputs.Length; i++)
                {
                    var effect = morris.Inputs[i];
                    var remark = morris.HasNoVariance ? "no variance" : "";
                    var half = 1.959963984540054 * effect.StandardErrorOfMeanAbsolute;
                    Add(
                        names[i],
                        "elementary effect, mean absolute",
                        item.Output.Unit,
                        effect.MeanAbsolute,
                        Math.Max(0, effect.MeanAbsolute - half),
                        effect.MeanAbsolute + half,
                        remark
                    );
                    Add(
                        names[i],
                        "elementary effect, mean",
                        item.Output.Unit,
                        effect.Mean,
                        remark: remark
                    );
                    Add(
                        names[i],
                        "elementary effect, standard deviation",
                        item.Output.Unit,
                        effect.StandardDeviation,
                        remark: remark
                    );
                }
            }

            if (item.Swings is { } swings)
            {
                Add(
                    "",
                    "at medians",
                    item.Output.Unit,
                    swings.AtMedians,
                    remark: swings.HasNoVariance ? "no variance" : ""
                );
                foreach (var swing in swings.Swings)
                {
                    var ends = string.Create(
                        CultureInfo.InvariantCulture,
                        $"from {swing.LowInput:G5} to {swing.HighInput:G5}{(units[swing.Input] == "1" ? "" : " " + units[swing.Input])}"
                    );
                    Add(
                        names[swing.Input],
                        "swing",
                        item.Output.Unit,
                        swing.Change,
                        Math.Min(swing.AtLow, swing.AtHigh),
                        Math.Max(swing.AtLow, swing.AtHigh),
                        ends + "; limits are the output at the ends"
                    );
                }
            }

            if (item.Reliability is { } reliability)
            {
                AddReliability(reliability, names, units, Add);
            }
        }

        return rows.ToImmutable();
    }

    private delegate void Adder(
        string input,
        string quantity,
        string unit,
        double? value,
        double? lower = null,
        double? upper = null,
        string remark = "",
        long? samples = null
    );

    private static void AddDraws(StudyOutput output, DrawSummary draws, Adder add)
    {
        var reached = output.IsTime ? ", of the draws that reached" : "";
        if (draws.Probability is { } p)
        {
            add(
                "",
                output.IsEvent ? "probability" : "probability within the horizon",
                "1",
                p.Value,
                p.Lower,
                p.Upper,
                p.LimitMethod
            );
        }

        if (!output.IsEvent)
        {
            var half = 1.959963984540054 * draws.StandardErrorOfMean;
            add(
                "",
                "mean" + reached,
                output.Unit,
                draws.Mean,
                draws.Mean - half,
                draws.Mean + half,
                draws.Mean is null ? "no draw reached" : ""
            );
            add("", "standard deviation" + reached, output.Unit, draws.StandardDeviation);
        }

        foreach (var percentile in draws.Percentiles)
        {
            add(
                "",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"percentile {percentile.Percent:0.##} %"
                ),
                output.Unit,
                percentile.Value,
                remark: percentile.Value is null ? "not within the horizon" : ""
            );
        }

        foreach (var row in draws.Convergence)
        {
            var half = 1.959963984540054 * row.StandardError;
            add(
                "",
                draws.Probability is null ? "convergence: mean" : "convergence: probability",
                draws.Probability is null ? output.Unit : "1",
                row.Estimate,
                row.Estimate - half,
                row.Estimate + half,
                samples: row.Draws
            );
        }
    }

    private static void AddReliability(
        StudyReliability reliability,
        string[] names,
        string[] units,
        Adder add
    )
    {
        var sampled = reliability.Probability;
        add(
            "",
            "probability, importance sampling",
            "1",
            sampled.Value,
            sampled.Lower,
            sampled.Upper,
            sampled.LimitMethod,
            sampled.Draws
        );
        if (reliability.Points.IsEmpty)
        {
            add(
                "",
                "reliability index",
                "1",
                null,
                remark: $"no design point from the origin: {DesignPointWords.Of(reliability.FromOrigin)}"
            );
        }

        for (var k = 0; k < reliability.Points.Length; k++)
        {
            var point = reliability.Points[k];
            var label = string.Create(CultureInfo.InvariantCulture, $"design point {k + 1}: ");
            add("", label + "reliability index", "1", point.Beta);
            add("", label + "probability, first order", "1", point.Probability);
            add(
                "",
                label + "probability, second order",
                "1",
                reliability.SecondOrder[k].HohenbichlerRackwitz,
                remark: reliability.SecondOrder[k].IsValid
                    ? ""
                    : "the curvature is too strong for it"
            );
            for (var i = 0; i < names.Length; i++)
            {
                add(names[i], label + "value", units[i], point.Values[i]);
                add(names[i], label + "importance factor", "1", point.ImportanceFactors[i]);
            }
        }
    }

    private static string Squared(string unit) => unit == "1" ? "1" : $"({unit})2";
}
