using DeckLife.Fitting;

namespace DeckLife.ReferenceChecks;

/// <summary>The deck model against general-purpose statistics: nlme, metafor and emcee on one invented deck.</summary>
public sealed class DeckModelCases : IReferenceCaseSet
{
    private const string Deck =
        "peers/deck-model/deck.csv: invented, 8 cores x 6 slices of 12 mm from 6 mm on, 25 yr";

    private static readonly Lazy<DeckFit> Posterior = new(() =>
        DeckFitter.Fit(DeckModelPeers.Deck(), new DeckFitOptions { Sweeps = 16000, Draws = 16000 })
    );

    private static readonly Lazy<DeckOneStageFit> OneStage = new(() =>
        DeckOneStageFitter.Fit(DeckModelPeers.Deck())!
    );

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return OneStageCase();
        yield return TwoStageCase();
        yield return PosteriorCase();
    }

    private static ReferenceCase OneStageCase()
    {
        var peer = DeckModelPeers.Output("one_stage.txt");
        ReferenceValue Value(string name, string key, Func<DeckOneStageFit, double> found) =>
            new(name, peer[key], () => found(OneStage.Value), 1e-4);
        return new ReferenceCase(
            "deck-model/one-stage",
            "Nonlinear mixed model of the slices of all cores, maximum likelihood",
            Deck,
            "R 4.2.2, nlme 3.1.162 (Lindstrom and Bates 1990): peers/deck-model/one_stage.R",
            HowGot.ComputedIndependently,
            "both maximise the same linearised likelihood; 1e-4 leaves room for the ends of two searches",
            [
                Value("mean ln Cs", "ML_mean_S", f => f.MeanLnSurfaceChloride.Value),
                Value("mean ln D", "ML_mean_D", f => f.MeanLnDiffusionCoefficient.Value),
                Value("background [kg/m3]", "ML_background", f => f.Background.Value),
                Value("s.d. between cores, ln Cs", "ML_sd_S", f => f.SdLnSurfaceChloride),
                Value("s.d. between cores, ln D", "ML_sd_D", f => f.SdLnDiffusionCoefficient),
                Value("correlation", "ML_rho", f => f.Correlation),
                Value("lab error [kg/m3]", "ML_error", f => f.LabErrorSdKgPerM3),
                Value("log-likelihood", "ML_loglik", f => f.LogLikelihood),
                Value("ln D of core C1", "ML_D_C1", f => f.LnDiffusionOfCores[0]),
                Value("ln D of core C8", "ML_D_C8", f => f.LnDiffusionOfCores[7]),
            ]
        );
    }

    private static ReferenceCase TwoStageCase()
    {
        var peer = DeckModelPeers.Output("two_stage.txt");
        ReferenceValue Value(string name, string key, Func<DeckRemlFit, double> found) =>
            new(name, peer[key], () => found(Posterior.Value.Reml!), 1e-4);
        return new ReferenceCase(
            "deck-model/two-stage",
            "Cores with one background, then the population by restricted maximum likelihood",
            Deck,
            "R 4.2.2, own Gauss-Newton for the cores, metafor 3.8-1 rma.mv (struct UN, REML) for the population: peers/deck-model/two_stage.R",
            HowGot.ComputedIndependently,
            "both maximise the same restricted likelihood; 1e-4 leaves room for the ends of two searches",
            [
                Value("background [kg/m3]", "background", f => f.BackgroundKgPerM3),
                Value("lab error [kg/m3]", "lab_error", f => f.LabErrorSdKgPerM3),
                Value("mean ln Cs", "REML_mean_S", f => Math.Log(f.SurfaceChloride.Value)),
                Value("mean ln D", "REML_mean_D", f => Math.Log(f.DiffusionCoefficient.Value)),
                Value(
                    "s.e. of mean ln Cs",
                    "REML_se_S",
                    f => f.SurfaceChloride.StandardError!.Value / f.SurfaceChloride.Value
                ),
                Value(
                    "s.e. of mean ln D",
                    "REML_se_D",
                    f => f.DiffusionCoefficient.StandardError!.Value / f.DiffusionCoefficient.Value
                ),
                Value("s.d. between cores, ln Cs", "REML_sd_S", f => f.SdLnSurfaceChloride),
                Value("s.d. between cores, ln D", "REML_sd_D", f => f.SdLnDiffusionCoefficient),
                Value("correlation", "REML_rho", f => f.Correlation),
                Value("restricted log-likelihood", "REML_loglik", f => f.LogLikelihood),
            ]
        );
    }

    private static ReferenceCase PosteriorCase()
    {
        var peer = DeckModelPeers.Output("posterior.txt");
        // Monte Carlo error of a mean is s.d./√ess on both sides; that of a 2.5 % quantile about 2.7 times as large. Four of the combined.
        var draws = peer["effective_draws"];
        double Allowed(string key, double factor) =>
            4 * factor * peer[$"{key} sd"] * Math.Sqrt((1 / draws) + (1 / 2000.0));
        IEnumerable<ReferenceValue> Values(
            string name,
            string key,
            Func<DeckHyperDraw, double> quantity
        )
        {
            double[] Sorted() => [.. Posterior.Value.Draws.Select(quantity).Order()];
            double Quantile(double p) => Sorted()[(int)(p * (Posterior.Value.Draws.Length - 1))];
            yield return new(
                $"{name}, mean",
                peer[$"{key} mean"],
                () => Posterior.Value.Draws.Average(quantity),
                Allowed(key, 1),
                true
            );
            yield return new(
                $"{name}, 2.5 %",
                peer[$"{key} q025"],
                () => Quantile(0.025),
                Allowed(key, 2.7),
                true
            );
            yield return new(
                $"{name}, 97.5 %",
                peer[$"{key} q975"],
                () => Quantile(0.975),
                Allowed(key, 2.7),
                true
            );
        }

        return new ReferenceCase(
            "deck-model/posterior",
            "Posterior of the deck's population",
            Deck + "; the documented priors",
            "emcee 3.1.4 (another sampler, another parametrisation, its own likelihood): peers/deck-model/posterior.py",
            HowGot.ComputedIndependently,
            "four times the combined Monte Carlo error, from the effective draws of emcee and 2000 of the library's",
            [
                .. Values("mean ln Cs", "mean_S", d => d.MeanLnSurfaceChloride),
                .. Values("mean ln D", "mean_D", d => d.MeanLnDiffusionCoefficient),
                .. Values("s.d. ln Cs", "sd_S", d => d.SdLnSurfaceChloride),
                .. Values("s.d. ln D", "sd_D", d => d.SdLnDiffusionCoefficient),
                .. Values("correlation", "rho", d => d.Correlation),
                .. Values("background [kg/m3]", "background", d => d.BackgroundKgPerM3),
                .. Values("lab error [kg/m3]", "error", d => d.LabErrorSdKgPerM3),
            ]
        );
    }
}
