using System.Text.Json;
using DeckLife.Fitting;

namespace DeckLife.Data.Fitting;

public static partial class FitJson
{
    private static void WriteDeck(Utf8JsonWriter json, DeckFit deck)
    {
        json.WriteNumber("cores", deck.Cores);
        json.WriteString("status", Status(deck.Status));
        WriteText(json, "reason", deck.Reason);
        WriteMedian(json, "surfaceChloride", deck.SurfaceChloride, "kg/m3");
        WriteMedian(json, "diffusionCoefficient", deck.DiffusionCoefficient, "mm2/yr");
        WriteEstimate(json, "background", deck.Background, "kg/m3", isBackground: true);
        json.WriteStartObject("betweenCoreSd");
        WriteEstimate(json, "lnSurfaceChloride", deck.SdLnSurfaceChloride, null);
        WriteEstimate(json, "lnDiffusionCoefficient", deck.SdLnDiffusionCoefficient, null);
        json.WriteEndObject();
        WriteEstimate(json, "correlation", deck.Correlation, null);
        WriteEstimate(json, "covariance", deck.Covariance, null);
        WriteEstimate(json, "labErrorSd", deck.LabErrorSd, "kg/m3");
        WriteEstimate(json, "relativeLabError", deck.RelativeLabError, null);
        WriteNumber(json, "referenceExposureAge_yr", deck.ReferenceExposureYears);
        WriteEstimate(json, "ageingExponent", deck.AgeingExponent, null);
        WriteEstimate(json, "targetedSurfaceFactor", deck.TargetedSurfaceFactor, null);
        WriteEstimate(json, "targetedDiffusionFactor", deck.TargetedDiffusionFactor, null);
        json.WriteString("method", deck.Method);
        if (deck.Convergence is { } convergence)
        {
            json.WriteStartObject("convergence");
            WriteNumber(json, "splitRhat", Math.Round(convergence.SplitRhat, 4));
            WriteNumber(
                json,
                "effectiveSampleSize",
                Math.Round(convergence.EffectiveSampleSize, 0)
            );
            json.WriteEndObject();
        }

        WriteText(json, "sampling", deck.Sampling);
        WriteCoreEstimates(json, deck);
        WriteReml(json, deck.Reml);
        json.WriteStartArray("priors");
        foreach (var prior in deck.Priors)
        {
            json.WriteStringValue(prior);
        }

        json.WriteEndArray();
        WriteDiagnostics(json, "flags", deck.Flags);
        if (deck.CrackCores is { } cracks)
        {
            json.WriteStartObject("crackCores");
            WriteDeck(json, cracks);
            json.WriteEndObject();
        }
    }

    private static void WriteCoreEstimates(Utf8JsonWriter json, DeckFit deck)
    {
        json.WriteStartArray("coreEstimates");
        foreach (var core in deck.CoreEstimates)
        {
            json.WriteStartObject();
            json.WriteString("core", core.Core);
            WriteNumber(json, "age_yr", core.ExposureYears);
            json.WriteBoolean("targeted", core.IsTargeted);
            WriteMedian(json, "surfaceChloride", core.SurfaceChloride, "kg/m3");
            WriteMedian(json, "diffusionCoefficient", core.DiffusionCoefficient, "mm2/yr");
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteReml(Utf8JsonWriter json, DeckRemlFit? reml)
    {
        if (reml is null)
        {
            return;
        }

        json.WriteStartObject("restrictedMaximumLikelihood");
        WriteMedian(json, "surfaceChloride", reml.SurfaceChloride, "kg/m3");
        WriteMedian(json, "diffusionCoefficient", reml.DiffusionCoefficient, "mm2/yr");
        json.WriteStartObject("betweenCoreSd");
        WriteNumber(json, "lnSurfaceChloride", reml.SdLnSurfaceChloride);
        WriteNumber(json, "lnDiffusionCoefficient", reml.SdLnDiffusionCoefficient);
        json.WriteEndObject();
        WriteNumber(json, "correlation", reml.Correlation);
        WriteNumber(json, "background_kg_per_m3", reml.BackgroundKgPerM3);
        WriteNumber(json, "labErrorSd_kg_per_m3", reml.LabErrorSdKgPerM3);
        WriteNumber(json, "logLikelihood", reml.LogLikelihood);
        json.WriteBoolean("covarianceAtItsEdge", reml.IsSingular);
        json.WriteNumber("degreesOfFreedom", reml.DegreesOfFreedom);
        json.WriteEndObject();
    }

    private static void WriteMedian(
        Utf8JsonWriter json,
        string property,
        Estimate estimate,
        string unit
    ) => WriteEstimate(json, property, estimate, unit, name: "median");
}
