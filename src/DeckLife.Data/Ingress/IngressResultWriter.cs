using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using DeckLife.Data.Json;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using DeckLife.Transport;

namespace DeckLife.Data.Ingress;

/// <summary>Writes what the transport engine found: JSON and CSV in canonical units, a text table in the file's units as well.</summary>
public static class IngressResultWriter
{
    /// <summary>The JSON form.</summary>
    /// <param name="result">What was found.</param>
    public static string ToJson(IngressResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return Write(json =>
        {
            json.WriteStartArray("rows");
            foreach (var row in result.Rows)
            {
                json.WriteStartObject();
                json.WriteNumber("time_yr", row.Time.Years);
                json.WriteNumber("depth_mm", row.Depth.Millimetres);
                json.WriteNumber("chloride_kg_per_m3", row.Chloride.KilogramsPerCubicMetre);
                json.WriteString("layer", row.Layer);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteNumber("massBalanceError", result.MassBalanceError);
            json.WriteNumber("errorEstimate_kg_per_m3", result.ErrorEstimateKgPerM3);
        });
    }

    /// <summary>The JSON form of a case that can't be used.</summary>
    /// <param name="problems">What is wrong.</param>
    public static string ProblemsToJson(ImmutableArray<Diagnostic> problems) =>
        Write(json => FlagsJson.Write(json, problems, "problems"));

    /// <summary>Comma-separated values with a head; decimal points whatever the culture.</summary>
    /// <param name="result">What was found.</param>
    public static string ToCsv(IngressResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var text = new StringBuilder("time_yr,depth_mm,chloride_kg_per_m3,layer\n");
        foreach (var row in result.Rows)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"{row.Time.Years:R},{row.Depth.Millimetres:R},{row.Chloride.KilogramsPerCubicMetre:R},{CsvText.Field(row.Layer)}\n"
            );
        }

        return text.ToString();
    }

    /// <summary>A table for people: times and depths as the file writes them, contents in its unit and in kg/m3.</summary>
    /// <param name="item">The case.</param>
    /// <param name="result">What was found.</param>
    public static string ToText(IngressCase item, IngressResult result)
    {
        ArgumentNullException.ThrowIfNull(item);
        ArgumentNullException.ThrowIfNull(result);
        var isMetric = item.ContentUnit == "kg/m3";
        List<string[]> rows =
        [
            ["time", "depth", .. isMetric ? [] : new[] { item.ContentUnit }, "kg/m3", "layer"],
        ];
        for (var i = 0; i < result.Rows.Length; i++)
        {
            var row = result.Rows[i];
            rows.Add([
                With(item.TimeTexts[i], "yr", row.Time.Years),
                With(item.DepthTexts[i], "mm", row.Depth.Millimetres),
                .. isMetric ? [] : new[] { Content(row.Chloride.PoundsPerCubicYard) },
                Content(row.Chloride.KilogramsPerCubicMetre),
                row.Layer,
            ]);
        }

        var widths = Enumerable
            .Range(0, rows[0].Length)
            .Select(c => rows.Max(r => r[c].Length))
            .ToArray();
        var text = new StringBuilder();
        foreach (var row in rows)
        {
            var cells = row.Select(
                (cell, c) => c < row.Length - 1 ? cell.PadLeft(widths[c]) : cell
            );
            text.Append(string.Join("  ", cells)).Append('\n');
        }

        text.Append(
            "\nTotal chloride per volume of concrete; depth from the surface of that time, time from the first exposure on.\n"
        );
        if (item.Section.Changes.Length > 0)
        {
            text.Append("A row at the time of an event gives the state just before it. Events:\n");
            foreach (var change in item.Section.Changes)
            {
                text.Append(
                    CultureInfo.InvariantCulture,
                    $"  {change.At.Years:G6} yr: {Words(change)}\n"
                );
            }
        }

        text.Append(
            string.Create(
                CultureInfo.InvariantCulture,
                $"Error of any row: below {result.ErrorEstimateKgPerM3:G2} kg/m3 (estimate). "
                    + $"Mass not accounted for: {result.MassBalanceError:0.0e+0} of the mass held.\n"
            )
        );
        return text.ToString();
    }

    private static string Words(SectionChange change)
    {
        List<string> parts = [];
        if (change.Remove.Millimetres > 0)
        {
            parts.Add(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{change.Remove.Millimetres:G6} mm removed"
                )
            );
        }

        if (change.Place is { } layer)
        {
            parts.Add(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{layer.Thickness.Millimetres:G6} mm of {layer.Name} placed"
                )
            );
        }

        if (change.Surface is { } surface)
        {
            parts.Add(
                surface switch
                {
                    { IsSealed: true } => "surface sealed",
                    { LeakFraction: < 1 } => string.Create(
                        CultureInfo.InvariantCulture,
                        $"leaky surface ({surface.LeakFraction:G6} of the content passes)"
                    ),
                    _ => "surface exposed anew",
                }
            );
        }

        return parts.Count > 0 ? string.Join(", ", parts) : "nothing done";
    }

    private static string With(string text, string unit, double value) =>
        text.TrimEnd().EndsWith(unit, StringComparison.Ordinal)
        && !(unit == "mm" && text.Contains("µm", StringComparison.Ordinal))
            ? text.Trim()
            : string.Create(CultureInfo.InvariantCulture, $"{text.Trim()} = {value:G6} {unit}");

    private static string Content(double value) =>
        value.ToString("F4", CultureInfo.InvariantCulture);

    private static string Write(Action<Utf8JsonWriter> body) => JsonText.Object(body) + "\n";
}
