using System.Globalization;
using DeckLife.Decisions;
using static System.FormattableString;

namespace DeckLife.Data.Projection;

/// <summary>Writes a depth-thickness map for reading at the terminal: the best case first, then years and costs by depth and thickness.</summary>
public static class DepthMapText
{
    /// <summary>Writes the map.</summary>
    /// <param name="map">The map.</param>
    /// <param name="output">Where to.</param>
    public static void Write(DepthMap map, TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(map);
        ArgumentNullException.ThrowIfNull(output);
        Line(output, $"");
        Line(output, $"Removal depth and overlay thickness, at {map.Plan.At.Years:0.##} yr:");
        if (map.Choice is { } choice)
        {
            WriteChoice(map, choice, output);
        }
        else
        {
            Line(output, $"  no case keeps all limits");
        }

        foreach (var point in map.Points)
        {
            Line(output, $"  {point.Name}: {Place(point)}: {Numbers(map, point)}");
        }

        for (var m = 0; m < map.Plan.Materials.Length; m++)
        {
            WriteMaterial(map, m, output);
        }

        foreach (var note in map.Notes)
        {
            Line(output, $"  {note}");
        }
    }

    private static void WriteChoice(DepthMap map, DepthChoice choice, TextWriter output)
    {
        Line(output, $"  best: {Place(choice.Best)}: {Numbers(map, choice.Best)}");
        Line(output, $"    by {choice.Criterion}");
        if (choice.Best.NeedsStructuralCheck)
        {
            Line(
                output,
                $"    ! takes concrete from below top bars: a structural check, staging and shoring come first"
            );
        }

        if (!choice.Indistinguishable.IsEmpty)
        {
            Line(
                output,
                $"    not told apart by these draws: {string.Join("; ", choice.Indistinguishable.Take(6).Select(Place))}{(choice.Indistinguishable.Length > 6 ? Invariant($" and {choice.Indistinguishable.Length - 6} more") : "")}"
            );
        }

        if (choice.OneMoreYear is { } year)
        {
            Line(
                output,
                $"    one more year costs {year.PerYear:#,0} (±{year.ErrorOfPerYear:#,0}) at first: {year.ExtraYears:0.0} yr more by {Place(year.Next)}"
            );
        }
    }

    private static void WriteMaterial(DepthMap map, int material, TextWriter output)
    {
        Line(
            output,
            $"  {map.Plan.Materials[material]}: mean years to the end{(map.Deck.Prices is null ? "" : " / mean present value in thousands")}; * a limit is broken, x refused"
        );
        Line(
            output,
            $"    removal, mm  {string.Join("  ", map.Plan.Thicknesses.Select(t => Invariant($"{t.Millimetres, 6:0.#} mm thick")))}"
        );
        for (var r = 0; r < map.Plan.RemovalDepths.Length; r++)
        {
            var row = map.Plan.Thicknesses.Select(
                (_, t) =>
                {
                    var cell = map.At(material, t, r);
                    return cell.Refusal is not null
                        ? "x".PadLeft(15)
                        : Invariant(
                                $"{cell.ExpectedYears:0.0}{(cell.ExpectedPresentValue is { } pv ? Invariant($" / {pv / 1000:#,0}") : "")}{(cell.IsAllowed ? "" : "*")}"
                            )
                            .PadLeft(15);
                }
            );
            Line(
                output,
                $"    {map.Plan.RemovalDepths[r].Millimetres, 8:0.#}     {string.Join("  ", row)}"
            );
        }
    }

    private static string Place(DepthMapCell cell) =>
        Invariant(
            $"{cell.Removal.Millimetres:0.#} mm off, {cell.Thickness.Millimetres:0.#} mm {cell.Material} on"
        );

    private static string Numbers(DepthMap map, DepthMapCell cell)
    {
        if (cell.Refusal is { } refusal)
        {
            return "refused, " + refusal.Text;
        }

        var cost =
            cell.ExpectedPresentValue is { } pv && map.Deck.Prices is { } prices
                ? Invariant(
                    $", mean present value {pv:#,0} (±{cell.ErrorOfPresentValue:#,0}) {prices.Currency}, {cell.FirstCost:#,0} of it for the intervention"
                )
                : "";
        var grade = cell.Projection is { Interventions.IsEmpty: false } p
            ? Invariant($", grade {p.Interventions[0].GradeRiseMm:+0.#;-0.#;0} mm")
            : "";
        var broken = cell.Broken.IsEmpty
            ? ""
            : "; breaks " + string.Join(", ", cell.Broken.Select(b => b.Limit));
        return Invariant($"{cell.ExpectedYears:0.0} yr in the mean{cost}{grade}{broken}");
    }

    private static void Line(TextWriter output, FormattableString text)
    {
        output.Write(text.ToString(CultureInfo.InvariantCulture));
        output.Write('\n');
    }
}
