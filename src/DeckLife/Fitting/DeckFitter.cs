using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>Fits a deck: one model on the slices of all its cores.</summary>
/// <remarks>
/// Equation: y_ij = C0 + (Cs_j - C0) share(D_j t_j) + error, the share being the slice mean of erfc(x / 2√(D t)); (ln Cs_j, ln D_j) bivariate
/// normal between cores; one background C0 ≥ 0 and one error for the deck. Contents below detection enter by their
/// probability. Method: posterior by Markov chain Monte Carlo with the priors of <see cref="DeckPriors"/>.
/// Valid for: cores of one deck and one concrete, salted with a steady surface content; cores on cracks are fitted apart.
/// Accuracy: the Monte Carlo error of a median is about 1.25 posterior s.d./√(effective sample size). Checked by: DeckFitterTests,
/// the calibration study, and emcee, nlme and metafor in reference-checks.
/// </remarks>
public static class DeckFitter
{
    private const int FewestCoresForSpread = 3;

    /// <summary>Fits the deck, or throws with the reason.</summary>
    /// <param name="cores">The cores of one deck.</param>
    /// <param name="options">Choices; absent: the defaults.</param>
    /// <exception cref="DeckFitRefusedException">No core can be used, or the chains did not converge.</exception>
    /// <exception cref="ArgumentException">A choice is out of its range, or a targeted core is none of those given.</exception>
    public static DeckFit Fit(IReadOnlyList<CoreProfile> cores, DeckFitOptions? options = null) =>
        TryFit(cores, options ?? new DeckFitOptions(), out var refusal)
        ?? throw new DeckFitRefusedException(refusal!);

    /// <summary>Fits the deck from its cores' fits, with the slices and the cores that those could use; or throws with the reason.</summary>
    /// <param name="cores">The fits of the cores of one deck.</param>
    /// <param name="options">Choices; absent: the defaults.</param>
    /// <exception cref="DeckFitRefusedException">No core can be used, or the chains did not converge.</exception>
    /// <exception cref="ArgumentException">A choice is out of its range, or a targeted core is none of those given.</exception>
    public static DeckFit Fit(IReadOnlyList<ProfileFit> cores, DeckFitOptions? options = null) =>
        TryFit(cores, options ?? new DeckFitOptions(), out var refusal)
        ?? throw new DeckFitRefusedException(refusal!);

    /// <summary>Fits the deck; when it can't, gives the reason.</summary>
    /// <param name="cores">The cores of one deck.</param>
    /// <param name="options">Choices.</param>
    /// <param name="refusal">Why there is no fit; null when there is one.</param>
    /// <exception cref="ArgumentException">A choice is out of its range, or a targeted core is none of those given.</exception>
    public static DeckFit? TryFit(
        IReadOnlyList<CoreProfile> cores,
        DeckFitOptions options,
        out Diagnostic? refusal
    )
    {
        ArgumentNullException.ThrowIfNull(cores);
        var skin = ImmutableArray.CreateBuilder<Diagnostic>();
        var prepared = new (CoreProfile, string?)[cores.Count];
        for (var j = 0; j < prepared.Length; j++)
        {
            prepared[j] = (DeckCoreSelection.WithoutSkin(cores[j], out var skipped), null);
            if (skipped > 0)
            {
                skin.Add(DiagnosticCatalogue.DeckSkinSlices.With(cores[j].Core, skipped));
            }
        }

        var fit = FitCores(prepared, options, out refusal);
        return fit is null ? null : fit with { Flags = [.. skin, .. fit.Flags] };
    }

    /// <summary>Fits the deck from its cores' fits; when it can't, gives the reason.</summary>
    /// <param name="cores">The fits of the cores of one deck.</param>
    /// <param name="options">Choices.</param>
    /// <param name="refusal">Why there is no fit; null when there is one.</param>
    /// <exception cref="ArgumentException">A choice is out of its range, or a targeted core is none of those given.</exception>
    public static DeckFit? TryFit(
        IReadOnlyList<ProfileFit> cores,
        DeckFitOptions options,
        out Diagnostic? refusal
    )
    {
        ArgumentNullException.ThrowIfNull(cores);
        return FitCores(
            [
                .. cores.Select(f =>
                    f.Status == FitStatus.Refused
                        ? (f.Profile, f.Reason ?? "its own fit was refused")
                        : (DeckCoreSelection.Used(f), null)
                ),
            ],
            options,
            out refusal
        );
    }

    private static DeckFit? FitCores(
        (CoreProfile Core, string? Problem)[] cores,
        DeckFitOptions options,
        out Diagnostic? refusal
    )
    {
        ArgumentNullException.ThrowIfNull(options);
        using var phase = PhaseTrace.Begin("fit the deck");
        DeckFitValidation.Check(options, [.. cores.Select(c => c.Core)]);
        var flags = ImmutableArray.CreateBuilder<Diagnostic>();
        var usable = new List<CoreProfile>();
        var reasons = new List<string>();
        foreach (var (core, given) in cores)
        {
            if ((given ?? DeckCoreSelection.Problem(core)) is { } problem)
            {
                flags.Add(DiagnosticCatalogue.CoreLeftOutOfDeck.With(core.Core, problem));
                reasons.Add($"{core.Core}: {problem}");
            }
            else
            {
                usable.Add(core);
            }
        }

        CoreProfile[] sound = [.. usable.Where(c => !c.OnCrack)];
        CoreProfile[] cracked = [.. usable.Where(c => c.OnCrack)];
        if (sound.Length == 0)
        {
            refusal = DiagnosticCatalogue.DeckWithoutCores.With(
                cores.Length,
                cracked.Length > 0 && reasons.Count == 0 ? "all are on cracks"
                    : reasons.Count > 0 ? string.Join("; ", reasons)
                    : "no cores were given"
            );
            return null;
        }

        DeckFit? crackFit = null;
        if (cracked.Length > 0)
        {
            flags.Add(
                DiagnosticCatalogue.CrackCoresApart.With(
                    cracked.Length,
                    sound.Length,
                    string.Join(", ", cracked.Select(c => c.Core))
                )
            );
            crackFit = FitGroup(cracked, options, out var crackRefusal);
            if (crackRefusal is not null)
            {
                // No crack population is then given; the sound deck's stands.
                flags.Add(crackRefusal with { Severity = Severity.Warning });
            }
        }

        var fit = FitGroup(sound, options, out refusal);
        return fit is null
            ? null
            : fit with
            {
                CrackCores = crackFit,
                Flags = [.. flags, .. fit.Flags],
            };
    }

    private static DeckFit? FitGroup(
        CoreProfile[] cores,
        DeckFitOptions options,
        out Diagnostic? refusal
    )
    {
        if (options.Weights == SliceWeights.Given)
        {
            foreach (var core in cores)
            {
                var missing = core.Slices.Count(s => !(s.StandardDeviation > 0));
                if (missing > 0)
                {
                    refusal = DiagnosticCatalogue.DeckGivenErrorMissing.With(core.Core, missing);
                    return null;
                }
            }
        }

        var flags = ImmutableArray.CreateBuilder<Diagnostic>();
        var model = DeckModelMaking.Make(cores, options, flags);
        if (cores.Length < FewestCoresForSpread)
        {
            flags.Add(
                DiagnosticCatalogue.DeckLeansOnPriors.With(
                    cores.Length,
                    options.Priors.ScaleOfSdLnSurfaceChloride,
                    options.Priors.ScaleOfSdLnDiffusionCoefficient
                )
            );
        }

        var thinning = Math.Max(1, options.Sweeps * options.Chains / options.Draws);
        var perChain = options.Sweeps / thinning;
        var stretch = 1;
        for (var attempt = 0; ; attempt++)
        {
            var posterior = DeckPosterior.Run(
                model,
                options.Seed,
                options.Chains,
                options.WarmUp * stretch,
                perChain,
                thinning * stretch,
                options.Threads
            );
            var convergence = posterior.Convergence(options.Threads);
            if (
                convergence.SplitRhat < options.LargestSplitRhat
                && convergence.EffectiveSampleSize >= options.SmallestEffectiveSampleSize
            )
            {
                refusal = null;
                return DeckFitSummary.Make(cores, options, model, posterior, convergence, flags);
            }

            if (attempt >= options.Extensions)
            {
                refusal = DiagnosticCatalogue.DeckChainsNotConverged.With(
                    convergence.SplitRhat,
                    options.LargestSplitRhat,
                    convergence.EffectiveSampleSize,
                    options.SmallestEffectiveSampleSize
                );
                return null;
            }

            stretch *= 4;
        }
    }
}
