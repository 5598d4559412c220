using System.Globalization;
using System.Text.Json;
using DeckLife.Data.Json;
using DeckLife.Diagnostics;
using DeckLife.Fitting;

namespace DeckLife.Data.Fitting;

/// <summary>The JSON form of fits: always kg/m3, mm2/yr, mm and yr; what does not exist is left out with its reason beside it.</summary>
public static partial class FitJson
{
    /// <summary>Writes the fits of a file or folder.</summary>
    /// <param name="cores">The cores, in the order of the file.</param>
    /// <param name="deck">The deck, where its cores could be pooled.</param>
    /// <param name="deckReason">Why there is no deck fit, or what to know of it.</param>
    /// <param name="diagnostics">Warnings and notes from reading the input.</param>
    public static string Write(
        IReadOnlyList<ProfileFit> cores,
        DeckFit? deck = null,
        string? deckReason = null,
        IReadOnlyList<Diagnostic>? diagnostics = null
    )
    {
        ArgumentNullException.ThrowIfNull(cores);
        return JsonText.Object(json =>
        {
            json.WriteStartArray("cores");
            foreach (var core in cores)
            {
                WriteCore(json, core, named: true);
            }

            json.WriteEndArray();
            if (deck is not null)
            {
                json.WriteStartObject("deck");
                WriteDeck(json, deck);
                json.WriteEndObject();
            }

            WriteText(json, "deckReason", deckReason);
            if (diagnostics is { Count: > 0 })
            {
                WriteDiagnostics(json, "diagnostics", diagnostics);
            }
        });
    }

    /// <summary>Writes what makes an input unusable, in the one form that all verbs have.</summary>
    /// <param name="problems">The problems.</param>
    public static string WriteProblems(IReadOnlyList<Diagnostic> problems) =>
        ProblemsJson.Write(problems);

    private static void WriteCore(Utf8JsonWriter json, ProfileFit fit, bool named)
    {
        json.WriteStartObject();
        if (named)
        {
            json.WriteString("core", fit.Profile.Core);
        }

        json.WriteString("status", Status(fit.Status));
        WriteText(json, "reason", fit.Reason);
        json.WriteNumber("points", fit.Points);
        WriteNumber(json, "age_yr", fit.Profile.ExposureAge.Years);
        if (fit.Profile.OnCrack)
        {
            json.WriteBoolean("onCrack", true);
        }

        if (fit.Status != FitStatus.Refused)
        {
            WriteEstimate(json, "surfaceChloride", fit.SurfaceChloride, "kg/m3");
            WriteEstimate(json, "diffusionCoefficient", fit.DiffusionCoefficient, "mm2/yr");
            WriteEstimate(json, "background", fit.Background, "kg/m3", isBackground: true);
            json.WriteNumber("degreesOfFreedom", fit.DegreesOfFreedom);
            WriteNumber(json, "residualSd_kg_per_m3", fit.ResidualStandardDeviation);
            WriteNumber(json, "correlation", fit.Correlation);
            WriteNumber(json, "rSquared", fit.RSquared);
            WriteText(json, "method", fit.Method);
            json.WriteStartObject("searchInterval");
            WriteNumber(json, "low", fit.SearchLow);
            WriteNumber(json, "high", fit.SearchHigh);
            json.WriteString("unit", "mm2/yr");
            json.WriteEndObject();
            WriteSlices(json, fit);
        }

        json.WriteStartArray("excluded");
        foreach (var slice in fit.Excluded)
        {
            json.WriteStartObject();
            json.WriteNumber("row", slice.Row);
            json.WriteString("reason", slice.Reason);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        WriteDiagnostics(json, "flags", fit.Flags);
        if (fit.OtherWeights is { } other)
        {
            json.WriteStartObject("otherWeights");
            json.WriteString("weights", "relative");
            WriteEstimate(json, "surfaceChloride", other.SurfaceChloride, "kg/m3");
            WriteEstimate(json, "diffusionCoefficient", other.DiffusionCoefficient, "mm2/yr");
            WriteEstimate(json, "background", other.Background, "kg/m3", isBackground: true);
            WriteText(json, "method", other.Method);
            json.WriteEndObject();
        }

        if (fit.Alternative is { } alternative)
        {
            json.WritePropertyName("alternative");
            WriteCore(json, alternative, named: false);
        }

        json.WriteEndObject();
    }

    private static void WriteSlices(Utf8JsonWriter json, ProfileFit fit)
    {
        json.WriteStartArray("slices");
        foreach (var slice in fit.Slices)
        {
            json.WriteStartObject();
            json.WriteNumber("row", slice.Row);
            WriteNumber(json, "top_mm", slice.TopMm);
            WriteNumber(json, "bottom_mm", slice.BottomMm);
            WriteNumber(
                json,
                slice.IsNonDetect ? "below_kg_per_m3" : "measured_kg_per_m3",
                slice.Measured
            );
            WriteNumber(json, "fitted_kg_per_m3", slice.Fitted);
            WriteNumber(json, "sd_kg_per_m3", slice.StandardDeviation);
            if (slice.Weight < 1)
            {
                WriteNumber(json, "weight", slice.Weight);
            }

            var influence = fit.Influence.Where(i => i.Row == slice.Row).ToArray();
            if (influence.Length == 1)
            {
                if (influence[0].DiffusionCoefficient is { } without)
                {
                    WriteNumber(json, "diffusionCoefficientWithout_mm2_per_yr", without);
                }
                else
                {
                    json.WriteString(
                        "withoutReason",
                        "without this slice no fit exists within the search interval"
                    );
                }
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteEstimate(
        Utf8JsonWriter json,
        string property,
        Estimate? estimate,
        string? unit,
        bool isBackground = false,
        string name = "value"
    )
    {
        if (estimate is null)
        {
            return;
        }

        json.WriteStartObject(property);
        WriteNumber(json, name, estimate.Value);
        WriteText(json, "unit", unit);
        if (isBackground)
        {
            json.WriteBoolean("fixed", estimate.IsFixed);
            json.WriteBoolean("atBound", estimate.IsAtBound);
        }

        WriteNumber(json, "standardError", estimate.StandardError);
        WriteNumber(json, "lower95", estimate.Lower95);
        WriteNumber(json, "upper95", estimate.Upper95);
        WriteText(json, "limitMethod", estimate.LimitMethod);
        WriteNumber(json, "constantErrorsLower95", estimate.ConstantErrorsLower95);
        WriteNumber(json, "constantErrorsUpper95", estimate.ConstantErrorsUpper95);
        WriteNumber(json, "plainLower95", estimate.PlainLower95);
        WriteNumber(json, "plainUpper95", estimate.PlainUpper95);
        WriteText(json, "missing", estimate.MissingReason);
        json.WriteEndObject();
    }

    private static void WriteDiagnostics(
        Utf8JsonWriter json,
        string property,
        IReadOnlyList<Diagnostic> diagnostics
    )
    {
        json.WriteStartArray(property);
        foreach (var diagnostic in diagnostics)
        {
            json.WriteStartObject();
            json.WriteString("code", diagnostic.Code);
            json.WriteString(
                "severity",
                diagnostic.Severity switch
                {
                    Severity.Note => "note",
                    Severity.Warning => "warning",
                    _ => "error",
                }
            );
            WriteText(json, "file", diagnostic.File);
            if (diagnostic.Row is > 0)
            {
                json.WriteNumber("row", diagnostic.Row.Value);
            }

            WriteText(json, "column", diagnostic.Column);
            WriteText(json, "value", diagnostic.Value);
            json.WriteString("text", diagnostic.Text);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteText(Utf8JsonWriter json, string property, string? text)
    {
        if (!string.IsNullOrEmpty(text))
        {
            json.WriteString(property, text);
        }
    }

    // A number that does not exist is left out; the reason stands in the object's own text.
    private static void WriteNumber(Utf8JsonWriter json, string property, double? number)
    {
        if (number is { } value && double.IsFinite(value))
        {
            json.WriteNumber(property, Shortened(value));
        }
    }

    // Twelve digits: more than any measurement has, and 19.05 mm is written so where inches became 19.049999999999997.
    private static double Shortened(double value) =>
        double.Parse(
            value.ToString("G12", CultureInfo.InvariantCulture),
            CultureInfo.InvariantCulture
        );

    private static string Status(FitStatus status) =>
        status switch
        {
            FitStatus.Fitted => "fitted",
            FitStatus.Limited => "limited",
            _ => "refused",
        };
}
