using System.Globalization;
using DeckLife.Network.Results;

namespace DeckLife.Data.Networks;

/// <summary>A network's results for a terminal.</summary>
public static class NetworkText
{
    /// <summary>Writes the results.</summary>
    /// <param name="result">The results.</param>
    /// <param name="provenance">Where they come from.</param>
    /// <param name="output">Where to.</param>
    public static void Write(NetworkResult result, NetworkProvenance provenance, TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(result);
        ArgumentNullException.ThrowIfNull(provenance);
        ArgumentNullException.ThrowIfNull(output);
        var network = result.Network;
        void Line(FormattableString text) =>
            output.Write(text.ToString(CultureInfo.InvariantCulture) + "\n");
        var failed = result.Decks.Count(d => d.Failure is not null);
        Line(
            $"{network.Name}: {result.Decks.Length} decks, {result.Decks.Length - failed} with an answer ({result.AreaM2:#,0} m2), {failed} without"
        );
        foreach (var caution in NetworkNotes.Cautions)
        {
            Line($"  {caution}");
        }

        Line($"");
        Line(
            $"{"program", -14} {"spent", 12} {"damage avoided", 14} {"damaged " + network.FirstYear, 13} {"damaged " + network.LastYear, 13}   5 to 95 %, decks erring together"
        );
        foreach (var plan in result.Plans)
        {
            var first = plan.Condition.FirstOrDefault()?.Damaged.Together;
            var last = plan.Condition.LastOrDefault()?.Damaged.Together;
            Line(
                $"{plan.Name, -14} {plan.SpentByYear.Sum(), 12:#,0} {plan.ValueM2Yr, 8:#,0} m2 yr {Percent(first?.P50), 13} {Percent(last?.P50), 13}   {Percent(last?.P05)} to {Percent(last?.P95)}"
            );
        }

        Line(
            $"money in {result.Prices}; {NetworkNotes.Sureness(result.Status, result.Gap)} The search looked at {result.SearchNodes} nodes."
        );
        Line($"");
        Line($"year       budget   worst first  best program   decks closed");
        for (var y = 0; y < network.Budgets.Length; y++)
        {
            Line(
                $"{network.FirstYear + y} {network.Budgets[y], 12:#,0} {result.WorstFirst.SpentByYear[y], 13:#,0} {result.Best.SpentByYear[y], 13:#,0} {result.Best.ClosuresByYear[y], 14}"
            );
        }

        Line($"");
        Line($"With another budget:");
        var whole = result.BudgetValues.First(v => v.Factor == 1).ValueM2Yr;
        foreach (var value in result.BudgetValues)
        {
            Line(
                $"  {value.Budget, 12:#,0} ({Percent(value.Factor)}): {value.ValueM2Yr:#,0} m2 yr avoided, {value.ValueM2Yr - whole:+#,0;-#,0;0} against this one. {NetworkNotes.Sureness(value.Status, value.Gap)}"
            );
        }

        Line($"");
        WriteDecks(result, Line);
        Line($"");
        foreach (var assumption in NetworkNotes.Assumptions(result))
        {
            Line($"  {assumption}");
        }

        Line(
            $"decklife {provenance.Build.Version}, commit {provenance.Build.Commit ?? "not recorded"}; seed {network.Seed}, {network.Draws} draws of {network.Points} points; fingerprint {provenance.Fingerprint}"
        );
    }

    private static void WriteDecks(NetworkResult result, Action<FormattableString> line)
    {
        line(
            $"{"deck", -10} {"name", -26} {"area m2", 8} {"damaged " + result.Network.FirstYear, 12} {"untreated " + result.Network.LastYear, 14}  best program [known from]"
        );
        foreach (var row in result.Decks)
        {
            if (row.Failure is { } reason)
            {
                line($"{row.Member.Folder, -10} {row.Name, -26} no answer: {reason}");
                continue;
            }

            line(
                $"{row.Member.Folder, -10} {row.Name, -26} {row.AreaM2, 8:#,0} {Percent(row.DamagedFirstYear?.P50), 12} {Percent(row.Nothing?.DamagedLastYear.P50), 14}  {Words(row.Best!)} [{row.Evidence}]"
            );
        }
    }

    private static string Words(DeckChoice choice) =>
        choice.Strategy is null
            ? "nothing"
            : string.Create(
                CultureInfo.InvariantCulture,
                $"{choice.StartYear} {choice.Strategy}, {choice.Cost:#,0}"
            );

    private static string Percent(double? share, string format = "0.#") =>
        share is { } value
            ? (100 * value).ToString(format, CultureInfo.InvariantCulture) + " %"
            : "-";
}
