using System.Text.Json;
using DeckLife.Data.Json;
using DeckLife.Decisions;
using DeckLife.Diagnostics;
using DeckLife.Projection;

namespace DeckLife.Data.Projection;

/// <summary>Writes a projection as JSON: canonical units, the invariant culture, no NaN and no infinity.</summary>
public static class ProjectionJson
{
    /// <summary>Writes the projection.</summary>
    /// <param name="projection">The projection.</param>
    /// <param name="build">Which build made it.</param>
    /// <returns>The text, UTF-16, lines ended by a line feed.</returns>
    public static string Write(DeckProjection projection, BuildStamp build) =>
        Write(projection, build, null, null);

    /// <summary>Writes the projection with what was asked of it.</summary>
    /// <param name="projection">The projection.</param>
    /// <param name="build">Which build made it.</param>
    /// <param name="map">Removal depth against overlay thickness; absent: none is written.</param>
    /// <param name="decision">How firm the decision is; absent: nothing is written of it.</param>
    /// <returns>The text, UTF-16, lines ended by a line feed.</returns>
    public static string Write(
        DeckProjection projection,
        BuildStamp build,
        DepthMap? map,
        DecisionAnalysis? decision
    )
    {
        ArgumentNullException.ThrowIfNull(projection);
        ArgumentNullException.ThrowIfNull(build);
        return JsonText.Object(json =>
            {
                json.WriteString("deck", projection.Deck.Name);
                json.WriteNumber("startYear", projection.Deck.SurveyYear);
                json.WriteNumber("horizon_yr", projection.Deck.Horizon.Years);
                json.WriteStartArray("strategies");
                foreach (var strategy in projection.Strategies)
                {
                    WriteStrategy(json, projection, strategy);
                }

                json.WriteEndArray();
                if (projection.Hindcast is { } hindcast)
                {
                    HindcastJson.Write(json, hindcast);
                }

                if (projection.Map is { } places)
                {
                    MapJson.Write(json, places);
                }

                if (decision is not null)
                {
                    DecisionJson.Write(json, decision);
                }

                if (map is not null)
                {
                    DepthMapJson.Write(json, map);
                }

                WriteRefused(json, projection);
                WriteAssumptions(json, projection);
                json.WriteStartArray("cautions");
                foreach (var caution in projection.Cautions)
                {
                    json.WriteStringValue(caution);
                }

                json.WriteEndArray();
                FlagsJson.Write(json, projection.Flags);
                WriteProvenance(json, projection, build);
            }) + "\n";
    }

    private static void WriteStrategy(
        Utf8JsonWriter json,
        DeckProjection projection,
        StrategyProjection strategy
    )
    {
        json.WriteStartObject();
        json.WriteString("name", strategy.Strategy.Name);
        WriteLife(json, "serviceLife", strategy.ServiceLife);
        if (strategy.OverlayEnd is { } overlay && strategy.DeckBeneath is { } deck)
        {
            WriteLife(json, "deckBeneath", deck);
            WriteLife(json, "overlay", overlay);
        }

        if (strategy.DeckBeneathWithoutRim is { } rimless)
        {
            WriteLife(json, "deckBeneathWithoutRim", rimless);
        }

        json.WriteStartArray("curve");
        foreach (var point in strategy.Curve)
        {
            json.WriteStartObject();
            json.WriteNumber("time_yr", point.TimeYr);
            WriteBand(json, "damaged", point.Damaged);
            WriteBand(json, "damagedOrPatched", point.DamagedOrPatched);
            WriteBand(json, "initiated", point.Initiated);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        InterventionJson.Write(json, strategy, projection.Deck);
        if (strategy.Cost is { } cost)
        {
            json.WriteStartObject("cost");
            json.WriteNumber("presentValue", cost.PresentValue.P50);
            json.WriteNumber("meanPresentValue", cost.MeanPresentValue);
            WriteBand(json, "presentValueBand", cost.PresentValue);
            json.WriteNumber("equivalentAnnual", cost.EquivalentAnnual);
            json.WriteString("currency", cost.Currency);
            json.WriteNumber("priceYear", cost.PriceYear);
            WriteBand(json, "agency", cost.Agency);
            if (cost.Users is { } users)
            {
                WriteBand(json, "users", users);
            }

            WriteBand(json, "firstCost", cost.FirstCost);
            json.WriteStartArray("items");
            foreach (var item in cost.Items)
            {
                json.WriteStartObject();
                json.WriteString("item", item.Item);
                json.WriteString(
                    "paidBy",
                    item.PaidBy == Economics.Payer.Users ? "users" : "agency"
                );
                json.WriteNumber("meanPresentValue", item.MeanPresentValue);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            WriteRates(json, strategy);
            json.WriteEndObject();
        }

        if (strategy.CheapestProbability is { } cheapest)
        {
            json.WriteNumber("cheapestProbability", cheapest);
        }

        WriteIfThere(json, "errorOfCheapestProbability", strategy.ErrorOfCheapestProbability);
        WriteIfThere(json, "expectedRegret", strategy.ExpectedRegret);

        FlagsJson.Write(json, strategy.Flags);
        json.WriteEndObject();
    }

    private static void WriteRates(Utf8JsonWriter json, StrategyProjection strategy)
    {
        json.WriteStartArray("byDiscountRate");
        foreach (var at in strategy.CostByRate)
        {
            json.WriteStartObject();
            json.WriteNumber("rate_per_yr", at.RatePerYr);
            json.WriteNumber("presentValue", at.PresentValue.P50);
            WriteBand(json, "presentValueBand", at.PresentValue);
            json.WriteNumber("equivalentAnnual", at.EquivalentAnnual);
            WriteIfThere(json, "cheapestProbability", at.CheapestProbability);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    internal static void WriteLife(Utf8JsonWriter json, string name, ServiceLife life)
    {
        json.WriteStartObject(name);
        json.WriteString("criterion", life.Criterion);
        WriteIfThere(json, "p05_yr", life.P05Yr);
        WriteIfThere(json, "p50_yr", life.P50Yr);
        WriteIfThere(json, "p95_yr", life.P95Yr);
        json.WriteNumber("notReachedProbability", life.NotReachedProbability);
        json.WriteStartObject("monteCarloError");
        WriteIfThere(json, "p05_yr", life.ErrorOfP05Yr);
        WriteIfThere(json, "p50_yr", life.ErrorOfP50Yr);
        WriteIfThere(json, "p95_yr", life.ErrorOfP95Yr);
        json.WriteEndObject();
        json.WriteEndObject();
    }

    internal static void WriteBand(Utf8JsonWriter json, string name, PercentileBand band)
    {
        json.WriteStartObject(name);
        json.WriteNumber("p05", band.P05);
        json.WriteNumber("p50", band.P50);
        json.WriteNumber("p95", band.P95);
        json.WriteEndObject();
    }

    private static void WriteIfThere(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number && double.IsFinite(number))
        {
            json.WriteNumber(name, number);
        }
    }

    private static void WriteRefused(Utf8JsonWriter json, DeckProjection projection)
    {
        json.WriteStartArray("refused");
        foreach (var refused in projection.Refused)
        {
            json.WriteStartObject();
            json.WriteString("name", refused.Strategy.Name);
            json.WriteString("code", refused.Reason.Code);
            json.WriteString("reason", refused.Reason.Text);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteAssumptions(Utf8JsonWriter json, DeckProjection projection)
    {
        json.WriteStartArray("assumptions");
        foreach (var assumption in projection.Assumptions)
        {
            json.WriteStartObject();
            json.WriteString("subject", assumption.Subject);
            json.WriteString("text", assumption.Text);
            json.WriteString("source", assumption.Source);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteProvenance(
        Utf8JsonWriter json,
        DeckProjection projection,
        BuildStamp build
    )
    {
        json.WriteStartObject("provenance");
        json.WriteString("version", build.Version);
        json.WriteString("commit", build.Commit ?? "not recorded by this build");
        json.WriteNumber("seed", projection.Settings.Seed);
        json.WriteNumber("draws", projection.Settings.Draws);
        json.WriteNumber("points", projection.Settings.Points);
        json.WriteStartArray("inputs");
        foreach (var input in projection.Deck.Inputs)
        {
            json.WriteStartObject();
            json.WriteString("file", input.Name);
            json.WriteString("sha256", input.Sha256);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }
}
