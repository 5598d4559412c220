using System.Text.Json;
using DeckLife.Data.Json;
using DeckLife.Data.Projection;
using DeckLife.Network.Condition;
using DeckLife.Network.Programs;
using DeckLife.Network.Results;

namespace DeckLife.Data.Networks;

/// <summary>Writes a network's results as JSON.</summary>
public static class NetworkJson
{
    /// <summary>Writes them.</summary>
    /// <param name="result">The results.</param>
    /// <param name="provenance">Where they come from.</param>
    public static string Write(NetworkResult result, NetworkProvenance provenance)
    {
        ArgumentNullException.ThrowIfNull(result);
        ArgumentNullException.ThrowIfNull(provenance);
        return JsonText.Object(json =>
            {
                json.WriteString("network", result.Network.Name);
                json.WriteNumber("firstYear", result.Network.FirstYear);
                json.WriteNumber("lastYear", result.Network.LastYear);
                json.WriteNumber("area_m2", result.AreaM2);
                json.WriteString("prices", result.Prices);
                WriteDecks(json, result);
                WritePrograms(json, result);
                WriteMoney(json, result);
                Words(json, "cautions", NetworkNotes.Cautions);
                Words(json, "assumptions", NetworkNotes.Assumptions(result));
                FlagsJson.Write(json, result.Flags);
                WriteProvenance(json, result, provenance);
            }) + "\n";
    }

    private static void WriteDecks(Utf8JsonWriter json, NetworkResult result)
    {
        json.WriteStartArray("decks");
        foreach (var row in result.Decks)
        {
            json.WriteStartObject();
            json.WriteString("folder", row.Member.Folder);
            json.WriteString("name", row.Name);
            json.WriteString("status", row.Failure is null ? "projected" : "failed");
            if (row.Failure is { } reason)
            {
                json.WriteString("reason", reason);
            }

            json.WriteString("evidence", row.Evidence);
            if (row.AreaM2 is { } area)
            {
                json.WriteNumber("area_m2", area);
            }

            if (row.DamagedFirstYear is { } band)
            {
                ProjectionJson.WriteBand(json, "damagedFirstYear", band);
            }

            Choice(json, "doNothing", row.Nothing);
            Choice(json, "worstFirst", row.WorstFirst);
            Choice(json, "best", row.Best);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Choice(Utf8JsonWriter json, string name, DeckChoice? choice)
    {
        if (choice is null)
        {
            return;
        }

        json.WriteStartObject(name);
        if (choice.Strategy is { } strategy)
        {
            json.WriteString("strategy", strategy);
            json.WriteNumber("startYear", choice.StartYear!.Value);
            json.WriteNumber("cost", choice.Cost);
        }

        ProjectionJson.WriteBand(json, "damagedLastYear", choice.DamagedLastYear);
        json.WriteEndObject();
    }

    private static void WritePrograms(Utf8JsonWriter json, NetworkResult result)
    {
        json.WriteStartObject("optimisation");
        json.WriteString("status", StatusWord(result.Status));
        json.WriteNumber("gap", result.Gap);
        json.WriteNumber("searchNodes", result.SearchNodes);
        json.WriteEndObject();
        json.WriteStartArray("programs");
        foreach (var plan in result.Plans)
        {
            json.WriteStartObject();
            json.WriteString("name", plan.Name);
            json.WriteNumber("avoided_m2_yr", plan.ValueM2Yr);
            json.WriteStartArray("years");
            for (var y = 0; y < plan.SpentByYear.Length; y++)
            {
                json.WriteStartObject();
                json.WriteNumber("year", result.Network.FirstYear + y);
                json.WriteNumber("budget", result.Network.Budgets[y]);
                json.WriteNumber("spent", plan.SpentByYear[y]);
                json.WriteNumber("decksClosed", plan.ClosuresByYear[y]);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartArray("condition");
            foreach (var year in plan.Condition)
            {
                json.WriteStartObject();
                json.WriteNumber("year", year.Year);
                Band(json, "damaged", year.Damaged);
                json.WriteStartArray("classes");
                for (var c = 0; c < year.AreaByClass.Length; c++)
                {
                    json.WriteStartObject();
                    json.WriteNumber("from", c == 0 ? 0 : result.Network.ClassLimits[c - 1]);
                    Band(json, "area", year.AreaByClass[c]);
                    Band(json, "decks", year.DecksByClass[c]);
                    json.WriteEndObject();
                }

                json.WriteEndArray();
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteMoney(Utf8JsonWriter json, NetworkResult result)
    {
        json.WriteStartArray("budgets");
        foreach (var value in result.BudgetValues)
        {
            json.WriteStartObject();
            json.WriteNumber("factor", value.Factor);
            json.WriteNumber("budget", value.Budget);
            json.WriteNumber("spent", value.Spent);
            json.WriteNumber("avoided_m2_yr", value.ValueM2Yr);
            json.WriteNumber("atMost_m2_yr", value.BoundM2Yr);
            json.WriteString("status", StatusWord(value.Status));
            json.WriteNumber("gap", value.Gap);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        if (result.ConditionMissed.Length > 0)
        {
            json.WriteStartArray("conditionMissed");
            foreach (var missed in result.ConditionMissed)
            {
                json.WriteNumberValue(missed);
            }

            json.WriteEndArray();
        }
    }

    private static void WriteProvenance(
        Utf8JsonWriter json,
        NetworkResult result,
        NetworkProvenance provenance
    )
    {
        json.WriteStartObject("provenance");
        json.WriteString("version", provenance.Build.Version);
        json.WriteString("commit", provenance.Build.Commit ?? "not recorded by this build");
        json.WriteNumber("seed", result.Network.Seed);
        json.WriteNumber("draws", result.Network.Draws);
        json.WriteNumber("points", result.Network.Points);
        json.WriteString("networkSha256", provenance.Sha256);
        json.WriteString("fingerprint", provenance.Fingerprint);
        json.WriteEndObject();
    }

    private static void Band(Utf8JsonWriter json, string name, ConditionBand band)
    {
        json.WriteStartObject(name);
        ProjectionJson.WriteBand(json, "independent", band.Independent);
        ProjectionJson.WriteBand(json, "together", band.Together);
        json.WriteEndObject();
    }

    private static void Words(Utf8JsonWriter json, string name, IEnumerable<string> words)
    {
        json.WriteStartArray(name);
        foreach (var word in words)
        {
            json.WriteStringValue(word);
        }

        json.WriteEndArray();
    }

    private static string StatusWord(ProgramStatus status) =>
        status switch
        {
            ProgramStatus.Optimal => "optimal",
            ProgramStatus.WithinGap => "within gap",
            _ => "condition missed",
        };
}
