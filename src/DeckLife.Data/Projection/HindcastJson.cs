using System.Collections.Immutable;
using System.Text.Json;
using DeckLife.Projection;

namespace DeckLife.Data.Projection;

/// <summary>Writes what the model said of the deck's own surveys.</summary>
internal static class HindcastJson
{
    /// <summary>Writes the member <c>hindcast</c>.</summary>
    public static void Write(Utf8JsonWriter json, SurveyHindcast hindcast)
    {
        json.WriteStartObject("hindcast");
        Optional(json, "surveyedUnsound", hindcast.SurveyedUnsound);
        json.WriteNumber("surveyedPatched", hindcast.SurveyedPatched);
        Optional(json, "corrodingByHalfCell", hindcast.CorrodingByHalfCell);
        json.WriteNumber("independentSoundingPlaces", hindcast.SoundingPlaces);
        json.WriteNumber("nodes", hindcast.Nodes);
        json.WriteNumber("independentNodes", hindcast.IndependentNodes);
        json.WriteNumber("correlationLength_m", hindcast.CorrelationLengthM);
        json.WriteNumber("finiteAreaSd", hindcast.FiniteAreaSd);
        json.WriteNumber("drawsWeighed", hindcast.DrawsWeighed);
        json.WriteNumber("effectiveSampleSize", hindcast.EffectiveSampleSize);
        json.WriteNumber("paretoShape", hindcast.ParetoShape);
        json.WriteBoolean("learned", hindcast.IsLearned);
        Optional(json, "soundingPredictiveProbability", hindcast.SoundingPredictive);
        Optional(json, "halfCellPredictiveProbability", hindcast.HalfCellPredictive);
        Curve(json, "before", hindcast.CurveBefore);
        if (hindcast.CurveAfter is { } after)
        {
            Curve(json, "after", after);
        }

        json.WriteEndObject();
    }

    private static void Curve(Utf8JsonWriter json, string name, ImmutableArray<CurvePoint> curve)
    {
        json.WriteStartArray(name);
        foreach (var point in curve)
        {
            json.WriteStartObject();
            json.WriteNumber("time_yr", point.TimeYr);
            ProjectionJson.WriteBand(json, "damaged", point.Damaged);
            ProjectionJson.WriteBand(json, "damagedOrPatched", point.DamagedOrPatched);
            ProjectionJson.WriteBand(json, "initiated", point.Initiated);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Optional(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number)
        {
            json.WriteNumber(name, number);
        }
    }
}
