using DeckLife.Data.Folders;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using DeckLife.Reporting.Charts;
using Xunit;

namespace DeckLife.Reporting.Tests;

public class TimelineChartTests
{
    [Fact]
    public void Draw_OverlayOverTheDemoDeck_ChartTableAndStepsTellTheSame()
    {
        var root = AppContext.BaseDirectory;
        while (!Directory.Exists(Path.Combine(root, "demo-data")))
        {
            root = Path.GetDirectoryName(root)!;
        }

        var deck = DeckFolder.Read(Path.Combine(root, "demo-data", "quillmarsh-crossing")).Deck!;
        var place = new TimelinePlace
        {
            Cover = Depth.FromMillimetres(45),
            SurfaceChloride = ChlorideContent.FromKilogramsPerCubicMetre(5),
            Diffusion = DiffusionCoefficient.FromSquareMillimetresPerYear(30),
            Threshold = ChlorideContent.FromKilogramsPerCubicMetre(1.2),
            Propagation = Age.FromYears(6),
        };
        var strategy = deck.Strategies.First(s => !s.Interventions.IsEmpty);

        var timeline = PointTimeline.Of(deck, place, strategy);
        var chart = TimelineChart.Draw(deck, timeline);
        var steps = TimelineChart.Steps(deck, timeline);

        Assert.Equal(timeline.Rows.Length, chart.Numbers.Rows.Length);
        Assert.Contains("threshold", chart.FigureSi, StringComparison.Ordinal);
        Assert.NotEqual(chart.FigureSi, chart.FigureUs);
        Assert.Contains("corrosion begins", chart.AlternativeText, StringComparison.Ordinal);
        Assert.Contains("latex-modified concrete on", steps.ToText(), StringComparison.Ordinal);
        Assert.Contains("before the work", steps.ToText(), StringComparison.Ordinal);
    }
}
