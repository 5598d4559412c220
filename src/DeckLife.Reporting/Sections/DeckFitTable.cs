using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>What the cores together say about the deck: medians, spreads between cores, the laboratory's error.</summary>
public static class DeckFitTable
{
    /// <summary>Makes the table.</summary>
    /// <param name="fit">The fit of the deck.</param>
    public static ReportTable Of(DeckFit fit)
    {
        ArgumentNullException.ThrowIfNull(fit);
        return new(
            $"The deck, from {fit.Cores} cores ({fit.Method})",
            [
                new("Parameter"),
                new("Unit"),
                new("Estimate", true),
                new("Lower 95 %", true),
                new("Upper 95 %", true),
                new("Remark"),
            ],
            [
                Row("Median surface chloride", UnitScale.Chloride, fit.SurfaceChloride),
                Row(
                    fit.ReferenceExposureYears > 0
                        ? $"Median diffusion coefficient at {NumberNotation.Significant(fit.ReferenceExposureYears, 3)} yr of exposure"
                        : "Median diffusion coefficient",
                    UnitScale.Diffusion,
                    fit.DiffusionCoefficient
                ),
                Row("Background", UnitScale.Chloride, fit.Background),
                Row("Laboratory error, standard deviation", UnitScale.Chloride, fit.LabErrorSd),
                Row(
                    "Between cores, standard deviation of ln surface chloride",
                    null,
                    fit.SdLnSurfaceChloride
                ),
                Row(
                    "Between cores, standard deviation of ln diffusion coefficient",
                    null,
                    fit.SdLnDiffusionCoefficient
                ),
                Row("Between cores, correlation of the two", null, fit.Correlation),
                .. Optional("Laboratory error as a share of the content", fit.RelativeLabError),
                .. Optional("Ageing exponent of the instantaneous D", fit.AgeingExponent),
                .. Optional(
                    "Surface chloride where trouble was seen, against elsewhere",
                    fit.TargetedSurfaceFactor
                ),
                .. Optional(
                    "Diffusion coefficient where trouble was seen, against elsewhere",
                    fit.TargetedDiffusionFactor
                ),
            ]
        );
    }

    /// <summary>One estimate as a row: name, unit, value, limits, remark.</summary>
    internal static ImmutableArray<ReportCell> Row(
        string name,
        UnitScale? scale,
        Estimate estimate
    ) =>
        [
            ReportCell.Words(name),
            scale is null
                ? ReportCell.Words("")
                : ReportCell.Fragment(QuantityHtml.Unit(scale), scale.SiUnit),
            Number(scale, estimate.Value),
            Number(scale, estimate.Lower95),
            Number(scale, estimate.Upper95),
            ReportCell.Words(
                estimate.IsFixed ? "given, not estimated"
                : estimate.IsAtBound ? "at its bound"
                : estimate.MissingReason ?? ""
            ),
        ];

    private static IEnumerable<ImmutableArray<ReportCell>> Optional(
        string name,
        Estimate? estimate
    ) => estimate is null ? [] : [Row(name, null, estimate)];

    private static ReportCell Number(UnitScale? scale, double? value) =>
        scale is null ? ReportCell.Number(value) : ReportCell.Quantity(scale, value);
}
