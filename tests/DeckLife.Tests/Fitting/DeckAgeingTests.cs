using DeckLife.Fitting;
using DeckLife.Numerics.Sampling;
using DeckLife.Profiles;
using DeckLife.Quantities;
using DeckLife.Transport;
using Xunit;

namespace DeckLife.Tests.Fitting;

public class DeckAgeingTests
{
    private static readonly DeckFitOptions Quick = new() { Sweeps = 3000, Draws = 2000 };

    [Fact]
    public void LogBetween_AnyExponentAndStart_IsRatioOfApparentCoefficients()
    {
        foreach (var exponent in (double[])[0, 0.2, 0.6, 0.95])
        {
            foreach (var start in (double[])[0, 0.25, 5])
            {
                var law = new InstantaneousAgeing(
                    DiffusionCoefficient.FromSquareMillimetresPerYear(100),
                    exponent,
                    Age.FromDays(28)
                );
                double At(double years) =>
                    law.ApparentAfter(
                        Age.FromYears(start),
                        Age.FromYears(years)
                    ).SquareMillimetresPerYear;
                // Two ways of writing one integral; rounding of logarithms only.
                Assert.Equal(
                    Math.Log(At(14) / At(38)),
                    AgeingRatio.LogBetween(exponent, 14, 38, start),
                    1e-12
                );
            }
        }

        // From birth: the power law (14/38)^-0.4.
        Assert.Equal(-0.4 * Math.Log(14.0 / 38), AgeingRatio.LogBetween(0.4, 14, 38, 0), 1e-13);
    }

    [Fact]
    public void InstantaneousLaw_OfApparent_GivesItBack()
    {
        var apparent = DiffusionCoefficient.FromSquareMillimetresPerYear(25);
        var law = DeckAgeing.InstantaneousLaw(
            apparent,
            Age.FromYears(30),
            Age.FromDays(120),
            0.35,
            Age.FromYears(20)
        );
        Assert.Equal(
            25,
            law.ApparentAfter(Age.FromDays(120), Age.FromYears(30)).SquareMillimetresPerYear,
            1e-11
        );
        // The instantaneous coefficient at the end is below the mean over the exposure: mistaking one for the other is the error kept apart here.
        Assert.True(law.InstantaneousMm2PerYear(120 / 365.25, 30) < 25 * 0.8);
    }

    [Theory]
    [InlineData(0.0, 0.0)]
    [InlineData(0.4, 0.0)]
    [InlineData(0.6, 0.5)]
    public void Fit_CoresOfFourteenAndThirtyEightYears_LimitsHoldTheExponent(
        double exponent,
        double startYears
    )
    {
        var fit = DeckFitter.Fit(
            TwoAges(exponent, startYears, 16, 0.15),
            Quick with
            {
                ConcreteAgeAtFirstSalt = Age.FromYears(startYears),
            }
        );
        var ageing = fit.AgeingExponent!;
        Assert.False(ageing.IsFixed);
        // 16 cores of s.d. 0.15 in ln D: s.e. of the difference of two means 0.075, over ln(38/14) = 1: 0.075 in the exponent.
        Assert.InRange(ageing.StandardError!.Value, 0.03, 0.13);
        Assert.True(ageing.Lower95 <= exponent + 0.05 && exponent <= ageing.Upper95);
        Assert.InRange(ageing.Value, exponent - 0.2, exponent + 0.2);
        Assert.Equal(38, fit.ReferenceExposureYears);
        // D is stated at the oldest age: ln 30 there by construction; s.e. about 0.15/√8.
        Assert.InRange(
            Math.Log(fit.DiffusionCoefficient.Value),
            Math.Log(30) - 0.25,
            Math.Log(30) + 0.25
        );
        Assert.All(fit.CoreEstimates, c => Assert.True(c.ExposureYears is 14 or 38));
    }

    [Fact]
    public void Fit_ReferenceAge_MovesDByTheLaw()
    {
        var cores = TwoAges(0.4, 0, 6, 0.15);
        var old = DeckFitter.Fit(cores, Quick with { FixedAgeingExponent = 0.4 });
        var young = DeckFitter.Fit(
            cores,
            Quick with
            {
                FixedAgeingExponent = 0.4,
                ReferenceExposureAge = Age.FromYears(14),
            }
        );
        Assert.True(old.AgeingExponent!.IsFixed);
        // (38/14)^0.4 but for the prior's and the chains' small pull.
        Assert.InRange(
            Math.Log(young.DiffusionCoefficient.Value / old.DiffusionCoefficient.Value),
            (0.4 * Math.Log(38.0 / 14)) - 0.05,
            (0.4 * Math.Log(38.0 / 14)) + 0.05
        );
        Assert.Contains(old.Flags, f => f.Code == "DL2207");
    }

    [Fact]
    public void Fit_OneAge_NoExponent()
    {
        var (cores, _, _) = new SimulatedDeck { Cores = 4 }.Draw(21);
        var fit = DeckFitter.Fit(cores, Quick);
        Assert.True(fit.AgeingExponent!.IsFixed);
        Assert.Equal(0, fit.AgeingExponent.Value);
        Assert.DoesNotContain(fit.Flags, f => f.Code == "DL2207");
    }

    [Fact]
    public void Fit_TwoCoresOfTwoAges_EachAtItsOwnAgeAndSaidToLeanOnPriors()
    {
        // The two cores of one invented deck, 38 and 14 yr, contents in lb/yd³.
        var cores = new[]
        {
            Core("C1", 38, 11.2, 8.1, 5.6, 3.7, 2.3),
            Core("W1", 14, 7.9, 4.0, 1.6, 0.5, 0.2),
        };
        var fit = DeckFitter.Fit(cores, Quick);
        Assert.Equal(38, fit.CoreEstimates[0].ExposureYears);
        Assert.Equal(14, fit.CoreEstimates[1].ExposureYears);
        Assert.Contains(fit.Flags, f => f.Code == "DL2203");
        Assert.Contains(fit.Flags, f => f.Code == "DL2208");
    }

    [Fact]
    public void Fit_TargetedCores_CountByAreaNotByNumber()
    {
        // Five of eight cores where trouble is (D three times as high), for a tenth of the area.
        var deck = new SimulatedDeck { SdLnDiffusion = 0.15, SdLnSurface = 0.15 };
        var random = new RandomStream(31, "targeted", 0);
        CoreProfile[] cores =
        [
            .. Enumerable
                .Range(0, 8)
                .Select(i =>
                    deck.Core(
                        $"C{i}",
                        25,
                        Math.Log(8) + (0.15 * random.NextNormal()),
                        Math.Log(i < 5 ? 90 : 30) + (0.15 * random.NextNormal()),
                        random
                    )
                ),
        ];
        var plain = DeckFitter.Fit(cores, Quick);
        var weighted = DeckFitter.Fit(
            cores,
            Quick with
            {
                TargetedCores = ["C0", "C1", "C2", "C3", "C4"],
                TargetedAreaShare = 0.1,
            }
        );
        // Area mean of ln D: ln 30 + 0.1 ln 3; by number of cores ln 30 + 0.625 ln 3.
        Assert.InRange(Math.Log(weighted.DiffusionCoefficient.Value / 30), -0.2, 0.45);
        Assert.True(Math.Log(plain.DiffusionCoefficient.Value / 30) > 0.5);
        Assert.InRange(weighted.TargetedDiffusionFactor!.Value, 1.9, 3.8);
        Assert.Contains("10 % of the area", weighted.Sampling, StringComparison.Ordinal);

        var unweighted = DeckFitter.Fit(cores, Quick with { TargetedCores = ["C0"] });
        Assert.Contains(unweighted.Flags, f => f.Code == "DL2206");
        Assert.Throws<ArgumentException>(() =>
            DeckFitter.Fit(cores, Quick with { TargetedCores = ["X"] })
        );
    }

    private static CoreProfile[] TwoAges(
        double exponent,
        double startYears,
        int count,
        double spread
    )
    {
        var deck = new SimulatedDeck { Error = 0.1 };
        var random = new RandomStream(17, "two ages", (ulong)(100 * exponent));
        var law = DeckAgeing.InstantaneousLaw(
            DiffusionCoefficient.FromSquareMillimetresPerYear(30),
            Age.FromYears(38),
            Age.FromYears(startYears),
            exponent
        );
        return
        [
            .. Enumerable
                .Range(0, count)
                .Select(i =>
                {
                    var years = i % 2 == 0 ? 14.0 : 38.0;
                    var apparent = law.ApparentAfter(
                        Age.FromYears(startYears),
                        Age.FromYears(years)
                    );
                    return deck.Core(
                        $"C{i}",
                        years,
                        Math.Log(8) + (0.2 * random.NextNormal()),
                        Math.Log(apparent.SquareMillimetresPerYear)
                            + (spread * random.NextNormal()),
                        random
                    );
                }),
        ];
    }

    private static CoreProfile Core(string name, double years, params double[] contents) =>
        new()
        {
            Core = name,
            ExposureAge = Age.FromYears(years),
            Slices =
            [
                .. contents.Select(
                    (c, i) =>
                        new ChlorideSlice
                        {
                            Row = i + 2,
                            Top = Depth.FromInches(0.25 + (0.5 * i)),
                            Bottom = Depth.FromInches(0.75 + (0.5 * i)),
                            Content = ChlorideContent.FromPoundsPerCubicYard(c),
                        }
                ),
            ],
        };
}
