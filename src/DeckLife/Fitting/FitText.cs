using System.Globalization;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>Wording shared by the messages of a fit.</summary>
internal static class FitText
{
    /// <summary>The depth range of a slice with its row.</summary>
    public static string Interval(ChlorideSlice slice)
    {
        var where = slice.IsCentreOnly
            ? string.Create(CultureInfo.InvariantCulture, $"at {slice.CentreMm:0.#} mm")
            : string.Create(
                CultureInfo.InvariantCulture,
                $"{slice.Top.Millimetres:0.#}-{slice.Bottom.Millimetres:0.#} mm"
            );
        return slice.Row > 0
            ? string.Create(CultureInfo.InvariantCulture, $"{where} (row {slice.Row})")
            : where;
    }

    /// <summary>A diffusion coefficient in words; what does not exist is said.</summary>
    public static string Diffusion(double? value) =>
        value is { } d
            ? string.Create(CultureInfo.InvariantCulture, $"{d:G4} mm2/yr")
            : "undetermined";

    /// <summary>The slices that a fit can't do without, by their rows.</summary>
    public static string AnyOfRows(IReadOnlyList<SliceInfluence> slices)
    {
        var rows = slices.Select(s => s.Row.ToString(CultureInfo.InvariantCulture)).ToArray();
        return rows.Length == 1
            ? "the slice of row " + rows[0]
            : "any one of the slices of rows " + string.Join(", ", rows[..^1]) + " and " + rows[^1];
    }

    /// <summary>A content in words; what does not exist is said.</summary>
    public static string Content(double? value) =>
        value is { } c
            ? string.Create(CultureInfo.InvariantCulture, $"{c:G4} kg/m3")
            : "not within the search interval";
}
