using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using DeckLife.Data.Json;
using DeckLife.Placement;
using DeckLife.Quantities;

namespace DeckLife.Data.Placement;

/// <summary>Writes a placement day as text, JSON and CSV: bands against limits, never a bare pass or fail.</summary>
public static class PlacementResultWriter
{
    private const double LbPerFt2 = 1 / EvaporationRate.KgPerM2PerLbPerFt2;

    /// <summary>Writes for reading.</summary>
    /// <param name="hours">The readings compared.</param>
    /// <param name="limits">The limits.</param>
    public static string ToText(ImmutableArray<PlacementHour> hours, PlacementLimits limits)
    {
        ArgumentNullException.ThrowIfNull(limits);
        var text = new StringBuilder();
        void Line(FormattableString line) =>
            text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
        Line($"Evaporation by Uno 1998 with its scatter of ±{100 * EvaporationRate.Scatter:0} %");
        if (limits.GreatestEvaporationKgPerM2H is { } greatest)
        {
            Line($"  limit {greatest:0.###} kg/m2/h ({greatest * LbPerFt2:0.###} lb/ft2/h)");
        }

        if (limits.LeastAirC is { } least)
        {
            Line(
                $"  air at least {least:0.#} °C ({Temperature.FromCelsius(least).Fahrenheit:0.#} °F), readings taken within ±{limits.AirMarginC:0.#} °C"
            );
        }

        foreach (var hour in hours)
        {
            var e = hour.Evaporation;
            Line(
                $"{(hour.Reading.Time.Length > 0 ? hour.Reading.Time + ": " : "")}{e.Estimate:0.00} kg/m2/h ({e.Low:0.00} to {e.High:0.00}), {e.Estimate * LbPerFt2:0.00} lb/ft2/h ({e.Low * LbPerFt2:0.00} to {e.High * LbPerFt2:0.00}): {Words(hour.EvaporationOutcome)}"
            );
            Line(
                $"    air {hour.Reading.AirC:0.#} °C ({Temperature.FromCelsius(hour.Reading.AirC).Fahrenheit:0.#} °F): {Words(hour.AirOutcome)}"
            );
        }

        Line($"{PlacementDay.Caution}");
        return text.ToString();
    }

    /// <summary>Writes as JSON.</summary>
    /// <param name="hours">The readings compared.</param>
    /// <param name="limits">The limits.</param>
    public static string ToJson(ImmutableArray<PlacementHour> hours, PlacementLimits limits)
    {
        ArgumentNullException.ThrowIfNull(limits);
        return JsonText.Object(json =>
            {
                json.WriteStartObject("limits");
                if (limits.GreatestEvaporationKgPerM2H is { } greatest)
                {
                    json.WriteNumber("greatestEvaporation_kg_per_m2_h", greatest);
                }

                if (limits.LeastAirC is { } least)
                {
                    json.WriteNumber("leastAir_c", least);
                    json.WriteNumber("airMargin_c", limits.AirMarginC);
                }

                json.WriteEndObject();
                json.WriteString("method", "Uno 1998");
                json.WriteNumber("scatter", EvaporationRate.Scatter);
                json.WriteStartArray("readings");
                foreach (var hour in hours)
                {
                    json.WriteStartObject();
                    json.WriteString("time", hour.Reading.Time);
                    json.WriteNumber("air_c", hour.Reading.AirC);
                    json.WriteNumber("concrete_c", hour.Reading.ConcreteC);
                    json.WriteNumber("relativeHumidity", hour.Reading.RelativeHumidity);
                    json.WriteNumber("wind_km_per_h", hour.Reading.WindKmPerH);
                    json.WriteStartObject("evaporation_kg_per_m2_h");
                    json.WriteNumber("low", hour.Evaporation.Low);
                    json.WriteNumber("estimate", hour.Evaporation.Estimate);
                    json.WriteNumber("high", hour.Evaporation.High);
                    json.WriteEndObject();
                    json.WriteString("evaporationAgainstLimit", Words(hour.EvaporationOutcome));
                    json.WriteString("airAgainstLimit", Words(hour.AirOutcome));
                    json.WriteEndObject();
                }

                json.WriteEndArray();
                json.WriteString("caution", PlacementDay.Caution);
            }) + "\n";
    }

    /// <summary>Writes one row a reading as CSV, canonical units.</summary>
    /// <param name="hours">The readings compared.</param>
    public static string ToCsv(ImmutableArray<PlacementHour> hours)
    {
        var text = new StringBuilder(
            "time,air_c,concrete_c,humidity_percent,wind_km_per_h,evaporation_low_kg_per_m2_h,evaporation_kg_per_m2_h,evaporation_high_kg_per_m2_h,evaporation_against_limit,air_against_limit\r\n"
        );
        foreach (var hour in hours)
        {
            double[] numbers =
            [
                hour.Reading.AirC,
                hour.Reading.ConcreteC,
                100 * hour.Reading.RelativeHumidity,
                hour.Reading.WindKmPerH,
                hour.Evaporation.Low,
                hour.Evaporation.Estimate,
                hour.Evaporation.High,
            ];
            text.Append(CsvText.Field(hour.Reading.Time))
                .Append(',')
                .AppendJoin(',', numbers.Select(n => n.ToString("R", CultureInfo.InvariantCulture)))
                .Append(',')
                .Append(Words(hour.EvaporationOutcome))
                .Append(',')
                .Append(Words(hour.AirOutcome))
                .Append("\r\n");
        }

        return text.ToString();
    }

    private static string Words(BandOutcome? outcome) =>
        outcome switch
        {
            BandOutcome.Below => "below the limit over the whole band",
            BandOutcome.Above => "above the limit over the whole band",
            BandOutcome.Straddles => "the band straddles the limit",
            _ => "no limit given",
        };
}
