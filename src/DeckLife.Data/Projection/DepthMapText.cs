using System.Globalization;
using DeckLife.Decisions;
using DeckLife.Diagnostics;
using static System.FormattableString;

namespace DeckLife.Data.Projection;

/// <summary>Writes a depth-thickness map for reading at the terminal: the best case first, then years and costs by depth and thickness.</summary>
public static class DepthMapText
{
    /// <summary>Writes the map.</summary>
    /// <param name="map">The map.</param>
    /// <param name="output">Where to.</param>
    /// <param name="units">The units of the reader; the canonical ones stand beside.</param>
    public static void Write(DepthMap map, TextWriter output, MessageUnits units)
    {
        ArgumentNullException.ThrowIfNull(map);
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(units);
        Line(output, $"");
        Line(output, $"Removal depth and overlay thickness, at {map.Plan.At.Years:0.##} yr:");
        if (map.Choice is { } choice)
        {
            WriteChoice(map, choice, output, units);
        }
        else
        {
            Line(output, $"  no case keeps all limits");
        }

        foreach (var point in map.Points)
        {
            Line(output, $"  {point.Name}: {Place(point, units)}: {Numbers(map, point, units)}");
        }

        for (var m = 0; m < map.Plan.Materials.Length; m++)
        {
            WriteMaterial(map, m, output, units);
        }

        foreach (var note in map.Notes)
        {
            Line(output, $"  {note}");
        }
    }

    private static void WriteChoice(
        DepthMap map,
        DepthChoice choice,
        TextWriter output,
        MessageUnits units
    )
    {
        Line(output, $"  best: {Place(choice.Best, units)}: {Numbers(map, choice.Best, units)}");
        Line(output, $"    by {choice.Criterion}");
        foreach (var flag in choice.Best.Projection?.StructuralFlags ?? [])
        {
            Line(output, $"    ! {flag.In(units)}");
        }

        if (!choice.Indistinguishable.IsEmpty)
        {
            Line(
                output,
                $"    not told apart by these draws: {string.Join("; ", choice.Indistinguishable.Take(6).Select(c => Place(c, units)))}{(choice.Indistinguishable.Length > 6 ? Invariant($" and {choice.Indistinguishable.Length - 6} more") : "")}"
            );
        }

        if (choice.OneMoreYear is { } year)
        {
            Line(
                output,
                $"    one more year costs {year.PerYear:#,0} (±{year.ErrorOfPerYear:#,0}) at first: {year.ExtraYears:0.0} yr more by {Place(year.Next, units)}"
            );
        }
    }

    private static void WriteMaterial(
        DepthMap map,
        int material,
        TextWriter output,
        MessageUnits units
    )
    {
        Line(
            output,
            $"  {map.Plan.Materials[material]}: mean years to the end{(map.Deck.Prices is null ? "" : " / mean present value in thousands")}; * a limit is broken, x refused"
        );
        Line(
            output,
            $"    removal, {units.Length}  {string.Join("  ", map.Plan.Thicknesses.Select(t => Invariant($"{t.Millimetres / units.LengthFactor, 6:0.##} {units.Length} thick")))}"
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
                $"    {map.Plan.RemovalDepths[r].Millimetres / units.LengthFactor, 8:0.##}     {string.Join("  ", row)}"
            );
        }
    }

    private static string Place(DepthMapCell cell, MessageUnits units) =>
        $"{units.Depth(cell.Removal.Millimetres)} off, {units.Depth(cell.Thickness.Millimetres)} {cell.Material} on";

    private static string Numbers(DepthMap map, DepthMapCell cell, MessageUnits units)
    {
        if (cell.Refusal is { } refusal)
        {
            return "refused, " + refusal.In(units);
        }

        var cost =
            cell.ExpectedPresentValue is { } pv && map.Deck.Prices is { } prices
                ? Invariant(
                    $", mean present value {pv:#,0} (±{cell.ErrorOfPresentValue:#,0}) {prices.Currency}, {cell.FirstCost:#,0} of it for the intervention"
                )
                : "";
        var grade = cell.Projection is { Interventions.IsEmpty: false } p
            ? $", grade {units.Rise(p.Interventions[0].GradeRiseMm)}"
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
