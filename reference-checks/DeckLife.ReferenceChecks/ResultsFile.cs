using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;

namespace DeckLife.ReferenceChecks;

/// <summary>RESULTS.md: every value found beside its reference. Write it with DECKLIFE_WRITE_RESULTS=1.</summary>
public static class ResultsFile
{
    /// <summary>Where the file lies.</summary>
    public static string Path => System.IO.Path.Combine(SourceFolder(), "..", "RESULTS.md");

    /// <summary>Digits on which two numbers agree: -log10 of the relative difference, at most 15.</summary>
    /// <param name="found">The project's value.</param>
    /// <param name="expected">The reference.</param>
    public static double DigitsAgreed(double found, double expected)
    {
        var scale = expected == 0 ? 1 : Math.Abs(expected);
        var difference = Math.Abs(found - expected) / scale;
        return difference == 0 ? 15 : Math.Clamp(-Math.Log10(difference), 0, 15);
    }

    /// <summary>The whole text.</summary>
    public static string Compose()
    {
        var text = new StringBuilder();
        text.Append("# Reference checks: results\n\n");
        text.Append(
            "Written by `DECKLIFE_WRITE_RESULTS=1 dotnet test -c Release reference-checks/DeckLife.ReferenceChecks`; "
        );
        text.Append(
            "a test fails when a value leaves its tolerance, and another when this file is not what a run writes.\n"
        );
        foreach (var section in CaseCatalogue.All.GroupBy(c => c.Id.Split('/')[0]))
        {
            text.Append(CultureInfo.InvariantCulture, $"\n## {section.Key}\n");
            foreach (var item in section)
            {
                Append(text, item);
            }
        }

        return text.ToString();
    }

    private static void Append(StringBuilder text, ReferenceCase item)
    {
        text.Append(CultureInfo.InvariantCulture, $"\n### {item.Id}: {item.Title}\n\n");
        text.Append(
            CultureInfo.InvariantCulture,
            $"- Inputs: {item.Inputs}\n- Source: {item.Source}\n"
        );
        text.Append(CultureInfo.InvariantCulture, $"- Reference values: {Words(item.How)}\n");
        text.Append(CultureInfo.InvariantCulture, $"- Tolerance: {item.WhyTolerance}\n");
        if (item.KnownDisagreement is { } disagreement)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"- **Known disagreement**: {disagreement}\n"
            );
        }

        text.Append(
            "\n| value | reference | found | digits agreed | within tolerance |\n|---|---|---|---|---|\n"
        );
        foreach (var value in item.Values)
        {
            var found = value.Found();
            var digits = Math.Floor(DigitsAgreed(found, value.Expected));
            text.Append(
                CultureInfo.InvariantCulture,
                $"| {value.Name} | {value.Expected:G12} | {found:G10} | {digits:F0} | {(IsWithin(value, found) ? "yes" : "**no**")} |\n"
            );
        }
    }

    /// <summary>Whether a found value lies within its tolerance.</summary>
    /// <param name="value">The reference value.</param>
    /// <param name="found">What the project computed.</param>
    public static bool IsWithin(ReferenceValue value, double found)
    {
        ArgumentNullException.ThrowIfNull(value);
        var allowed = value.IsAbsolute
            ? value.Tolerance
            : value.Tolerance * Math.Abs(value.Expected);
        return Math.Abs(found - value.Expected) <= allowed;
    }

    private static string Words(HowGot how) =>
        how switch
        {
            HowGot.Printed => "printed in the source, read",
            HowGot.ComputedIndependently => "computed independently of this project",
            HowGot.FromMemory => "from memory of the source; verify before quoting",
            _ => "common practice, no single source",
        };

    private static string SourceFolder([CallerFilePath] string path = "") =>
        System.IO.Path.GetDirectoryName(path)!;
}
