using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using DeckLife.Surveys;

namespace DeckLife.Data.Tables;

/// <summary>Gathers potentials, and asks about slips of sign or unit that show only over the whole survey.</summary>
internal sealed class PotentialChecks(TableContext context)
{
    private const int FewestToAsk = 3;
    private const double SmallestPlausible = 2;

    private readonly List<(
        int Line,
        double X,
        double Y,
        double Number,
        PotentialUnit Unit,
        string Column,
        string Text
    )> readings = [];

    public void Add(
        int line,
        double x,
        double y,
        double number,
        PotentialUnit unit,
        string column,
        string text
    ) => readings.Add((line, x, y, number, unit, column, text));

    public ImmutableArray<HalfCellReading> Finish(ProblemList problems)
    {
        if (readings.Count == 0)
        {
            return [];
        }

        Ask(problems);
        var sign = context.Readings is "sign-left-out" or "volts-sign-left-out" ? -1 : 1;
        var scale = context.Readings is "volts" or "volts-sign-left-out" ? 1000 : 1;
        var result = ImmutableArray.CreateBuilder<HalfCellReading>(readings.Count);
        var seen = new Dictionary<(long, long), int>();
        foreach (var (line, x, y, number, unit, column, text) in readings)
        {
            // A node is the same within a millimetre.
            var key = ((long)Math.Round(x * 1000), (long)Math.Round(y * 1000));
            if (!seen.TryAdd(key, line))
            {
                problems.Add(
                    DiagnosticCatalogue.NodeTwice,
                    line,
                    column,
                    text,
                    Round(x),
                    Round(y),
                    seen[key]
                );
                continue;
            }

            var potential = unit.ToPotential(number * sign * scale).MillivoltsCse;
            if (Math.Abs(potential) > 3000)
            {
                problems.Add(
                    DiagnosticCatalogue.ValueImpossible,
                    line,
                    column,
                    text,
                    column,
                    text,
                    "half-cell potentials lie within 3000 mV of CSE: check the unit"
                );
                continue;
            }

            if (potential is > 200 or < -800)
            {
                problems.Add(
                    DiagnosticCatalogue.PotentialOutlying,
                    line,
                    column,
                    text,
                    Round(potential)
                );
            }

            result.Add(new(line, x, y, potential));
        }

        return result.ToImmutable();
    }

    private void Ask(ProblemList problems)
    {
        var least = readings.Min(r => r.Number);
        var most = readings.Max(r => r.Number);
        var column = readings[0].Column;
        var answered = context.Readings is not null;
        if (context.Readings is "sign-left-out" or "volts-sign-left-out" && least < 0)
        {
            problems.Add(
                DiagnosticCatalogue.ValueImpossible,
                null,
                column,
                Round(least),
                "halfCell.readings",
                context.Readings,
                $"some potentials have a minus sign ({Round(least)}), so that it was not left out everywhere: write the signs in the table"
            );
            return;
        }

        if (readings.Count < FewestToAsk || answered)
        {
            return;
        }

        if (least >= 0 && most > 0)
        {
            problems.Add(
                DiagnosticCatalogue.SignDropped,
                null,
                column,
                null,
                readings.Count,
                Round(least),
                Round(most)
            );
        }

        if (
            readings.TrueForAll(r => r.Unit.Unit.Name == "mV")
            && Math.Max(Math.Abs(least), Math.Abs(most)) < SmallestPlausible
        )
        {
            problems.Add(
                DiagnosticCatalogue.VoltsAsMillivolts,
                null,
                column,
                null,
                Round(Math.Max(Math.Abs(least), Math.Abs(most)))
            );
        }
    }

    private static string Round(double value) => value.ToString("G6", CultureInfo.InvariantCulture);
}
