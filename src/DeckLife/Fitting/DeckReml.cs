using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Numerics.LinearMixed;
using DeckLife.Numerics.Sampling;
using MathNet.Numerics.Distributions;

namespace DeckLife.Fitting;

/// <summary>Restricted maximum likelihood of a deck in two stages: the cores with one background and one error, then the population.</summary>
internal static class DeckReml
{
    /// <summary>Fits; null, with the reason among the flags, where it can't be done.</summary>
    /// <param name="model">The deck.</param>
    /// <param name="ageingExponent">Exponent that brings the cores to the reference age.</param>
    /// <param name="flags">Receives what a reviewer should know.</param>
    public static DeckRemlFit? Fit(
        DeckModel model,
        double ageingExponent,
        ImmutableArray<Diagnostic>.Builder flags
    )
    {
        if (Reason(model) is { } reason)
        {
            flags.Add(DiagnosticCatalogue.RemlAbsent.With(reason));
            return null;
        }

        var stage = FirstStage(model);
        if (stage.Problem is { } problem)
        {
            flags.Add(DiagnosticCatalogue.RemlAbsent.With(problem));
            return null;
        }

        var cores = model.Slices.CoreCount;
        var shift = new double[cores];
        model.AgeShifts(ageingExponent, shift);
        var estimates = new double[2 * cores];
        for (var j = 0; j < cores; j++)
        {
            estimates[2 * j] = stage.LnSurface[j];
            estimates[(2 * j) + 1] = stage.LnDiffusion[j] - shift[j];
        }

        var fit = BivariateRandomEffects.Fit(estimates, stage.Covariance(), restricted: true);
        if (fit is null || !fit.Converged)
        {
            flags.Add(DiagnosticCatalogue.RemlAbsent.With("the second stage did not converge"));
            return null;
        }

        if (fit.IsSingular)
        {
            flags.Add(
                DiagnosticCatalogue.RemlSingular.With(
                    fit.BetweenSd.First,
                    fit.BetweenSd.Second,
                    fit.Correlation,
                    cores
                )
            );
        }

        return new DeckRemlFit
        {
            SurfaceChloride = WithLimits(fit.Mean.First, fit.MeanCovariance.First, cores - 1),
            DiffusionCoefficient = WithLimits(
                fit.Mean.Second,
                fit.MeanCovariance.Second,
                cores - 1
            ),
            SdLnSurfaceChloride = fit.BetweenSd.First,
            SdLnDiffusionCoefficient = fit.BetweenSd.Second,
            Correlation = fit.Correlation,
            BackgroundKgPerM3 = stage.Background,
            LabErrorSdKgPerM3 = model.TypicalError(stage.Error),
            LogLikelihood = fit.LogLikelihood,
            IsSingular = fit.IsSingular,
            DegreesOfFreedom = cores - 1,
        };
    }

    /// <summary>The first stage, from the rough fits of the cores.</summary>
    /// <param name="model">The deck.</param>
    public static DeckFirstStage FirstStage(DeckModel model) =>
        DeckFirstStage.Fit(model, DeckStart.Make(model, new RandomStream(0, "deck first stage")));

    private static string? Reason(DeckModel model) =>
        model.Slices.CoreCount < 3 ? "fewer than 3 cores"
        : model.Slices.Weights == SliceWeights.Relative
            ? "the errors are in proportion to the content"
        : model.IsTargeted is not null ? "targeted cores stand for a share of the area"
        : null;

    private static Estimate WithLimits(double mean, double variance, int freedom)
    {
        var error = Math.Sqrt(variance);
        var reach = StudentT.InvCDF(0, 1, freedom, 0.975) * error;
        return new Estimate(Math.Exp(mean))
        {
            StandardError = Math.Exp(mean) * error,
            Lower95 = Math.Exp(mean - reach),
            Upper95 = Math.Exp(mean + reach),
            LimitMethod = "restricted maximum likelihood, Student's t of the logarithm",
        };
    }
}
