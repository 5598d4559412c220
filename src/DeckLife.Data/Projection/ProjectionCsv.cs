using System.Collections.Immutable;
using System.Globalization;
using CsvHelper;
using DeckLife.Projection;

namespace DeckLife.Data.Projection;

/// <summary>Writes a projection as CSV tables: canonical units, fractions of the deck area, the invariant culture; no name in them can act as a spreadsheet's formula.</summary>
public static class ProjectionCsv
{
    private static readonly ImmutableArray<
        Column<(DeckProjection Of, StrategyProjection Strategy, CurvePoint Point)>
    > Curve =
    [
        new("strategy", r => CsvText.Harmless(r.Strategy.Strategy.Name)),
        new("time_yr", r => Text(r.Point.TimeYr)),
        new("calendar_year", r => Text(r.Of.Deck.SurveyYear + r.Point.TimeYr)),
        .. Band<(DeckProjection Of, StrategyProjection Strategy, CurvePoint Point)>(
            "damaged_fraction",
            r => r.Point.Damaged
        ),
        .. Band<(DeckProjection Of, StrategyProjection Strategy, CurvePoint Point)>(
            "damaged_or_patched_fraction",
            r => r.Point.DamagedOrPatched
        ),
        .. Band<(DeckProjection Of, StrategyProjection Strategy, CurvePoint Point)>(
            "initiated_fraction",
            r => r.Point.Initiated
        ),
    ];

    private static readonly ImmutableArray<Column<StrategyProjection>> Strategy =
    [
        new("strategy", s => CsvText.Harmless(s.Strategy.Name)),
        new("criterion", s => CsvText.Harmless(s.ServiceLife.Criterion)),
        new("life_p05_yr", s => Text(s.ServiceLife.P05Yr)),
        new("life_p50_yr", s => Text(s.ServiceLife.P50Yr)),
        new("life_p95_yr", s => Text(s.ServiceLife.P95Yr)),
        new("not_reached_probability", s => Text(s.ServiceLife.NotReachedProbability)),
        .. Band<StrategyProjection>("present_value", s => s.Cost?.PresentValue),
        .. Band<StrategyProjection>("agency_present_value", s => s.Cost?.Agency),
        .. Band<StrategyProjection>("users_present_value", s => s.Cost?.Users),
        .. Band<StrategyProjection>("first_cost", s => s.Cost?.FirstCost),
        new("equivalent_annual", s => Text(s.Cost?.EquivalentAnnual)),
        new("currency", s => s.Cost?.Currency ?? ""),
        new("price_year", s => Text(s.Cost?.PriceYear)),
        new("cheapest_probability", s => Text(s.CheapestProbability)),
        new("cheapest_probability_error", s => Text(s.ErrorOfCheapestProbability)),
        new("expected_regret", s => Text(s.ExpectedRegret)),
    ];

    private static readonly ImmutableArray<
        Column<(string Strategy, InterventionQuantities Work)>
    > Work =
    [
        new("strategy", r => CsvText.Harmless(r.Strategy)),
        new("time_yr", r => Text(r.Work.AtYr)),
        new("probability", r => Text(r.Work.Probability)),
        new(
            "depth_classes_mm_and_fraction",
            r =>
                string.Join(
                    "; ",
                    r.Work.DepthClasses.Select(c => $"{Text(c.DepthMm)}: {Text(c.Fraction)}")
                )
        ),
        .. Band<(string Strategy, InterventionQuantities Work)>(
            "mean_removal_mm",
            r => r.Work.MeanRemovalMm
        ),
        .. Band<(string Strategy, InterventionQuantities Work)>(
            "mean_placed_mm",
            r => r.Work.MeanPlacedMm
        ),
        .. Band<(string Strategy, InterventionQuantities Work)>(
            "sounded_fraction",
            r => r.Work.SoundedFraction
        ),
        .. Band<(string Strategy, InterventionQuantities Work)>(
            "repaired_fraction",
            r => r.Work.RepairedFraction
        ),
        .. Band<(string Strategy, InterventionQuantities Work)>(
            "removed_by_potential_fraction",
            r => r.Work.RemovedByPotentialFraction
        ),
        .. Band<(string Strategy, InterventionQuantities Work)>(
            "undercut_fraction",
            r => r.Work.UndercutFraction
        ),
        .. Band<(string Strategy, InterventionQuantities Work)>(
            "bars_struck_fraction",
            r => r.Work.StruckFraction
        ),
        .. Band<(string Strategy, InterventionQuantities Work)>(
            "bars_exposed_at_once_fraction",
            r => r.Work.ExposedAtOnceFraction
        ),
        new("grade_rise_mm", r => Text(r.Work.GradeRiseMm)),
        new("added_dead_load_kn_per_m2", r => Text(r.Work.AddedDeadLoadKnPerM2)),
        new("least_remaining_mm", r => Text(r.Work.LeastRemainingMm)),
        new("remaining_under_bars_mm", r => Text(r.Work.RemainingUnderBarsMm)),
    ];

    private static readonly ImmutableArray<Column<(string Strategy, CostItem Item)>> Cost =
    [
        new("strategy", r => CsvText.Harmless(r.Strategy)),
        new("item", r => CsvText.Harmless(r.Item.Item)),
        new("paid_by", r => r.Item.PaidBy.ToString().ToLowerInvariant()),
        new("mean_present_value", r => Text(r.Item.MeanPresentValue)),
    ];

    /// <summary>Writes the curves: one row a strategy and year.</summary>
    /// <param name="projection">The projection.</param>
    /// <param name="output">Where to.</param>
    public static void Write(DeckProjection projection, TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(projection);
        Table(
            output,
            Curve,
            projection.Strategies.SelectMany(s => s.Curve.Select(p => (projection, s, p)))
        );
    }

    /// <summary>Writes lives, costs and ranking: one row a strategy; a percentile beyond the horizon is left empty.</summary>
    /// <param name="projection">The projection.</param>
    /// <param name="output">Where to.</param>
    public static void WriteStrategies(DeckProjection projection, TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(projection);
        Table(output, Strategy, projection.Strategies);
    }

    /// <summary>Writes the quantities of the work: one row a strategy and intervention.</summary>
    /// <param name="projection">The projection.</param>
    /// <param name="output">Where to.</param>
    public static void WriteWork(DeckProjection projection, TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(projection);
        Table(
            output,
            Work,
            projection.Strategies.SelectMany(s => s.Interventions.Select(i => (s.Strategy.Name, i)))
        );
    }

    /// <summary>Writes what the present values are made of: one row a strategy and price.</summary>
    /// <param name="projection">The projection.</param>
    /// <param name="output">Where to.</param>
    public static void WriteCosts(DeckProjection projection, TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(projection);
        Table(
            output,
            Cost,
            projection.Strategies.SelectMany(s =>
                (s.Cost?.Items ?? []).Select(i => (s.Strategy.Name, i))
            )
        );
    }

    private static void Table<T>(
        TextWriter output,
        ImmutableArray<Column<T>> columns,
        IEnumerable<T> rows
    )
    {
        ArgumentNullException.ThrowIfNull(output);
        using var csv = CsvWriter.Create(
            output,
            CsvWriterOptions.Default with
            {
                FormatProvider = CultureInfo.InvariantCulture,
            },
            leaveOpen: true
        );
        Row(csv, columns.Select(c => c.Head));
        foreach (var row in rows)
        {
            Row(csv, columns.Select(c => c.Of(row)));
        }
    }

    private static void Row(CsvWriter csv, IEnumerable<string> fields)
    {
        foreach (var field in fields)
        {
            csv.WriteField(field);
        }

        csv.EndRecord();
    }

    private static ImmutableArray<Column<T>> Band<T>(string head, Func<T, PercentileBand?> band) =>
        [
            new(head + "_p05", r => Text(band(r)?.P05)),
            new(head + "_p50", r => Text(band(r)?.P50)),
            new(head + "_p95", r => Text(band(r)?.P95)),
        ];

    private static string Text(double? number) =>
        number?.ToString("R", CultureInfo.InvariantCulture) ?? "";

    private sealed record Column<T>(string Head, Func<T, string> Of);
}
