using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>Wording shared by the messages of a fit.</summary>
internal static class FitText
{
    /// <summary>The depth range of a slice with its row.</summary>
    public static MessageTemplate Interval(ChlorideSlice slice)
    {
        var where = slice.IsCentreOnly
            ? new MessageTemplate("at {0:0.#} mm", slice.CentreMm)
            : new MessageTemplate(
                "{0:0.#}-{1:0.#} mm",
                slice.Top.Millimetres,
                slice.Bottom.Millimetres
            );
        return slice.Row > 0 ? new MessageTemplate("{0} (row {1})", where, slice.Row) : where;
    }

    /// <summary>A diffusion coefficient in words; what does not exist is said.</summary>
    public static MessageTemplate Diffusion(double? value) =>
        value is { } d
            ? new MessageTemplate("{0:G4} mm2/yr", d)
            : new MessageTemplate("undetermined");

    /// <summary>The slices that a fit can't do without, by their rows.</summary>
    public static string AnyOfRows(IReadOnlyList<SliceInfluence> slices)
    {
        var rows = slices.Select(s => s.Row.ToString(CultureInfo.InvariantCulture)).ToArray();
        return rows.Length == 1
            ? "the slice of row " + rows[0]
            : "any one of the slices of rows " + string.Join(", ", rows[..^1]) + " and " + rows[^1];
    }

    /// <summary>A content in words; what does not exist is said.</summary>
    public static MessageTemplate Content(double? value) =>
        value is { } c
            ? new MessageTemplate("{0:G4} kg/m3", c)
            : new MessageTemplate("not within the search interval");

    /// <summary>Messages one after the other.</summary>
    public static MessageTemplate Join(string separator, IReadOnlyList<MessageTemplate> parts) =>
        new(
            string.Join(
                separator,
                parts.Select((_, i) => string.Create(CultureInfo.InvariantCulture, $"{{{i}}}"))
            ),
            [.. parts]
        );
}
