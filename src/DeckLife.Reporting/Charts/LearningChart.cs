using System.Collections.Immutable;
using DeckLife.Projection;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Charts;

/// <summary>What the deck's own surveys changed: the untouched deck by the cores alone, and after learning from the surveys.</summary>
public static class LearningChart
{
    /// <summary>Draws the chart; nothing where no survey could teach the model.</summary>
    /// <param name="projection">The projection.</param>
    public static ReportChart? Draw(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        if (projection.Hindcast is not { } hindcast)
        {
            return null;
        }

        var start = projection.Deck.SurveyYear;
        var figure = new Figure();
        Add(
            figure,
            hindcast.CurveBefore,
            start,
            "by cores and covers alone",
            ChartPalette.LeftOut,
            "dash"
        );
        if (hindcast.CurveAfter is { } after)
        {
            Add(
                figure,
                after,
                start,
                "after learning from the surveys",
                ChartPalette.Measured,
                "solid"
            );
        }

        if (hindcast.SurveyedUnsound is { } unsound)
        {
            figure.Add(
                "scatter",
                ("x", new double[] { start }),
                ("y", new[] { 100 * (unsound + hindcast.SurveyedPatched) }),
                ("mode", "markers"),
                ("name", "found by sounding, or patched"),
                (
                    "marker",
                    new
                    {
                        symbol = "diamond",
                        size = 11,
                        color = ChartPalette.Fitted,
                    }
                ),
                ("hovertemplate", "%{y:.1f} %<extra></extra>")
            );
        }

        var json = figure
            .Layout(
                ("xaxis", Figure.Axis("Year", ("tickformat", "d"))),
                ("yaxis", Figure.Axis("Damaged or patched [%]", ("rangemode", "tozero")))
            )
            .ToJson();
        return new(
            "What the surveys changed",
            hindcast.IsLearned
                ? "The deck that nothing is done to, before and after the model learned from sounding and half-cell. Line: median; shaded: 5th to 95th percentile. What was learned from is no validation."
                : "The deck that nothing is done to. The surveys agree with too few draws to be learned from: the projection rests on cores and covers alone.",
            Words(hindcast),
            340,
            json,
            json,
            Table(hindcast)
        );
    }

    private static void Add(
        Figure figure,
        ImmutableArray<CurvePoint> curve,
        int start,
        string name,
        string colour,
        string dash
    )
    {
        BandTraces.Add(
            figure,
            [.. curve.Select(p => start + p.TimeYr)],
            [.. curve.Select(p => p.DamagedOrPatched)],
            name,
            colour,
            dash,
            "0.18",
            "%{x:.0f}: %{y:.1f} %<extra></extra>"
        );
    }

    private static string Words(SurveyHindcast hindcast)
    {
        string Band(PercentileBand band) =>
            $"{NumberNotation.Percent(band.P50)} ({NumberNotation.Percent(band.P05)} to {NumberNotation.Percent(band.P95)})";
        var text =
            $"Damaged or patched share at the survey by cores and covers alone: {Band(hindcast.CurveBefore[0].DamagedOrPatched)}";
        return hindcast.CurveAfter is { } after
            ? $"{text}; after learning from the surveys: {Band(after[0].DamagedOrPatched)}. In the last year: {Band(hindcast.CurveBefore[^1].DamagedOrPatched)} and {Band(after[^1].DamagedOrPatched)}."
            : text + "; nothing could be learned from the surveys.";
    }

    private static ReportTable Table(SurveyHindcast hindcast)
    {
        var rows = ImmutableArray.CreateBuilder<ImmutableArray<ReportCell>>();
        void Row(string what, ReportCell value) => rows.Add([ReportCell.Words(what), value]);
        Row(
            "Found hollow or spalled, share of the deck",
            ReportCell.Percent(hindcast.SurveyedUnsound)
        );
        Row("Patched, share of the deck", ReportCell.Percent(hindcast.SurveyedPatched));
        Row("Places that the sounding is worth", ReportCell.Number(hindcast.SoundingPlaces));
        Row("Half-cell nodes that count", ReportCell.Whole(hindcast.Nodes));
        Row("Independent nodes that they are worth", ReportCell.Number(hindcast.IndependentNodes));
        Row(
            "Corroding by half-cell alone, share of the nodes' places",
            ReportCell.Percent(hindcast.CorrodingByHalfCell)
        );
        Row(
            "Probability of such a sounding before learning, two-sided",
            ReportCell.Percent(hindcast.SoundingPredictive)
        );
        Row(
            "Probability of such a half-cell survey before learning, two-sided",
            ReportCell.Percent(hindcast.HalfCellPredictive)
        );
        Row("Draws weighed", ReportCell.Whole(hindcast.DrawsWeighed));
        Row(
            "Effective number of draws left (none called learned below 100)",
            ReportCell.Number(hindcast.EffectiveSampleSize)
        );
        Row(
            "Shape of the weights' tail (not to be trusted above 0.7)",
            ReportCell.Number(hindcast.ParetoShape)
        );
        void Share(string when, ImmutableArray<CurvePoint>? curve)
        {
            foreach (var years in new[] { 0, 10, 20, 40 })
            {
                if (curve is { } points && points[^1].TimeYr >= years)
                {
                    var band = points.MinBy(p => Math.Abs(p.TimeYr - years))!.DamagedOrPatched;
                    Row(
                        FormattableString.Invariant(
                            $"Damaged or patched after {years} yr, {when}, median"
                        ),
                        ReportCell.Percent(band.P50)
                    );
                    Row(
                        FormattableString.Invariant(
                            $"Damaged or patched after {years} yr, {when}, 5th percentile"
                        ),
                        ReportCell.Percent(band.P05)
                    );
                    Row(
                        FormattableString.Invariant(
                            $"Damaged or patched after {years} yr, {when}, 95th percentile"
                        ),
                        ReportCell.Percent(band.P95)
                    );
                }
            }
        }

        Share("before learning", hindcast.CurveBefore);
        Share("after learning", hindcast.CurveAfter);
        return new(
            "What the surveys found, and what was learned from them",
            [new("What"), new("Value", true)],
            rows.ToImmutable()
        );
    }
}
