using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>What a deck fit says, from chains of a hundred sweeps: too short to be trusted, long enough to be summarised.</summary>
public class DeckFitSummaryTests
{
    private static readonly DeckFitOptions Short = new()
    {
        Chains = 2,
        WarmUp = 100,
        Sweeps = 100,
        Draws = 200,
        Extensions = 0,
        LargestSplitRhat = 1e9,
        SmallestEffectiveSampleSize = 0,
        Threads = 1,
        Seed = 5,
    };

    // Linear between order statistics (type 7): of 200 values the median lies between the 100th and 101st, 2.5 % at 4.975 and 97.5 % at
    // 194.025 counted from 0.
    [Fact]
    public void Estimates_OfTheDraws_MedianQuantilesAndDeviation()
    {
        var fit = DeckFitter.Fit(Deck(3), Short);
        (Estimate Estimate, Func<DeckHyperDraw, double> Quantity)[] all =
        [
            (fit.SurfaceChloride, d => Math.Exp(d.MeanLnSurfaceChloride)),
            (fit.DiffusionCoefficient, d => Math.Exp(d.MeanLnDiffusionCoefficient)),
            (fit.Background, d => d.BackgroundKgPerM3),
            (fit.SdLnSurfaceChloride, d => d.SdLnSurfaceChloride),
            (fit.SdLnDiffusionCoefficient, d => d.SdLnDiffusionCoefficient),
            (fit.Correlation, d => d.Correlation),
            (
                fit.Covariance!,
                d => d.Correlation * d.SdLnSurfaceChloride * d.SdLnDiffusionCoefficient
            ),
            (fit.LabErrorSd, d => d.LabErrorSdKgPerM3),
        ];

        Assert.Equal(200, fit.Draws.Length);
        foreach (var (estimate, quantity) in all)
        {
            double[] sorted = [.. fit.Draws.Select(quantity).Order()];
            var mean = sorted.Average();
            Assert.Equal(0.5 * (sorted[99] + sorted[100]), estimate.Value, 1e-12);
            Assert.Equal(
                sorted[4] + (0.975 * (sorted[5] - sorted[4])),
                estimate.Lower95!.Value,
                1e-12
            );
            Assert.Equal(
                sorted[194] + (0.025 * (sorted[195] - sorted[194])),
                estimate.Upper95!.Value,
                1e-12
            );
            Assert.Equal(
                Math.Sqrt(sorted.Sum(v => Math.Pow(v - mean, 2)) / 199),
                estimate.StandardError!.Value,
                1e-12
            );
            Assert.Equal("posterior, 2.5 % and 97.5 % quantiles", estimate.LimitMethod);
            Assert.False(estimate.IsFixed);
        }

        Assert.Equal(
            "one model on the slices of all cores; posterior by Markov chain Monte Carlo, 2 chains, 200 draws kept, seed 5",
            fit.Method
        );
        Assert.Equal("all cores count as taken at random over the deck", fit.Sampling);
        Assert.Equal((FitStatus.Fitted, null), (fit.Status, fit.Reason));
        Assert.Null(fit.TargetedSurfaceFactor);
        Assert.Null(fit.TargetedDiffusionFactor);
        Assert.Null(fit.RelativeLabError);
        Assert.Equal(["C1", "C2", "C3"], fit.CoreEstimates.Select(c => c.Core));
        Assert.Equal((2, 100), (fit.Convergence!.Chains, fit.Convergence.DrawsPerChain));
    }

    [Fact]
    public void Given_BackgroundAndExponent_SaidAsHeld()
    {
        var fit = DeckFitter.Fit(
            Deck(3),
            Short with
            {
                Background = BackgroundTreatment.Fixed,
                FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0.2),
                FixedAgeingExponent = 0.35,
            }
        );

        Assert.Equal(
            (0.2, true, "held at the given value"),
            (fit.Background.Value, fit.Background.IsFixed, fit.Background.MissingReason)
        );
        Assert.Equal(
            (0.35, true, "given, not estimated"),
            (
                fit.AgeingExponent!.Value,
                fit.AgeingExponent.IsFixed,
                fit.AgeingExponent.MissingReason
            )
        );
        Assert.All(fit.Draws, d => Assert.Equal(0.2, d.BackgroundKgPerM3));
        Assert.DoesNotContain(
            fit.Priors,
            p => p.StartsWith("background", StringComparison.Ordinal)
        );
        Assert.DoesNotContain(fit.Priors, p => p.StartsWith("ageing", StringComparison.Ordinal));
    }

    // Two cores of 20 and 40 yr that differ as cores do say next to nothing of the exponent.
    [Fact]
    public void AgeingExponent_HardlyInformed_SaidWithBothDeviations()
    {
        var cores = Deck(2);
        cores[1] = cores[1] with { ExposureAge = Age.FromYears(40) };
        var fit = DeckFitter.Fit(cores, Short);
        var prior = new DeckPriors().SdOfAgeingPrior();

        Assert.False(fit.AgeingExponent!.IsFixed);
        Assert.True(fit.AgeingExponent.StandardError > 0.8 * prior);
        Assert.StartsWith(
            FormattableString.Invariant(
                $"The ageing exponent has s.d. {fit.AgeingExponent.StandardError:G3} after the cores and {prior:G3} before"
            ),
            fit.Flags.Single(f => f.Code == "DL2208").Text,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(
            DeckFitter.Fit(cores, Short with { FixedAgeingExponent = 0.35 }).Flags,
            f => f.Code == "DL2208"
        );
    }

    [Theory]
    [InlineData(2, FitStatus.Limited)]
    [InlineData(3, FitStatus.Fitted)]
    public void FewCores_SpreadOfThePrior_Said(int cores, FitStatus status)
    {
        var fit = DeckFitter.Fit(Deck(cores), Short);

        Assert.Equal(status, fit.Status);
        Assert.Equal(
            status == FitStatus.Limited ? "fewer than 3 cores: the spread is the prior's" : null,
            fit.Reason
        );
        Assert.Equal(status == FitStatus.Limited, fit.Reml is null);
        Assert.Equal(
            status == FitStatus.Limited
                ?
                [
                    "Only 2 core(s) can be used. The spread between cores is then known from the prior alone (half-normal, scales 0.5 for ln Cs and 0.7 for ln D), not from this deck. Take at least 3, better 8 cores.",
                    "Restricted maximum likelihood is not shown beside the posterior: fewer than 3 cores",
                ]
                : [],
            fit.Flags.Where(f => f.Code is "DL2203" or "DL2210").Select(f => f.Text)
        );
    }

    [Fact]
    public void RelativeErrors_TheFactorBesideTheErrorAtTheMean()
    {
        var cores = Deck(3);
        var fit = DeckFitter.Fit(cores, Short with { Weights = SliceWeights.Relative });
        var mean = cores.SelectMany(c => c.Slices).Average(s => s.Content.KilogramsPerCubicMetre);

        Assert.All(
            fit.Draws,
            d => Assert.Equal(mean * d.RelativeLabError!.Value, d.LabErrorSdKgPerM3, 1e-12)
        );
        Assert.Equal(fit.LabErrorSd.Value, mean * fit.RelativeLabError!.Value, 1e-12);
        Assert.Equal(
            "Restricted maximum likelihood is not shown beside the posterior: the errors are in proportion to the content",
            fit.Flags.Single(f => f.Code == "DL2210").Text
        );
    }

    [Theory]
    [InlineData(
        0.25,
        "1 of 3 cores were taken where trouble was seen and stand for 25 % of the area"
    )]
    [InlineData(
        null,
        "1 of 3 cores were taken where trouble was seen; no weight could be given to them"
    )]
    public void TargetedCores_Sampling_Said(double? share, string sampling)
    {
        var fit = DeckFitter.Fit(
            Deck(3),
            Short with
            {
                TargetedCores = ["C2"],
                TargetedAreaShare = share,
            }
        );

        Assert.Equal(sampling, fit.Sampling);
        Assert.Equal(share is not null, fit.TargetedSurfaceFactor is not null);
        Assert.Equal(share is not null, fit.TargetedDiffusionFactor is not null);
        Assert.Equal([false, true, false], fit.CoreEstimates.Select(c => c.IsTargeted));
        Assert.Equal(
            share is null
                ? null
                : "Restricted maximum likelihood is not shown beside the posterior: targeted cores stand for a share of the area",
            fit.Flags.SingleOrDefault(f => f.Code == "DL2210")?.Text
        );
    }

    // A mixture of two normals of one covariance with weights p and 1 - p: mean + p d, covariance + p (1 - p) d d'.
    [Fact]
    public void Hyper_TargetedShare_MomentsOfTheMixture()
    {
        var model = new DeckModel
        {
            Slices = new DeckSlices(Deck(3), SliceWeights.Constant),
            Priors = new DeckPriors(),
            ReferenceYears = 25,
            IsTargeted = [0, 1, 0],
            TargetedAreaShare = 0.25,
        };
        var posterior = DeckPosterior.Run(model, 3, 2, 100, 50, 1, 1);
        var (surface, diffusion) = (posterior.TargetedShift(0), posterior.TargetedShift(1));
        for (var i = 0; i < 100; i++)
        {
            var (own, whole) = (posterior.Untargeted(i), posterior.Hyper(i));
            Assert.Equal(
                own.MeanLnSurfaceChloride + (0.25 * surface[i]),
                whole.MeanLnSurfaceChloride,
                1e-12
            );
            Assert.Equal(
                own.MeanLnDiffusionCoefficient + (0.25 * diffusion[i]),
                whole.MeanLnDiffusionCoefficient,
                1e-12
            );
            Assert.Equal(
                Math.Pow(own.SdLnSurfaceChloride, 2) + (0.1875 * surface[i] * surface[i]),
                Math.Pow(whole.SdLnSurfaceChloride, 2),
                1e-12
            );
            Assert.Equal(
                Math.Pow(own.SdLnDiffusionCoefficient, 2) + (0.1875 * diffusion[i] * diffusion[i]),
                Math.Pow(whole.SdLnDiffusionCoefficient, 2),
                1e-12
            );
            Assert.Equal(
                (own.Correlation * own.SdLnSurfaceChloride * own.SdLnDiffusionCoefficient)
                    + (0.1875 * surface[i] * diffusion[i]),
                whole.Correlation * whole.SdLnSurfaceChloride * whole.SdLnDiffusionCoefficient,
                1e-12
            );
        }
    }

    [Fact]
    public void Convergence_OneColumnHeld_ItDoesNotCount()
    {
        var held = DeckFitter.Fit(Deck(3), Short with { FixedAgeingExponent = 0.35 });

        // A column that never moves has no sample size of its own: it would be 0 or no number.
        Assert.True(held.Convergence!.EffectiveSampleSize > 1);
        Assert.True(held.Convergence.SplitRhat >= 1 && held.Convergence.SplitRhat < 10);
        Assert.True(double.IsFinite(held.Convergence.TailEffectiveSampleSize!.Value));
    }

    [Fact]
    public void TryFit_OnlyCracks_Said()
    {
        CoreProfile[] cores = [.. Deck(2).Select(c => c with { OnCrack = true })];

        Assert.Null(DeckFitter.TryFit(cores, Short, out var refusal));
        Assert.Equal(
            "None of 2 cores can be used for the deck fit. At least one core with 3 slices that fall with depth is needed. Reasons: all are on cracks",
            refusal!.Text
        );
        Assert.Null(DeckFitter.TryFit(Array.Empty<CoreProfile>(), Short, out refusal));
        Assert.EndsWith("Reasons: no cores were given", refusal!.Text, StringComparison.Ordinal);
        var flat = cores[0].With(s => s with { Content = cores[0].Slices[0].Content });
        Assert.Null(DeckFitter.TryFit([flat, cores[1]], Short, out refusal));
        Assert.EndsWith(
            "Reasons: C1: all its contents are equal",
            refusal!.Text,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void TryFit_SeveralUnusable_AllReasonsInOrder()
    {
        CoreProfile[] cores =
        [
            .. Deck(2).Select(c => c.With(s => s with { Content = c.Slices[0].Content })),
        ];

        Assert.Null(DeckFitter.TryFit(cores, Short, out var refusal));
        Assert.EndsWith(
            "Reasons: C1: all its contents are equal; C2: all its contents are equal",
            refusal!.Text,
            StringComparison.Ordinal
        );
    }

    // The first slice of one core lowered to a quarter: a skin, left out and said of that core alone.
    [Fact]
    public void TryFit_SkinOfOneCore_SaidOfThatCoreAlone()
    {
        var cores = Deck(3);
        var second = cores[1].Slices[1].Content.KilogramsPerCubicMetre;
        // Depths in nine tenths: the peak clearly within the first inch.
        cores[1] = cores[1]
            .With(s =>
                s with
                {
                    Top = Depth.FromMillimetres(0.9 * s.Top.Millimetres),
                    Bottom = Depth.FromMillimetres(0.9 * s.Bottom.Millimetres),
                    Content =
                        s.Row > 2
                            ? s.Content
                            : ChlorideContent.FromKilogramsPerCubicMetre(0.25 * second),
                }
            );

        Assert.Equal(
            "Core C2: 1 slice(s) above the peak take no part in the deck fit. Look at the fits of the core with and without them.",
            DeckFitter.Fit(cores, Short).Flags.Single(f => f.Code == "DL2212").Text
        );
    }

    [Fact]
    public void TryFit_OptionOutOfRange_Thrown() =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            DeckFitter.Fit(Deck(3), Short with { WarmUp = 10 })
        );

    [Fact]
    public void TryFit_CrackCores_ApartAndNamed()
    {
        var cores = Deck(4);
        cores[1] = cores[1] with { OnCrack = true };
        var fit = DeckFitter.Fit(cores, Short);

        Assert.Equal(3, fit.Cores);
        Assert.Equal(1, fit.CrackCores!.Cores);
        Assert.Equal(
            "1 core(s) on cracks are fitted apart from the 3 on sound concrete: C2",
            fit.Flags.Single(f => f.Code == "DL2205").Text
        );
    }

    [Fact]
    public void TryFit_GivenErrorsMissing_NamedAndOnlyAWarningForCracks()
    {
        CoreProfile[] cores =
        [
            .. Deck(4).Select(c => c.With(s => s with { StandardDeviation = 0.2 })),
        ];
        cores[3] = cores[3]
            .With(s => s.Row < 4 ? s with { StandardDeviation = s.Row == 2 ? null : 0 } : s);
        var options = Short with { Weights = SliceWeights.Given };

        Assert.Null(DeckFitter.TryFit(cores, options, out var refusal));
        Assert.StartsWith(
            "Weights by given standard deviations were asked for, but core C4 has 2 slice(s) without a positive one.",
            refusal!.Text,
            StringComparison.Ordinal
        );
        cores[3] = cores[3] with { OnCrack = true };
        var fit = DeckFitter.TryFit(cores, options, out refusal)!;
        Assert.Null(refusal);
        Assert.Null(fit.CrackCores);
        Assert.Equal(
            DeckLife.Diagnostics.Severity.Warning,
            fit.Flags.Single(f => f.Code == "DL2211").Severity
        );
    }

    [Fact]
    public void TryFit_OfFits_RefusedOnesAreLeftOutWithTheirReason()
    {
        var cores = Deck(4);
        cores[2] = cores[2] with { ExposureAge = Age.FromYears(0) };
        ProfileFit[] fits =
        [
            .. cores.Select(c =>
                ProfileFitter.Fit(
                    c,
                    new ProfileFitOptions { Influence = false, LimitsOverErrorKinds = false }
                )
            ),
        ];
        var fit = DeckFitter.Fit(fits, Short);

        Assert.Equal(3, fit.Cores);
        Assert.StartsWith(
            "Core C3 takes no part in the deck fit: The exposure age is 0 yr; it must be above 0.",
            fit.Flags.Single(f => f.Code == "DL2204").Text,
            StringComparison.Ordinal
        );
        Assert.Equal(
            "Core C3 takes no part in the deck fit: its own fit was refused",
            DeckFitter
                .Fit([.. fits.Select(f => f with { Reason = null })], Short)
                .Flags.Single(f => f.Code == "DL2204")
                .Text
        );
        Assert.Throws<DeckFitRefusedException>(() => DeckFitter.Fit([fits[2]], Short));
    }

    // Both of the asked-for measures must hold, at least as well as asked.
    [Fact]
    public void TryFit_ConvergenceAskedFor_EitherMeasureRefuses()
    {
        var cores = Deck(3);
        var found = DeckFitter.Fit(cores, Short).Convergence!;

        Assert.NotNull(
            DeckFitter.TryFit(
                cores,
                Short with
                {
                    SmallestEffectiveSampleSize = found.EffectiveSampleSize,
                },
                out _
            )
        );
        foreach (
            var options in new[]
            {
                Short with
                {
                    SmallestEffectiveSampleSize = found.EffectiveSampleSize * 1.0001,
                },
                Short with
                {
                    LargestSplitRhat = found.SplitRhat,
                },
            }
        )
        {
            Assert.Null(DeckFitter.TryFit(cores, options, out var refusal));
            Assert.StartsWith(
                FormattableString.Invariant(
                    $"The chains of the deck fit did not converge: split R-hat {found.SplitRhat:F4}"
                ),
                refusal!.Text,
                StringComparison.Ordinal
            );
        }
    }

    // An extension runs four times as long and thins by as much, so that the draws stay as many.
    [Fact]
    public void TryFit_Extensions_LongerChainsOfAsManyDraws()
    {
        var cores = Deck(3);
        var found = DeckFitter.Fit(cores, Short).Convergence!;
        var longer = DeckFitter.TryFit(
            cores,
            Short with
            {
                Extensions = 2,
                SmallestEffectiveSampleSize = found.EffectiveSampleSize * 1.5,
            },
            out _
        );

        Assert.Equal(200, longer!.Draws.Length);
        Assert.True(longer.Convergence!.EffectiveSampleSize >= found.EffectiveSampleSize * 1.5);
    }

    private static CoreProfile[] Deck(int cores) =>
        new SimulatedDeck
        {
            Cores = cores,
            Slices = 5,
            Error = 0.15,
        }
            .Draw(77)
            .Cores;
}
