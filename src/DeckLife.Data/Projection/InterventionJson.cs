using System.Text.Json;
using DeckLife.Projection;

namespace DeckLife.Data.Projection;

/// <summary>Writes what a strategy's interventions take off, expose, repair and place.</summary>
internal static class InterventionJson
{
    /// <summary>Writes the array.</summary>
    public static void Write(Utf8JsonWriter json, StrategyProjection strategy, Deck deck)
    {
        json.WriteStartArray("interventions");
        foreach (var work in strategy.Interventions)
        {
            json.WriteStartObject();
            json.WriteNumber("time_yr", work.AtYr);
            json.WriteNumber("probability", work.Probability);
            json.WriteStartArray("depthClasses");
            foreach (var depth in work.DepthClasses)
            {
                json.WriteStartObject();
                json.WriteNumber("depth_mm", depth.DepthMm);
                json.WriteNumber("fraction", depth.Fraction);
                json.WriteNumber("area_m2", depth.Fraction * deck.AreaM2);
                json.WriteNumber("volume_m3", depth.Fraction * deck.AreaM2 * depth.DepthMm / 1000);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            ProjectionJson.WriteBand(json, "meanRemoval_mm", work.MeanRemovalMm);
            ProjectionJson.WriteBand(json, "meanPlaced_mm", work.MeanPlacedMm);
            ProjectionJson.WriteBand(json, "soundedBefore", work.SoundedFraction);
            ProjectionJson.WriteBand(json, "repaired", work.RepairedFraction);
            ProjectionJson.WriteBand(json, "undercut", work.UndercutFraction);
            ProjectionJson.WriteBand(json, "removedByPotential", work.RemovedByPotentialFraction);
            ProjectionJson.WriteBand(json, "barsExposedAtOnce", work.ExposedAtOnceFraction);
            ProjectionJson.WriteBand(json, "rim", work.RimFraction);
            ProjectionJson.WriteBand(json, "barsStruck", work.StruckFraction);
            json.WriteNumber("leastRemaining_mm", work.LeastRemainingMm);
            json.WriteNumber("remainingUnderBars_mm", work.RemainingUnderBarsMm);
            json.WriteNumber("gradeRise_mm", work.GradeRiseMm);
            if (work.AddedDeadLoadKnPerM2 is { } load)
            {
                json.WriteNumber("addedDeadLoad_kN_per_m2", load);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
