using System.Collections.Immutable;
using System.Text.Json;
using DeckLife.Projection;
using DeckLife.Reporting.Charts;
using Xunit;

namespace DeckLife.Reporting.Tests;

public class LearningChartTests
{
    [Fact]
    public void Draw_LearnedDeck_ShowsBothCurvesAndWhatWasFound()
    {
        var projection = InventedProjection.Make() with { Hindcast = Hindcast(0.05) };

        var chart = LearningChart.Draw(projection)!;

        using var figure = JsonDocument.Parse(chart.FigureSi);
        var names = figure
            .RootElement.GetProperty("data")
            .EnumerateArray()
            .Where(t => t.TryGetProperty("name", out _))
            .Select(t => t.GetProperty("name").GetString()!)
            .ToArray();
        Assert.Equal(
            [
                "by cores and covers alone",
                "after learning from the surveys",
                "found by sounding, or patched",
            ],
            names
        );
        Assert.Contains("no validation", chart.Note, StringComparison.Ordinal);
        var csv = chart.Numbers.ToCsv();
        Assert.Contains(
            "Effective number of draws left (none called learned below 100),873",
            csv,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "\"Damaged or patched after 20 yr, after learning, median\",0.15",
            csv,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "What the surveys changed",
            new DeckReport(projection).Surveys().ToText(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Draw_NothingLearned_SaysSoAndShowsNoSecondCurve()
    {
        var hindcast = Hindcast(0.05) with { IsLearned = false, CurveAfter = null };

        var chart = LearningChart.Draw(InventedProjection.Make() with { Hindcast = hindcast })!;

        Assert.DoesNotContain("after learning", chart.FigureSi, StringComparison.Ordinal);
        Assert.Contains("too few draws", chart.Note, StringComparison.Ordinal);
        Assert.DoesNotContain("after learning", chart.Numbers.ToCsv(), StringComparison.Ordinal);
        Assert.Null(LearningChart.Draw(InventedProjection.Make()));
    }

    private static SurveyHindcast Hindcast(double start) =>
        new()
        {
            SurveyedUnsound = 0.04,
            SurveyedPatched = 0.01,
            CorrodingByHalfCell = 0.12,
            SoundingPlaces = 900,
            Nodes = 240,
            IndependentNodes = 180.5,
            DrawsWeighed = 20_000,
            EffectiveSampleSize = 873,
            ParetoShape = 0.2,
            IsLearned = true,
            SoundingPredictive = 0.6,
            HalfCellPredictive = 0.4,
            CurveBefore = Curve(start, 0.01),
            CurveAfter = Curve(start, 0.005),
        };

    private static ImmutableArray<CurvePoint> Curve(double start, double slope) =>
        [
            .. Enumerable
                .Range(0, 41)
                .Select(t =>
                {
                    var share = start + (slope * t);
                    var band = new PercentileBand(0.8 * share, share, 1.2 * share);
                    return new CurvePoint(t, band, band, band);
                }),
        ];
}
