using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.RegularExpressions;
using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>Reads dates that have one reading: year-month-day, or with the month's name and a year of four digits.</summary>
internal static partial class DateText
{
    private static readonly string[] Formats =
    [
        "yyyy-MM-dd",
        "d-MMM-yyyy",
        "d MMM yyyy",
        "d MMMM yyyy",
        "MMM d, yyyy",
        "MMMM d, yyyy",
        "yyyy-MM-dd'T'HH:mm:ss",
        "yyyy-MM-dd HH:mm:ss",
    ];

    public static bool TryParse(
        string text,
        out DateOnly date,
        [NotNullWhen(false)] out string? problem
    )
    {
        var clean = NumberText.Clean(text);
        problem = null;
        if (
            clean.Length <= 30
            && DateTime.TryParseExact(
                clean,
                Formats,
                CultureInfo.InvariantCulture,
                DateTimeStyles.None,
                out var parsed
            )
        )
        {
            date = DateOnly.FromDateTime(parsed);
            if (date.Year is >= 1850 and <= 2200)
            {
                return true;
            }

            problem = "the year is not one of a bridge";
            return false;
        }

        date = default;
        if (Slashed().Match(clean) is { Success: true } slashed)
        {
            problem =
                slashed.Groups["y"].Length == 2
                    ? "the year has two digits, and day and month may be exchanged"
                    : "day and month may be exchanged";
            return false;
        }

        problem =
            clean.Length == 5 && clean.All(char.IsAsciiDigit)
                ? "it may be a spreadsheet's serial number of a date"
                : "it is not a date";
        return false;
    }

    [GeneratedRegex(@"^\d{1,2}[-/. ]\d{1,2}[-/. ](?<y>\d{2}|\d{4})$")]
    private static partial Regex Slashed();
}
