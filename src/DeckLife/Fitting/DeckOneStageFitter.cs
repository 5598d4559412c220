using DeckLife.Numerics.LinearMixed;
using DeckLife.Numerics.Sampling;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>
/// Fits the cores of a deck as one nonlinear mixed model: a peer of the posterior without priors, for measured contents with one error and
/// cores of one age.
/// </summary>
/// <remarks>
/// Method: linearise the slices' means at the present estimates of means and cores, fit the linear mixed model, repeat until nothing
/// moves. Source: Lindstrom and Bates, Nonlinear mixed effects models for repeated measures data (Biometrics 46, 1990).
/// Checked by: the reference check deck-model/one-stage against R's nlme.
/// </remarks>
public static class DeckOneStageFitter
{
    private const int MostRounds = 200;

    /// <summary>Fits by maximum likelihood, or restricted maximum likelihood.</summary>
    /// <param name="cores">At least 3 cores, all measured, of one exposure age.</param>
    /// <param name="restricted">Restricted maximum likelihood.</param>
    /// <returns>The fit; null where the rounds did not settle.</returns>
    /// <exception cref="ArgumentException">Fewer than 3 cores, contents below detection, or several ages.</exception>
    public static DeckOneStageFit? Fit(IReadOnlyList<CoreProfile> cores, bool restricted = false)
    {
        ArgumentNullException.ThrowIfNull(cores);
        if (
            cores.Count < 3
            || cores.Any(c =>
                c.Slices.Any(s => s.IsNonDetect) || c.ExposureAge != cores[0].ExposureAge
            )
        )
        {
            throw new ArgumentException(
                "At least 3 cores of one age, all their contents measured, are needed.",
                nameof(cores)
            );
        }

        var model = new DeckModel
        {
            Slices = new DeckSlices(cores, SliceWeights.Constant),
            Priors = new DeckPriors(),
            ReferenceYears = cores[0].ExposureAge.Years,
        };
        var stage = DeckFirstStage.Fit(
            model,
            DeckStart.Make(model, new RandomStream(0, "deck one stage"))
        );
        if (stage.Problem is not null)
        {
            return null;
        }

        return Iterate(
            model.Slices,
            stage.LnSurface,
            stage.LnDiffusion,
            stage.Background,
            restricted
        );
    }

    private static DeckOneStageFit? Iterate(
        DeckSlices slices,
        double[] surface,
        double[] diffusion,
        double background,
        bool restricted
    )
    {
        double[]? factor = null;
        for (var round = 0; round < MostRounds; round++)
        {
            LinearMixedGroup[] groups =
            [
                .. Enumerable
                    .Range(0, slices.CoreCount)
                    .Select(j => Linearise(slices, j, surface[j], diffusion[j], background)),
            ];
            if (LinearMixedModel.Fit(groups, restricted, factor) is not { } fit)
            {
                return null;
            }

            factor = fit.RelativeFactor;
            var change = Math.Abs(fit.Coefficients[2] - background);
            background = fit.Coefficients[2];
            for (var j = 0; j < slices.CoreCount; j++)
            {
                var s = fit.Coefficients[0] + fit.RandomEffects[2 * j];
                var d = fit.Coefficients[1] + fit.RandomEffects[(2 * j) + 1];
                change = Math.Max(
                    change,
                    Math.Max(Math.Abs(s - surface[j]), Math.Abs(d - diffusion[j]))
                );
                surface[j] = s;
                diffusion[j] = d;
            }

            if (change < 1e-8)
            {
                return Summary(fit, diffusion);
            }
        }

        return null;
    }

    // y - f + Z θ + c C0 = X (means, C0) + Z b + e, with Z = df/dθ and c = df/dC0 at the present (θ, C0).
    private static LinearMixedGroup Linearise(
        DeckSlices slices,
        int core,
        double lnSurface,
        double lnDiffusion,
        double background
    )
    {
        var first = slices.FirstSlice[core];
        var count = slices.FirstSlice[core + 1] - first;
        var response = new double[count];
        var fixedDesign = new double[3 * count];
        var randomDesign = new double[2 * count];
        var surface = Math.Exp(lnSurface);
        for (var i = 0; i < count; i++)
        {
            var share = slices.Share(core, first + i, lnDiffusion, out var slope);
            var byS = surface * share;
            var byD = (surface - background) * slope;
            var byB = 1 - share;
            response[i] =
                slices.Content[first + i]
                - background
                - ((surface - background) * share)
                + (byS * lnSurface)
                + (byD * lnDiffusion)
                + (byB * background);
            (fixedDesign[3 * i], fixedDesign[(3 * i) + 1], fixedDesign[(3 * i) + 2]) = (
                byS,
                byD,
                byB
            );
            (randomDesign[2 * i], randomDesign[(2 * i) + 1]) = (byS, byD);
        }

        return new LinearMixedGroup(response, fixedDesign, randomDesign);
    }

    private static DeckOneStageFit Summary(LinearMixedModel fit, double[] diffusion)
    {
        Estimate Mean(int k) =>
            new(fit.Coefficients[k])
            {
                StandardError = Math.Sqrt(fit.CoefficientCovariance[(3 * k) + k]),
            };
        var surfaceSd = Math.Sqrt(fit.RandomCovariance.First);
        var diffusionSd = Math.Sqrt(fit.RandomCovariance.Second);
        return new DeckOneStageFit
        {
            MeanLnSurfaceChloride = Mean(0),
            MeanLnDiffusionCoefficient = Mean(1),
            Background = Mean(2),
            SdLnSurfaceChloride = surfaceSd,
            SdLnDiffusionCoefficient = diffusionSd,
            Correlation =
                surfaceSd > 0 && diffusionSd > 0
                    ? fit.RandomCovariance.Both / (surfaceSd * diffusionSd)
                    : 0,
            LabErrorSdKgPerM3 = fit.ResidualSd,
            LogLikelihood = fit.LogLikelihood,
            LnDiffusionOfCores = [.. diffusion],
        };
    }
}
