using System.Text.Json;
using DeckLife.Data.Json;
using DeckLife.Diagnostics;
using DeckLife.Fitting;

namespace DeckLife.Data.Fitting;

public static partial class FitJson
{
    /// <summary>Writes the two-layer fits of a deck that wears an overlay.</summary>
    /// <param name="cores">The cores, in the order of the file.</param>
    /// <param name="overlayYears">Age of the overlay at the surveys [yr].</param>
    /// <param name="deckReason">Why there is no deck fit.</param>
    /// <param name="diagnostics">Warnings and notes from reading the input.</param>
    public static string Write(
        IReadOnlyList<OverlaidProfileFit> cores,
        double overlayYears,
        string deckReason,
        IReadOnlyList<Diagnostic> diagnostics
    )
    {
        ArgumentNullException.ThrowIfNull(cores);
        ArgumentNullException.ThrowIfNull(diagnostics);
        return JsonText.Object(json =>
        {
            json.WriteStartArray("cores");
            foreach (var core in cores)
            {
                WriteCore(json, core, overlayYears);
            }

            json.WriteEndArray();
            WriteText(json, "deckReason", deckReason);
            if (diagnostics.Count > 0)
            {
                WriteDiagnostics(json, "diagnostics", diagnostics);
            }
        });
    }

    private static void WriteCore(Utf8JsonWriter json, OverlaidProfileFit fit, double overlayYears)
    {
        json.WriteStartObject();
        json.WriteString("core", fit.Profile.Core);
        json.WriteString("status", Status(fit.Status));
        WriteText(json, "reason", fit.Reason);
        json.WriteNumber("points", fit.Points);
        WriteNumber(json, "age_yr", fit.YearsBeforeOverlay + fit.Profile.ExposureAge.Years);
        if (fit.Profile.OnCrack)
        {
            json.WriteBoolean("onCrack", true);
        }

        json.WriteStartObject("overlay");
        WriteNumber(json, "thickness_mm", fit.OverlayThickness.Millimetres);
        WriteNumber(json, "ageAtSurvey_yr", overlayYears);
        if (fit.Status != FitStatus.Refused)
        {
            WriteNumber(json, "ageAtCoring_yr", fit.Profile.ExposureAge.Years);
        }

        WriteEstimate(json, "diffusionCoefficient", fit.OverlayDiffusion, "mm2/yr");
        json.WriteEndObject();
        if (fit.Status != FitStatus.Refused)
        {
            WriteEstimate(json, "surfaceChloride", fit.SurfaceChloride, "kg/m3");
            WriteEstimate(json, "diffusionCoefficient", fit.DeckDiffusion, "mm2/yr");
            WriteEstimate(json, "background", fit.Background, "kg/m3", isBackground: true);
            WriteEstimate(json, "oldSurfaceChloride", fit.OldSurfaceChloride, "kg/m3");
            json.WriteNumber("degreesOfFreedom", fit.DegreesOfFreedom);
            WriteNumber(json, "residualSd_kg_per_m3", fit.ResidualStandardDeviation);
            json.WriteStartArray("slices");
            foreach (var slice in fit.Slices)
            {
                json.WriteStartObject();
                json.WriteNumber("row", slice.Row);
                WriteNumber(json, "top_mm", slice.TopMm);
                WriteNumber(json, "bottom_mm", slice.BottomMm);
                WriteNumber(json, "measured_kg_per_m3", slice.Measured);
                WriteNumber(json, "fitted_kg_per_m3", slice.Fitted);
                WriteNumber(json, "sd_kg_per_m3", slice.StandardDeviation);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        WriteDiagnostics(json, "flags", fit.Flags);
        json.WriteEndObject();
    }
}
