using DeckLife.Projection;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Notation;

/// <summary>Service lives in words: always with their band, and never without saying what lies beyond the horizon.</summary>
public static class LifeText
{
    /// <summary>A percentile in a table.</summary>
    /// <param name="years">The percentile [yr]; absent: beyond the horizon.</param>
    public static ReportCell Cell(double? years) =>
        years is { } y && double.IsFinite(y)
            ? new(
                Html.HtmlFragment.FromText(NumberNotation.Fixed(y, y < 9.95 ? 1 : 0)),
                NumberNotation.Fixed(y, y < 9.95 ? 1 : 0),
                y
            )
            : ReportCell.Missing("beyond horizon");

    /// <summary>A number of years: one decimal below ten.</summary>
    /// <param name="years">Years.</param>
    public static string Years(double years) => NumberNotation.Fixed(years, years < 9.95 ? 1 : 0);

    /// <summary>Median and band in a few words.</summary>
    /// <param name="life">The service life.</param>
    /// <param name="horizonYr">The horizon [yr].</param>
    public static string Brief(ServiceLife life, double horizonYr)
    {
        ArgumentNullException.ThrowIfNull(life);
        var horizon = NumberNotation.Trimmed(horizonYr);
        return life.P50Yr is { } median
            ? $"{Years(median)} yr ({Bound(life.P05Yr, horizon)} to {Bound(life.P95Yr, horizon)})"
            : $"over {horizon} yr ({Bound(life.P05Yr, horizon)} to {Bound(life.P95Yr, horizon)})";
    }

    /// <summary>The band in a few words.</summary>
    /// <param name="life">The service life.</param>
    /// <param name="horizonYr">The horizon [yr].</param>
    public static string Band(ServiceLife life, double horizonYr)
    {
        ArgumentNullException.ThrowIfNull(life);
        var horizon = NumberNotation.Trimmed(horizonYr);
        return $"5–95 %: {Bound(life.P05Yr, horizon)} to {Bound(life.P95Yr, horizon)}";
    }

    /// <summary>Median and band as a sentence.</summary>
    /// <param name="life">The service life.</param>
    /// <param name="horizonYr">The horizon [yr].</param>
    public static string Sentence(ServiceLife life, double horizonYr)
    {
        ArgumentNullException.ThrowIfNull(life);
        var horizon = NumberNotation.Trimmed(horizonYr);
        var band =
            $"5th to 95th percentile: {Bound(life.P05Yr, horizon)} to {Bound(life.P95Yr, horizon)} years";
        var notMet =
            life.NotReachedProbability > 0
                ? $"; not met within {horizon} years with probability {NumberNotation.Percent(life.NotReachedProbability)}"
                : "";
        return life.P50Yr is { } median
            ? $"{life.Criterion} after {Years(median)} years in the median ({band}{notMet})."
            : $"{life.Criterion} is not met within {horizon} years in the median ({band}{notMet}).";
    }

    private static string Bound(double? years, string horizon) =>
        years is { } y ? Years(y) : "over " + horizon;
}
