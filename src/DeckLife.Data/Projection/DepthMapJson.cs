using System.Text.Json;
using DeckLife.Decisions;
using DeckLife.Projection;

namespace DeckLife.Data.Projection;

/// <summary>Writes a depth-thickness map as JSON: canonical units; what does not exist is left out.</summary>
internal static class DepthMapJson
{
    /// <summary>Writes the map as a member of the projection's object.</summary>
    public static void Write(Utf8JsonWriter json, DepthMap map)
    {
        json.WriteStartObject("depthMap");
        json.WriteNumber("time_yr", map.Plan.At.Years);
        json.WriteNumber("draws", map.Plan.Draws);
        json.WriteNumber("points", map.Plan.AreaPoints);
        if (map.Deck.Prices is { } prices)
        {
            json.WriteString("currency", prices.Currency);
            json.WriteNumber("priceYear", prices.PriceYear);
        }

        WriteLimits(json, map.Plan.Limits);
        if (map.Choice is { } choice)
        {
            WriteChoice(json, choice);
        }

        WriteCells(json, "points", map.Points);
        WriteCells(json, "cells", map.Cells);
        json.WriteStartArray("notes");
        foreach (var note in map.Notes)
        {
            json.WriteStringValue(note);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteLimits(Utf8JsonWriter json, DepthLimits limits)
    {
        json.WriteStartObject("limits");
        Number(json, "gradeRise_mm", limits.GradeRise?.Millimetres);
        Number(json, "addedDeadLoad_kN_per_m2", limits.AddedDeadLoadKnPerM2);
        Number(json, "barClearance_mm", limits.BarClearance?.Millimetres);
        if (limits.BarClearance is not null)
        {
            json.WriteNumber("barClearanceShare", limits.BarClearanceShare);
        }

        Number(json, "budget", limits.Budget);
        Number(json, "remainingThickness_mm", limits.RemainingThickness?.Millimetres);
        Number(json, "barsExposed", limits.BarsExposed);
        json.WriteEndObject();
    }

    private static void WriteChoice(Utf8JsonWriter json, DepthChoice choice)
    {
        json.WriteStartObject("best");
        json.WriteString("criterion", choice.Criterion);
        WriteCell(json, choice.Best);
        json.WriteBoolean("needsStructuralCheck", choice.Best.NeedsStructuralCheck);
        json.WriteStartArray("indistinguishable");
        foreach (var cell in choice.Indistinguishable)
        {
            json.WriteStartObject();
            WritePlace(json, cell);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        if (choice.OneMoreYear is { } year)
        {
            json.WriteStartObject("oneMoreYear");
            json.WriteNumber("price", year.PerYear);
            json.WriteNumber("monteCarloError", year.ErrorOfPerYear);
            json.WriteNumber("extraYears_yr", year.ExtraYears);
            json.WriteNumber("extraFirstCost", year.ExtraFirstCost);
            json.WriteStartObject("next");
            WritePlace(json, year.Next);
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndObject();
    }

    private static void WriteCells(
        Utf8JsonWriter json,
        string name,
        IEnumerable<DepthMapCell> cells
    )
    {
        json.WriteStartArray(name);
        foreach (var cell in cells)
        {
            json.WriteStartObject();
            WriteCell(json, cell);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteCell(Utf8JsonWriter json, DepthMapCell cell)
    {
        WritePlace(json, cell);
        if (cell.Refusal is { } refusal)
        {
            json.WriteStartObject("refused");
            json.WriteString("code", refusal.Code);
            json.WriteString("reason", refusal.Text);
            json.WriteEndObject();
            return;
        }

        if (cell.Projection is { } projection)
        {
            ProjectionJson.WriteLife(json, "serviceLife", projection.ServiceLife);
            WriteWork(json, projection);
        }

        Number(json, "expectedYears_yr", cell.ExpectedYears);
        Number(json, "expectedPresentValue", cell.ExpectedPresentValue);
        Number(json, "monteCarloErrorOfPresentValue", cell.ErrorOfPresentValue);
        Number(json, "firstCost", cell.FirstCost);
        Number(json, "remainingThickness_mm", cell.RemainingMm);
        Number(json, "barsExposed", cell.BarsExposed);
        Number(json, "barClearance_mm", cell.BarClearanceMm);
        json.WriteBoolean("allowed", cell.IsAllowed);
        json.WriteStartArray("broken");
        foreach (var breach in cell.Broken)
        {
            json.WriteStartObject();
            json.WriteString("limit", breach.Limit);
            Number(json, "value", breach.Value);
            json.WriteNumber("allowed", breach.Allowed);
            json.WriteString("unit", breach.Unit);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteWork(Utf8JsonWriter json, StrategyProjection projection)
    {
        if (projection.Interventions.IsEmpty)
        {
            return;
        }

        var work = projection.Interventions[0];
        json.WriteNumber("gradeRise_mm", work.GradeRiseMm);
        Number(json, "addedDeadLoad_kN_per_m2", work.AddedDeadLoadKnPerM2);
        json.WriteNumber("barsStruck", work.StruckFraction.P50);
    }

    private static void WritePlace(Utf8JsonWriter json, DepthMapCell cell)
    {
        if (cell.Name is { } name)
        {
            json.WriteString("strategy", name);
        }

        json.WriteString("material", cell.Material);
        json.WriteNumber("removal_mm", cell.Removal.Millimetres);
        json.WriteNumber("thickness_mm", cell.Thickness.Millimetres);
    }

    private static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number && double.IsFinite(number))
        {
            json.WriteNumber(name, number);
        }
    }
}
