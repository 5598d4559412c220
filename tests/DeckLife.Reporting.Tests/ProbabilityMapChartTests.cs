using System.Text.Json;
using DeckLife.Reporting.Charts;
using Xunit;

namespace DeckLife.Reporting.Tests;

public class ProbabilityMapChartTests
{
    [Fact]
    public void Active_MapWithACellMissing_HeatMapBeneathTheSurveysWithAGapThere()
    {
        var projection = InventedProjection.Make();

        var chart = ProbabilityMapChart.Active(projection)!;

        using var figure = JsonDocument.Parse(chart.FigureSi);
        var traces = figure.RootElement.GetProperty("data").EnumerateArray().ToArray();
        Assert.Equal("heatmap", traces[0].GetProperty("type").GetString());
        Assert.All(traces[1..], t => Assert.Equal("scatter", t.GetProperty("type").GetString()));
        var z = traces[0].GetProperty("z").EnumerateArray().ToArray();
        Assert.Equal(4, z.Length);
        Assert.All(z, row => Assert.Equal(11, row.GetArrayLength()));
        Assert.Equal(JsonValueKind.Null, z[3][10].ValueKind);
        Assert.Equal(projection.Map!.Cells[5].Active, z[0][5].GetDouble(), 1e-4);
        Assert.Equal(projection.Map.Cells.Length, chart.Numbers.Rows.Length);
        Assert.Contains("highest around", chart.AlternativeText, StringComparison.Ordinal);
        using var us = JsonDocument.Parse(chart.FigureUs);
        Assert.Equal(
            2 / 0.3048,
            us.RootElement.GetProperty("data")[0].GetProperty("x")[0].GetDouble(),
            1e-6
        );
    }

    [Fact]
    public void ByZone_MapWithZones_EndsWithTheWholePlan()
    {
        var table = ProbabilityMapChart.ByZone(InventedProjection.Make())!;

        Assert.Equal(["gutter line", "the rest", "whole plan"], table.Rows.Select(r => r[0].Text));
        Assert.Contains("47.5", table.ToCsv(), StringComparison.Ordinal);
        Assert.Contains("[fraction]", table.ToCsv(), StringComparison.Ordinal);
    }

    [Fact]
    public void Draw_ProjectionWithoutMap_IsAbsent()
    {
        var projection = InventedProjection.Make() with { Map = null };

        Assert.Null(ProbabilityMapChart.Active(projection));
        Assert.Null(ProbabilityMapChart.DamagedLater(projection));
        Assert.Null(ProbabilityMapChart.ByZone(projection));
    }
}
