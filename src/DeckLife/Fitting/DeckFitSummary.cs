using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>Turns the draws of a deck's posterior into estimates.</summary>
internal static class DeckFitSummary
{
    private const string QuantileLimits = "posterior, 2.5 % and 97.5 % quantiles";

    /// <summary>Makes the record of the fit.</summary>
    public static DeckFit Make(
        CoreProfile[] cores,
        DeckFitOptions options,
        DeckModel model,
        DeckPosterior posterior,
        ConvergenceSummary convergence,
        ImmutableArray<Diagnostic>.Builder flags
    )
    {
        var draws = ImmutableArray.CreateBuilder<DeckHyperDraw>(
            posterior.Chains * posterior.DrawsPerChain
        );
        for (var i = 0; i < posterior.Chains * posterior.DrawsPerChain; i++)
        {
            draws.Add(posterior.Hyper(i));
        }

        var ageing = model.FixedAgeingExponent is { } fixedExponent
            ? Given(fixedExponent, "given, not estimated")
            : FromDraws(posterior.AgeingExponent());
        if (
            model.FixedAgeingExponent is null
            && ageing.StandardError > 0.8 * options.Priors.SdOfAgeingPrior()
        )
        {
            flags.Add(
                DiagnosticCatalogue.AgeingExponentFromPrior.With(
                    ageing.StandardError.Value,
                    options.Priors.SdOfAgeingPrior()
                )
            );
        }

        var reml = DeckReml.Fit(model, ageing.Value, flags);
        var hasTargeted = model.IsTargeted is not null;
        return new DeckFit
        {
            Cores = cores.Length,
            Status = cores.Length < 3 ? FitStatus.Limited : FitStatus.Fitted,
            Reason = cores.Length < 3 ? "fewer than 3 cores: the spread is the prior's" : null,
            SurfaceChloride = Of(draws, d => Math.Exp(d.MeanLnSurfaceChloride)),
            DiffusionCoefficient = Of(draws, d => Math.Exp(d.MeanLnDiffusionCoefficient)),
            Background = model.FixedBackground is { } background
                ? Given(background, "held at the given value")
                : Of(draws, d => d.BackgroundKgPerM3),
            SdLnSurfaceChloride = Of(draws, d => d.SdLnSurfaceChloride),
            SdLnDiffusionCoefficient = Of(draws, d => d.SdLnDiffusionCoefficient),
            Correlation = Of(draws, d => d.Correlation),
            Covariance = Of(
                draws,
                d => d.Correlation * d.SdLnSurfaceChloride * d.SdLnDiffusionCoefficient
            ),
            LabErrorSd = Of(draws, d => d.LabErrorSdKgPerM3),
            RelativeLabError =
                options.Weights == SliceWeights.Relative
                    ? Of(draws, d => d.RelativeLabError ?? 0)
                    : null,
            AgeingExponent = ageing,
            ReferenceExposureYears = model.ReferenceYears,
            TargetedSurfaceFactor = hasTargeted ? Exponential(posterior.TargetedShift(0)) : null,
            TargetedDiffusionFactor = hasTargeted ? Exponential(posterior.TargetedShift(1)) : null,
            CoreEstimates =
            [
                .. cores.Select(
                    (c, j) =>
                        new DeckCoreEstimate(
                            c.Core,
                            c.ExposureAge.Years,
                            Exponential(posterior.LnSurface(j)),
                            Exponential(posterior.LnDiffusion(j)),
                            options.TargetedCores.Contains(c.Core)
                        )
                ),
            ],
            Method = string.Create(
                CultureInfo.InvariantCulture,
                $"one model on the slices of all cores; posterior by Markov chain Monte Carlo, {posterior.Chains} chains, {draws.Count} draws kept, seed {options.Seed}"
            ),
            Convergence = convergence,
            Reml = reml,
            Draws = draws.MoveToImmutable(),
            Priors = options.Priors.Statements(
                options.Weights,
                options.Background,
                model.FixedAgeingExponent is null,
                hasTargeted
            ),
            Sampling = Sampling(cores, options, hasTargeted),
            Flags = flags.ToImmutable(),
        };
    }

    private static string Sampling(CoreProfile[] cores, DeckFitOptions options, bool hasTargeted)
    {
        var targeted = cores.Count(c => options.TargetedCores.Contains(c.Core));
        return targeted == 0 ? "all cores count as taken at random over the deck"
            : hasTargeted
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $"{targeted} of {cores.Length} cores were taken where trouble was seen and stand for {100 * options.TargetedAreaShare!.Value:G3} % of the area"
                )
            : string.Create(
                CultureInfo.InvariantCulture,
                $"{targeted} of {cores.Length} cores were taken where trouble was seen; no weight could be given to them"
            );
    }

    private static Estimate Given(double value, string reason) =>
        new(value) { IsFixed = true, MissingReason = reason };

    private static Estimate Of(
        ImmutableArray<DeckHyperDraw>.Builder draws,
        Func<DeckHyperDraw, double> quantity
    ) => FromDraws([.. draws.Select(quantity)]);

    private static Estimate Exponential(double[] logarithms) =>
        FromDraws(Array.ConvertAll(logarithms, Math.Exp));

    private static Estimate FromDraws(double[] values)
    {
        var mean = values.Average();
        var variance = values.Sum(v => (v - mean) * (v - mean)) / (values.Length - 1);
        double[] sorted = [.. values.Order()];
        return new Estimate(Quantile(sorted, 0.5))
        {
            StandardError = Math.Sqrt(variance),
            Lower95 = Quantile(sorted, 0.025),
            Upper95 = Quantile(sorted, 0.975),
            LimitMethod = QuantileLimits,
        };
    }

    // Linear between order statistics: type 7 of Hyndman and Fan, The American Statistician 50 (1996).
    private static double Quantile(double[] sorted, double probability)
    {
        var position = probability * (sorted.Length - 1);
        var below = (int)position;
        var above = Math.Min(below + 1, sorted.Length - 1);
        return sorted[below] + ((position - below) * (sorted[above] - sorted[below]));
    }
}
