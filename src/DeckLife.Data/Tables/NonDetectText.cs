using System.Text.RegularExpressions;
using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>Recognises how laboratories write that they found less than a limit.</summary>
internal static partial class NonDetectText
{
    /// <summary>Whether the text is a non-detect; the limit as written, empty where it gives none.</summary>
    public static bool Is(string text, out string limit)
    {
        limit = "";
        if (text.Length is 0 or > 80 || char.IsAsciiDigit(text[0]) && text[^1] is not ('U' or 'u'))
        {
            return false;
        }

        var match = Pattern().Match(NumberText.Clean(text));
        if (!match.Success)
        {
            return false;
        }

        limit = match.Groups["limit"].Value.Trim(' ', '\u00A0', '(', ')');
        return true;
    }

    // < 0.2 | ND | N.D. | ND<0.2 | ND (<0.2) | BDL | below detection (limit) | not detected | <LOD | 0.2U
    [GeneratedRegex(
        @"^(?:(?:[<≤＜]\s*(?:LOD|LOQ|MDL|MRL|RL|DL|PQL|detection limit|limit))|(?:N\.?\s?D\.?|n/d|BDL|BLD|BLQ|LOD|MDL|non[- ]?detect(?:ed|able)?|not detect(?:ed|able)?|none detected|(?:below|under|less than)(?: the)?(?: limit of)? detect(?:ion|able)?(?: limits?)?|below(?: the)? (?:detection |reporting )?limit)\s*(?:[:,=]?\s*\(?\s*(?:[<≤＜]|at|limit|DL|MDL|LOD)?\s*=?\s*(?<limit>[-.,\d][^()]*)\)?)?|(?:[<≤＜]|less than)\s*(?<limit>[-.,\d].*)|(?<limit>[.,\d]+)\s*U)$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex Pattern();

    /// <summary>Whether the text says that the slice was not tested.</summary>
    public static bool IsNotTested(string text) =>
        text.Trim().ToUpperInvariant()
            is "NT"
                or "N.T."
                or "NOT TESTED"
                or "NA"
                or "N/A"
                or "N.A."
                or "-"
                or "--"
                or "LOST"
                or "NO SAMPLE"
                or "NOT ANALYSED"
                or "NOT ANALYZED";
}
