using System.Text.Json;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Json;

/// <summary>Writes problems as JSON.</summary>
public static class ProblemsJson
{
    /// <summary>Writes <c>{ "problems": [ { code, severity, file, row, column, value, text } ] }</c>; what a problem has not is left out.</summary>
    /// <param name="problems">The problems.</param>
    public static string Write(IEnumerable<Diagnostic> problems)
    {
        ArgumentNullException.ThrowIfNull(problems);
        return JsonText.Object(writer => Write(writer, problems));
    }

    /// <summary>Writes the member <c>problems</c>.</summary>
    internal static void Write(Utf8JsonWriter writer, IEnumerable<Diagnostic> problems)
    {
        writer.WriteStartArray("problems");
        foreach (var problem in problems)
        {
            writer.WriteStartObject();
            writer.WriteString("code", problem.Code);
            writer.WriteString("severity", problem.Severity.ToString().ToLowerInvariant());
            Optional(writer, "file", problem.File);
            if (problem.Row is { } row)
            {
                writer.WriteNumber("row", row);
            }

            Optional(writer, "column", problem.Column);
            Optional(writer, "value", problem.Value);
            writer.WriteString("text", problem.Text);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
    }

    private static void Optional(Utf8JsonWriter writer, string name, string? value)
    {
        if (value is not null)
        {
            writer.WriteString(name, value);
        }
    }
}
