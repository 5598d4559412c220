using System.Globalization;
using DeckLife.Fitting;
using DeckLife.Numerics.MarkovChains;
using DeckLife.Numerics.Sampling;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

public class DeckFitterTests
{
    private static readonly DeckFitOptions Quick = new() { Sweeps = 3000, Draws = 2000 };

    [Fact]
    public void Fit_DefaultsOnEightCores_ConvergesWithTwoThousandDrawsOrMore()
    {
        var (cores, _, _) = new SimulatedDeck().Draw(1);
        var fit = DeckFitter.Fit(cores);
        Assert.True(fit.Draws.Length >= 2000);
        Assert.True(fit.Convergence!.SplitRhat < 1.01);
        Assert.True(fit.Convergence.EffectiveSampleSize >= 400);
        Assert.Equal(FitStatus.Fitted, fit.Status);
        Assert.Equal(8, fit.CoreEstimates.Length);
        Assert.NotEmpty(fit.Priors);
    }

    [Fact]
    public void Fit_AnyThreadsAndCulture_SameDraws()
    {
        var (cores, _, _) = new SimulatedDeck { Cores = 4 }.Draw(2);
        var one = DeckFitter.Fit(cores, Quick with { Threads = 1 });
        var culture = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo("de-DE");
            var eight = DeckFitter.Fit(cores, Quick with { Threads = 8 });
            Assert.True(one.Draws.SequenceEqual(eight.Draws));
            Assert.Equal(one.Method, eight.Method);
            Assert.True(one.Priors.SequenceEqual(eight.Priors));
        }
        finally
        {
            CultureInfo.CurrentCulture = culture;
        }

        var other = DeckFitter.Fit(cores, Quick with { Seed = 0 });
        Assert.False(one.Draws.SequenceEqual(other.Draws));
    }

    [Fact]
    public void Fit_OfAnotherSeed_AgreesWithinMonteCarloError()
    {
        var (cores, _, _) = new SimulatedDeck().Draw(3);
        var a = DeckFitter.Fit(cores, Quick);
        var b = DeckFitter.Fit(cores, Quick with { Seed = 99 });
        // Effective size 400 or more: the s.e. of a median is at most 1.25 s.d./20; the difference of two, five times over: 0.44 s.d.
        Assert.True(
            Math.Abs(a.DiffusionCoefficient.Value - b.DiffusionCoefficient.Value)
                < 0.44 * a.DiffusionCoefficient.StandardError
        );
        Assert.True(
            Math.Abs(a.Background.Value - b.Background.Value) < 0.44 * a.Background.StandardError
        );
    }

    [Fact]
    public void Fit_NoiseFreeCores_FindsEachCore()
    {
        // Without noise the deck's error falls to the smallest allowed, 0.005 kg/m³, and each core to its truth within that.
        var (cores, surface, diffusion) = new SimulatedDeck { Error = 0 }.Draw(4);
        var fit = DeckFitter.Fit(cores, Quick);
        for (var j = 0; j < cores.Length; j++)
        {
            Assert.Equal(surface[j], Math.Log(fit.CoreEstimates[j].SurfaceChloride.Value), 0.005);
            Assert.Equal(
                diffusion[j],
                Math.Log(fit.CoreEstimates[j].DiffusionCoefficient.Value),
                0.01
            );
        }

        Assert.Equal(0.15, fit.Background.Value, 0.01);
        Assert.InRange(fit.LabErrorSd.Value, 0.005, 0.006);
    }

    [Fact]
    public void Fit_SlicesAndCoresInAnyOrder_SamePosterior()
    {
        var (cores, _, _) = new SimulatedDeck { Cores = 5 }.Draw(5);
        var fit = DeckFitter.Fit(cores, Quick);
        CoreProfile[] reversed = [.. cores.Reverse()];
        var other = DeckFitter.Fit(reversed, Quick);
        // Other chains, one posterior: within Monte Carlo error as above.
        Assert.True(
            Math.Abs(Math.Log(fit.DiffusionCoefficient.Value / other.DiffusionCoefficient.Value))
                < 0.44 * fit.DiffusionCoefficient.StandardError / fit.DiffusionCoefficient.Value
        );
        Assert.Equal("C5", other.CoreEstimates[0].Core);
    }

    [Fact]
    public void Fit_CoresAreShrunkenTowardsTheDeck_MoreWhereTheyAreWeak()
    {
        // A core of three shallow slices against cores of six: its limits are wider than theirs but narrower than the population.
        var deck = new SimulatedDeck { Error = 0.5 };
        var (cores, _, _) = deck.Draw(6);
        cores[0] = cores[0] with { Slices = cores[0].Slices[..3] };
        var fit = DeckFitter.Fit(cores, Quick);
        var weak = fit.CoreEstimates[0].DiffusionCoefficient;
        var typical = fit.CoreEstimates[1..]
            .Select(c => c.DiffusionCoefficient)
            .Average(e => Math.Log(e.Upper95!.Value / e.Lower95!.Value));
        var own = Math.Log(weak.Upper95!.Value / weak.Lower95!.Value);
        Assert.True(own > typical);
    }

    [Fact]
    public void Fit_OneCore_LeansOnPriorsAndSaysSo()
    {
        var (cores, _, _) = new SimulatedDeck { Cores = 1 }.Draw(7);
        var fit = DeckFitter.Fit(cores, Quick);
        Assert.Equal(FitStatus.Limited, fit.Status);
        Assert.Contains(fit.Flags, f => f.Code == "DL2203");
        // The spread is its half-normal prior with scale 0.7: median 0.6745 · 0.7 = 0.472, s.d. 0.603 · 0.7 = 0.42.
        Assert.InRange(fit.SdLnDiffusionCoefficient.Value, 0.38, 0.56);
    }

    [Fact]
    public void TryFit_NothingUsable_RefusedWithEveryReason()
    {
        // A profile that rises and falls (contents of one published core), two slices, and one all below detection.
        var flat = Core("F", 16.26, 3.97, 7.35, 9.59, 12.6, 11.55);
        var two = Core("T", 5, 3);
        var none = Core("N", 0.1, 0.1, 0.1) with { };
        none = none with { Slices = [.. none.Slices.Select(s => s with { IsNonDetect = true })] };
        var fit = DeckFitter.TryFit([flat, two, none], new DeckFitOptions(), out var refusal);
        Assert.Null(fit);
        Assert.Equal("DL2201", refusal!.Code);
        foreach (var name in (string[])["F:", "T:", "N:"])
        {
            Assert.Contains(name, refusal.Text, StringComparison.Ordinal);
        }

        var thrown = Assert.Throws<DeckFitRefusedException>(() =>
            DeckFitter.Fit([flat, two, none])
        );
        Assert.Equal("DL2201", thrown.Diagnostic.Code);
        Assert.Throws<DeckFitRefusedException>(() => DeckFitter.Fit(Array.Empty<CoreProfile>()));
    }

    [Fact]
    public void TryFit_ChainsTooShort_RefusedNotConverged()
    {
        var (cores, _, _) = new SimulatedDeck().Draw(8);
        var fit = DeckFitter.TryFit(
            cores,
            new DeckFitOptions
            {
                WarmUp = 100,
                Sweeps = 100,
                Draws = 400,
                Extensions = 0,
            },
            out var refusal
        );
        Assert.Null(fit);
        Assert.Equal("DL2202", refusal!.Code);
    }

    [Fact]
    public void Fit_OneBadCoreAmongGood_LeftOutByName()
    {
        var (cores, _, _) = new SimulatedDeck { Cores = 5 }.Draw(9);
        var fit = DeckFitter.Fit([.. cores, Core("R", 1, 2, 3, 4, 5)], Quick);
        Assert.Equal(5, fit.Cores);
        Assert.Contains(fit.Flags, f => f.Code == "DL2204" && f.Text.Contains("Core R"));
    }

    [Fact]
    public void Fit_CrackCores_FittedApartAndDoNotMoveTheDeck()
    {
        var deck = new SimulatedDeck { Cores = 5 };
        var (cores, _, _) = deck.Draw(10);
        var random = new RandomStream(10, "cracks", 0);
        CoreProfile[] cracked =
        [
            .. Enumerable
                .Range(0, 3)
                .Select(i =>
                    deck.Core($"K{i}", 25, Math.Log(8), Math.Log(300), random, onCrack: true)
                ),
        ];
        var alone = DeckFitter.Fit(cores, Quick);
        var both = DeckFitter.Fit([.. cores, .. cracked], Quick);
        Assert.True(alone.Draws.SequenceEqual(both.Draws));
        Assert.Equal(3, both.CrackCores!.Cores);
        Assert.True(both.CrackCores.DiffusionCoefficient.Lower95 > 100);
        Assert.Contains(both.Flags, f => f.Code == "DL2205");
    }

    [Fact]
    public void Fit_NonDetects_NeitherZeroNorDropped()
    {
        // Deep slices below 1 kg/m³ are not detected. Taken as 0 they would draw the background to 0, dropped they would leave it
        // free; censored, the posterior of D overlaps that of the full data, and the background stays below the limit.
        var deck = new SimulatedDeck { Background = 0.3, Error = 0.15 };
        var (full, _, _) = deck.Draw(11);
        var (cut, _, _) = (deck with { DetectionLimit = 1 }).Draw(11);
        Assert.InRange(cut.Sum(c => c.Slices.Count(s => s.IsNonDetect)), 5, 20);
        var a = DeckFitter.Fit(full, Quick);
        var b = DeckFitter.Fit(cut, Quick);
        Assert.True(b.Background.Upper95 < 1);
        Assert.True(
            Math.Abs(Math.Log(a.DiffusionCoefficient.Value / b.DiffusionCoefficient.Value)) < 0.1
        );
    }

    [Fact]
    public void Fit_RelativeAndGivenErrors_FindTheError()
    {
        var deck = new SimulatedDeck { Error = 0.005, RelativeError = 0.08 };
        var (cores, _, _) = deck.Draw(12);
        var relative = DeckFitter.Fit(cores, Quick with { Weights = SliceWeights.Relative });
        // 48 slices less about 17 parameters: the estimate of a c.v. has 13 % s.e.; three of them.
        Assert.InRange(relative.RelativeLabError!.Value, 0.05, 0.11);
        Assert.Null(DeckFitter.Fit(cores, Quick).RelativeLabError);

        CoreProfile[] given =
        [
            .. new SimulatedDeck { Error = 0.2 }
                .Draw(13)
                .Cores.Select(c =>
                    c with
                    {
                        Slices = [.. c.Slices.Select(s => s with { StandardDeviation = 0.2 })],
                    }
                ),
        ];
        var known = DeckFitter.Fit(given, Quick with { Weights = SliceWeights.Given });
        Assert.InRange(known.LabErrorSd.Value, 0.13, 0.28);
        _ = DeckFitter.TryFit(cores, Quick with { Weights = SliceWeights.Given }, out var refusal);
        Assert.Equal("DL2211", refusal!.Code);
    }

    [Fact]
    public void Fit_FixedBackground_IsHeld()
    {
        var (cores, _, _) = new SimulatedDeck { Cores = 5 }.Draw(14);
        var fit = DeckFitter.Fit(
            cores,
            Quick with
            {
                Background = BackgroundTreatment.Fixed,
                FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0.15),
            }
        );
        Assert.True(fit.Background.IsFixed);
        Assert.All(fit.Draws, d => Assert.Equal(0.15, d.BackgroundKgPerM3));
    }

    [Fact]
    public void Fit_ReplicatesOfASlice_WeighLikeLessVariance()
    {
        // The mean of four determinations twice as sure as one: the same posterior as with given errors half as large.
        var (cores, _, _) = new SimulatedDeck { Cores = 4, Error = 0.2 }.Draw(15);
        CoreProfile[] four =
        [
            .. cores.Select(c =>
                c with
                {
                    Slices = [.. c.Slices.Select(s => s with { Replicates = 4 })],
                }
            ),
        ];
        var one = DeckFitter.Fit(cores, Quick);
        var many = DeckFitter.Fit(four, Quick);
        // The error of one determination comes out about twice as large, its scale being that of a single one.
        Assert.InRange(many.LabErrorSd.Value / one.LabErrorSd.Value, 1.6, 2.1);
    }

    private static CoreProfile Core(string name, params double[] contents) =>
        new()
        {
            Core = name,
            ExposureAge = Age.FromYears(25),
            Slices =
            [
                .. contents.Select(
                    (c, i) =>
                        new ChlorideSlice
                        {
                            Row = i + 2,
                            Top = Depth.FromMillimetres(10.0 * i),
                            Bottom = Depth.FromMillimetres(10.0 * (i + 1)),
                            Content = ChlorideContent.FromKilogramsPerCubicMetre(c),
                        }
                ),
            ],
        };
}
