using System.Globalization;
using System.Text;
using System.Text.Json;
using DeckLife.Data.Json;
using DeckLife.Studies;

namespace DeckLife.Data.Studies;

/// <summary>Writes a study's results as text, JSON and CSV.</summary>
public static class StudyWriter
{
    /// <summary>The heads of the result table.</summary>
    public static IReadOnlyList<string> Heads { get; } =
    [
        "methodNumber",
        "method",
        "output",
        "input",
        "quantity",
        "unit",
        "value",
        "lower95",
        "upper95",
        "samples",
        "remark",
    ];

    /// <summary>CSV of the result rows; lines that begin with # say where it comes from.</summary>
    /// <param name="result">The results.</param>
    /// <param name="provenance">Where they come from.</param>
    public static string ToCsv(StudyResult result, StudyProvenance provenance)
    {
        var text = new StringBuilder(CsvHead(provenance));
        text.Append(string.Join(',', Heads)).Append('\n');
        foreach (var row in StudyTable.Rows(result))
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"{row.MethodNumber},{row.Method},{row.Output},{CsvText.Field(row.Input)},{CsvText.Field(row.Quantity)},{row.Unit},"
            );
            text.Append(
                CultureInfo.InvariantCulture,
                $"{Number(row.Value)},{Number(row.Lower)},{Number(row.Upper)},{row.Samples},{CsvText.Field(row.Remark)}\n"
            );
        }

        return text.ToString();
    }

    /// <summary>The lines at the head of every CSV file of a study.</summary>
    /// <param name="provenance">Where it comes from.</param>
    public static string CsvHead(StudyProvenance provenance)
    {
        ArgumentNullException.ThrowIfNull(provenance);
        return $"# {provenance.Line}\n";
    }

    /// <summary>JSON of the results.</summary>
    /// <param name="result">The results.</param>
    /// <param name="provenance">Where they come from.</param>
    public static string ToJson(StudyResult result, StudyProvenance provenance)
    {
        ArgumentNullException.ThrowIfNull(result);
        return Write(json =>
        {
            json.WriteString("study", result.Study.Name);
            json.WriteString("note", result.Study.Note);
            if (result.Study.Deck is { } subject)
            {
                json.WriteString("deck", subject.Deck.Name);
                json.WriteString("strategy", subject.Strategy);
                json.WriteNumber("points", subject.Points);
            }

            json.WriteStartArray("inputs");
            foreach (var input in result.Study.Inputs)
            {
                json.WriteStartObject();
                json.WriteString("input", input.Name);
                json.WriteString("unit", input.Unit);
                if (input.Distribution is { } law)
                {
                    json.WriteString("distribution", law.Description);
                    json.WriteNumber("mean", law.Mean);
                    json.WriteNumber("standardDeviation", law.StandardDeviation);
                }
                else
                {
                    json.WriteNumber("value", input.Fixed);
                }

                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartArray("results");
            foreach (
                var group in StudyTable
                    .Rows(result)
                    .GroupBy(r => (r.MethodNumber, r.Method, r.Output))
            )
            {
                json.WriteStartObject();
                json.WriteNumber("methodNumber", group.Key.MethodNumber);
                json.WriteString("method", group.Key.Method);
                json.WriteString("output", group.Key.Output);
                json.WriteStartArray("values");
                foreach (var row in group)
                {
                    WriteRow(json, row);
                }

                json.WriteEndArray();
                json.WriteEndObject();
            }

            json.WriteEndArray();
            FlagsJson.Write(json, result.Flags);
            WriteProvenance(json, provenance);
        });
    }

    /// <summary>The side file: what each column of each table holds, and its unit.</summary>
    /// <param name="study">The study.</param>
    /// <param name="provenance">Where it comes from.</param>
    public static string ColumnsToJson(StudyDefinition study, StudyProvenance provenance)
    {
        ArgumentNullException.ThrowIfNull(study);
        return Write(json =>
        {
            json.WriteStartArray("results");
            Column(json, "methodNumber", "1", "number of the method in the study file, from 1");
            Column(json, "method", "", "the method");
            Column(json, "output", "", "the output: one of the outputs of the draws");
            Column(
                json,
                "input",
                "",
                "the input or inputs (joined by +) the number is about; empty for the output as a whole"
            );
            Column(json, "quantity", "", "what the number is");
            Column(json, "unit", "", "unit of value, lower95 and upper95");
            Column(
                json,
                "value",
                "as the unit column says",
                "the number; missing where there is none, remark says why"
            );
            Column(
                json,
                "lower95",
                "as the unit column says",
                "lower limit, 95 %; missing where there is none"
            );
            Column(
                json,
                "upper95",
                "as the unit column says",
                "upper limit, 95 %; missing where there is none"
            );
            Column(
                json,
                "samples",
                "1",
                "number of evaluations, draws or points behind the number"
            );
            Column(json, "remark", "", "verdict, method of the limits, or why there is no number");
            json.WriteEndArray();
            json.WriteStartArray("draws");
            Column(json, "draw", "1", "number of the draw, from 0");
            foreach (var input in study.Drawn)
            {
                Column(json, input.Name, input.Unit, StudyVariableInfo.Of(input.Variable).Meaning);
            }

            foreach (var output in study.Outputs)
            {
                Column(json, output.Name, output.Unit, output.Meaning);
            }

            json.WriteEndArray();
            WriteProvenance(json, provenance);
        });
    }

    /// <summary>Text for people.</summary>
    /// <param name="result">The results.</param>
    /// <param name="provenance">Where they come from.</param>
    public static string ToText(StudyResult result, StudyProvenance provenance)
    {
        ArgumentNullException.ThrowIfNull(result);
        ArgumentNullException.ThrowIfNull(provenance);
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"Study: {result.Study.Name}\n");
        if (result.Study.Note.Length > 0)
        {
            text.Append(CultureInfo.InvariantCulture, $"{result.Study.Note}\n");
        }

        if (result.Study.Deck is { } subject)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"Deck: {subject.Deck.Name}; strategy: {subject.Strategy}; {subject.Points} points stand for the area\n"
            );
        }

        text.Append("\nInputs\n");
        foreach (var input in result.Study.Inputs)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"  {input.Name, -32} {(input.Distribution is { } law ? law.Description : string.Create(CultureInfo.InvariantCulture, $"{input.Fixed:G6}, fixed"))}{(input.Unit == "1" ? "" : $" [{input.Unit}]")}\n"
            );
        }

        foreach (
            var group in StudyTable.Rows(result).GroupBy(r => (r.MethodNumber, r.Method, r.Output))
        )
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"\n{group.Key.Output}: {group.Key.Method} ({group.First().Samples} evaluations)\n"
            );
            foreach (
                var row in group.Where(r =>
                    !r.Quantity.StartsWith("convergence", StringComparison.Ordinal)
                )
            )
            {
                var limits =
                    row.Lower is { } low && row.Upper is { } high
                        ? string.Create(
                            CultureInfo.InvariantCulture,
                            $" ({Shown(low, 4)} to {Shown(high, 4)})"
                        )
                        : "";
                var line = string.Create(
                    CultureInfo.InvariantCulture,
                    $"  {row.Input, -32} {row.Quantity, -40} {(row.Value is { } v ? Shown(v, 5) : "-")}{limits} {(row.Unit == "1" || row.Value is null ? "" : row.Unit)} {row.Remark}"
                );
                text.Append(line.TrimEnd());
                text.Append('\n');
            }

            text.Append(Settled([.. group]));
        }

        if (!result.Flags.IsEmpty)
        {
            text.Append("\nTo know\n");
            foreach (var flag in result.Flags)
            {
                text.Append(CultureInfo.InvariantCulture, $"  {flag.Code} {flag.Text}\n");
            }
        }

        text.Append(
            result.Study.Deck is null
                ? "\nThese are statements about a model of one section with the distributions given, not about a deck; a licensed engineer and local specifications decide.\n"
                : "\nThese are statements about a model of this deck with the distributions given, a planning aid; removal below the top bars needs a structural check; a licensed engineer and local specifications decide.\n"
        );
        text.Append(CsvHead(provenance)[2..]);
        return text.ToString();
    }

    internal static string Number(double? value) =>
        value is { } v && double.IsFinite(v) ? v.ToString("R", CultureInfo.InvariantCulture) : "";

    // How far the numbers have settled: the estimates on the way, or what the shares still move.
    private static string Settled(IReadOnlyList<StudyRow> rows)
    {
        const string Mark = "convergence: ";
        var text = new StringBuilder();
        var steps = rows.Where(r =>
                r.Quantity is Mark + "mean" or Mark + "probability" && r.Value is not null
            )
            .ToArray();
        if (steps.Length > 1)
        {
            text.Append("  on the way: ")
                .AppendJoin(
                    "; ",
                    steps
                        .TakeLast(5)
                        .Select(r =>
                            string.Create(
                                CultureInfo.InvariantCulture,
                                $"{Shown(r.Value!.Value, 5)} after {r.Samples:#,0}"
                            )
                        )
                )
                .Append('\n');
        }

        var shares = rows.Where(r => r.Quantity == Mark + "total share")
            .GroupBy(r => r.Samples)
            .OrderBy(g => g.Key)
            .TakeLast(2)
            .Select(g => g.ToDictionary(r => r.Input, r => r.Value ?? 0))
            .ToArray();
        if (shares.Length == 2)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"  from half of the points to all of them no total share moves by more than {shares[1].Max(s => Math.Abs(s.Value - shares[0].GetValueOrDefault(s.Key))):G2}\n"
            );
        }

        return text.ToString();
    }

    // Large numbers, such as money, in full; others to a number of digits.
    private static string Shown(double value, int digits) =>
        Math.Abs(value) is >= 1e4 and < 1e12
            ? value.ToString("#,0", CultureInfo.InvariantCulture)
            : value.ToString($"G{digits}", CultureInfo.InvariantCulture);

    private static string Write(Action<Utf8JsonWriter> body) => JsonText.Object(body) + "\n";

    private static void WriteRow(Utf8JsonWriter json, StudyRow row)
    {
        json.WriteStartObject();
        if (row.Input.Length > 0)
        {
            json.WriteString("input", row.Input);
        }

        json.WriteString("quantity", row.Quantity);
        json.WriteString("unit", row.Unit);
        if (row.Value is { } value)
        {
            json.WriteNumber("value", value);
        }

        if (row.Lower is { } lower)
        {
            json.WriteNumber("lower95", lower);
        }

        if (row.Upper is { } upper)
        {
            json.WriteNumber("upper95", upper);
        }

        json.WriteNumber("samples", row.Samples);
        if (row.Remark.Length > 0)
        {
            json.WriteString("remark", row.Remark);
        }

        json.WriteEndObject();
    }

    private static void WriteProvenance(Utf8JsonWriter json, StudyProvenance provenance)
    {
        json.WriteStartObject("provenance");
        json.WriteString("version", provenance.Version);
        json.WriteNumber("seed", provenance.Seed);
        json.WriteStartArray("inputs");
        json.WriteStartObject();
        json.WriteString("file", provenance.File);
        json.WriteString("sha256", provenance.Sha256);
        json.WriteEndObject();
        foreach (var file in provenance.DeckFiles)
        {
            json.WriteStartObject();
            json.WriteString("file", file.Name);
            json.WriteString("sha256", file.Sha256);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Column(Utf8JsonWriter json, string name, string unit, string meaning)
    {
        json.WriteStartObject();
        json.WriteString("column", name);
        json.WriteString("unit", unit);
        json.WriteString("meaning", meaning);
        json.WriteEndObject();
    }
}
