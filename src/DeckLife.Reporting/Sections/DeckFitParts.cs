using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>A deck's fit in full: the population, another method beside it, the cores within the deck, priors, convergence, flags.</summary>
internal static class DeckFitParts
{
    private const int FewestOfAPopulation = 3;

    /// <summary>Puts the parts together; those that a fit lacks are left out.</summary>
    /// <param name="fit">The fit of the deck.</param>
    /// <param name="name">What its cores are.</param>
    public static PartList Of(DeckFit fit, string name = "Cores within the deck") =>
        new([
            // One or two cores tell of themselves alone; what the model says of the places between is its prior.
            fit.Cores >= FewestOfAPopulation
                ? DeckFitTable.Of(fit)
                : new Remark($"{name}: {fit.Reason}."),
            fit.Convergence is { } chains
                ? new Remark(
                    $"Chains: split R-hat {NumberNotation.Fixed(chains.SplitRhat, 3)} (1 when converged), effective sample size {NumberNotation.Fixed(chains.EffectiveSampleSize, 0)}, the worst over all parameters. Sampling: {fit.Sampling}."
                )
                : null,
            fit.Reml is { } reml ? Reml(reml) : null,
            fit.CoreEstimates.Length > 0 ? CoreTable(fit, name) : null,
            fit.Priors.Length > 0 && fit.Cores >= FewestOfAPopulation
                ? new Remark("Priors: " + string.Join("; ", fit.Priors) + ".")
                : null,
            .. fit.Flags.Select(f => new Remark($"{f.Code} {f.Text}")),
            fit.CrackCores is { } cracks ? Of(cracks, "Cores on cracks, kept apart") : null,
        ]);

    private static ReportTable Reml(DeckRemlFit reml) =>
        new(
            $"Beside it: restricted maximum likelihood in two stages, t limits on {reml.DegreesOfFreedom} degrees of freedom"
                + (
                    reml.IsSingular
                        ? " (covariance at the edge of what it can be: it says little)"
                        : ""
                ),
            [
                new("Parameter"),
                new("Unit"),
                new("Estimate", true),
                new("Lower 95 %", true),
                new("Upper 95 %", true),
                new("Remark"),
            ],
            [
                DeckFitTable.Row(
                    "Median surface chloride",
                    UnitScale.Chloride,
                    reml.SurfaceChloride
                ),
                DeckFitTable.Row(
                    "Median diffusion coefficient",
                    UnitScale.Diffusion,
                    reml.DiffusionCoefficient
                ),
                Bare(
                    "Between cores, standard deviation of ln surface chloride",
                    reml.SdLnSurfaceChloride
                ),
                Bare(
                    "Between cores, standard deviation of ln diffusion coefficient",
                    reml.SdLnDiffusionCoefficient
                ),
                Bare("Between cores, correlation of the two", reml.Correlation),
            ]
        );

    private static ImmutableArray<ReportCell> Bare(string name, double value) =>
        [
            ReportCell.Words(name),
            ReportCell.Words(""),
            ReportCell.Number(value),
            ReportCell.Words(""),
            ReportCell.Words(""),
            ReportCell.Words("no limits by this method"),
        ];

    private static ReportTable CoreTable(DeckFit fit, string name) =>
        new(
            name,
            [
                new("Core"),
                new("Exposure", true, FixedUnit: "yr"),
                new("Surface chloride", true, UnitScale.Chloride),
                new("Lower 95 %", true, UnitScale.Chloride),
                new("Upper 95 %", true, UnitScale.Chloride),
                new("Diffusion coefficient", true, UnitScale.Diffusion),
                new("Lower 95 %", true, UnitScale.Diffusion),
                new("Upper 95 %", true, UnitScale.Diffusion),
            ],
            [
                .. fit.CoreEstimates.Select(c =>
                    ImmutableArray.Create(
                        ReportCell.Words(c.Core),
                        ReportCell.Number(c.ExposureYears),
                        ReportCell.Quantity(UnitScale.Chloride, c.SurfaceChloride.Value),
                        ReportCell.Quantity(UnitScale.Chloride, c.SurfaceChloride.Lower95),
                        ReportCell.Quantity(UnitScale.Chloride, c.SurfaceChloride.Upper95),
                        ReportCell.Quantity(UnitScale.Diffusion, c.DiffusionCoefficient.Value),
                        ReportCell.Quantity(UnitScale.Diffusion, c.DiffusionCoefficient.Lower95),
                        ReportCell.Quantity(UnitScale.Diffusion, c.DiffusionCoefficient.Upper95)
                    )
                ),
            ]
        );
}
