using System.Globalization;
using System.Text;
using DeckLife.Fitting;

namespace DeckLife.Data.Fitting;

/// <summary>The CSV form of fits: one row a core, units in the column heads; what does not exist is an empty field and said in `reason`.</summary>
public static class FitCsv
{
    private const string Head =
        "core,status,points,age_yr,"
        + "surface_chloride_kg_per_m3,surface_chloride_se_kg_per_m3,surface_chloride_lower95_kg_per_m3,surface_chloride_upper95_kg_per_m3,"
        + "diffusion_coefficient_mm2_per_yr,diffusion_coefficient_se_mm2_per_yr,diffusion_coefficient_lower95_mm2_per_yr,diffusion_coefficient_upper95_mm2_per_yr,"
        + "background_kg_per_m3,background_se_kg_per_m3,background_lower95_kg_per_m3,background_upper95_kg_per_m3,"
        + "correlation,residual_sd_kg_per_m3,degrees_of_freedom,excluded_rows,flags,reason";

    /// <summary>Writes the fits.</summary>
    /// <param name="cores">The cores, in the order of the file.</param>
    public static string Write(IReadOnlyList<ProfileFit> cores)
    {
        ArgumentNullException.ThrowIfNull(cores);
        var text = new StringBuilder(Head).Append('\n');
        foreach (var fit in cores)
        {
            text.AppendJoin(
                    ',',
                    CsvText.Field(fit.Profile.Core),
                    fit.Status.ToString().ToLowerInvariant(),
                    fit.Points.ToString(CultureInfo.InvariantCulture),
                    Number(fit.Profile.ExposureAge.Years),
                    Of(fit.SurfaceChloride),
                    Of(fit.DiffusionCoefficient),
                    Of(fit.Background),
                    Number(fit.Correlation),
                    Number(fit.ResidualStandardDeviation),
                    fit.Status == FitStatus.Refused
                        ? string.Empty
                        : fit.DegreesOfFreedom.ToString(CultureInfo.InvariantCulture),
                    string.Join(
                        ' ',
                        fit.Excluded.Select(e => e.Row.ToString(CultureInfo.InvariantCulture))
                    ),
                    string.Join(' ', fit.Flags.Select(f => f.Code).Distinct()),
                    CsvText.Field(fit.Reason ?? string.Empty)
                )
                .Append('\n');
        }

        return text.ToString();
    }

    private static string Of(Estimate? estimate) =>
        string.Join(
            ',',
            Number(estimate?.Value),
            Number(estimate?.StandardError),
            Number(estimate?.Lower95),
            Number(estimate?.Upper95)
        );

    private static string Number(double? value) =>
        value is { } v && double.IsFinite(v)
            ? v.ToString("R", CultureInfo.InvariantCulture)
            : string.Empty;
}
