using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Quantities;
using MathNet.Numerics.Distributions;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>Prior densities against written-out distributions, and how options and cores make the model.</summary>
public class DeckModelTests
{
    private static readonly DeckPriors Priors = new();

    // Differences of log densities: constants do not matter. A standard deviation enters by its logarithm: times the Jacobian, the s.d. itself.
    [Fact]
    public void LogPriors_TwoPoints_DifferencesOfTheStatedDensities()
    {
        var model = Model(SliceWeights.Constant);

        AssertSame(
            s => model.LogPriorOfLnSdSurface(Math.Log(s), s),
            s => Math.Log(s) + Normal.PDFLn(0, 0.5, s),
            0.2,
            0.9
        );
        AssertSame(
            s => model.LogPriorOfLnSdDiffusion(Math.Log(s), s),
            s => Math.Log(s) + Normal.PDFLn(0, 0.7, s),
            0.2,
            0.9
        );
        // Density in (1 - r²)^(2 - 1) of r = tanh a, with dr/da = 1 - r².
        AssertSame(
            r => model.LogPriorOfCorrelation(DeckModel.LogCosh(Math.Atanh(r))),
            r => 2 * Math.Log(1 - (r * r)),
            0.3,
            -0.8
        );
        AssertSame(model.LogPriorOfBackground, b => Normal.PDFLn(0, 0.5, b), 0.1, 0.7);
        AssertSame(model.LogPriorOfAgeing, m => Normal.PDFLn(0.3, 0.25, m), 0.1, 0.8);
        AssertSame(
            e => model.LogPriorOfLnError(Math.Log(e)),
            e => Math.Log(e) + Normal.PDFLn(0, 0.6, e),
            0.1,
            0.8
        );
        AssertSame(
            e => Model(SliceWeights.Relative).LogPriorOfLnError(Math.Log(e)),
            e => Math.Log(e) + Normal.PDFLn(0, 0.15, e),
            0.05,
            0.2
        );
        AssertSame(
            e => Model(SliceWeights.Given).LogPriorOfLnError(Math.Log(e)),
            e => Normal.PDFLn(0, 0.5, Math.Log(e)),
            0.5,
            1.7
        );
        AssertSame(
            s => model.LogPriorOfSpread(Math.Log(s), Math.Log(2 * s), Math.Atanh(s)),
            s =>
                Math.Log(s)
                + Normal.PDFLn(0, 0.5, s)
                + Math.Log(2 * s)
                + Normal.PDFLn(0, 0.7, 2 * s)
                + (2 * Math.Log(1 - (s * s))),
            0.2,
            0.6
        );
    }

    [Fact]
    public void LogPriors_OutsideTheirRange_Impossible()
    {
        var model = Model(SliceWeights.Constant);

        Assert.Equal(double.NegativeInfinity, model.LogPriorOfBackground(-1e-9));
        Assert.True(double.IsFinite(model.LogPriorOfBackground(0)));
        Assert.Equal(double.NegativeInfinity, model.LogPriorOfAgeing(-1e-9));
        Assert.Equal(double.NegativeInfinity, model.LogPriorOfAgeing(0.9501));
        Assert.True(double.IsFinite(model.LogPriorOfAgeing(0)));
        Assert.True(double.IsFinite(model.LogPriorOfAgeing(0.95)));
        // 0.005 kg/m³; 1e-4 of the content; a hundredth of the given errors.
        foreach (
            var (weights, least) in new[]
            {
                (SliceWeights.Constant, 0.005),
                (SliceWeights.Relative, 1e-4),
                (SliceWeights.Given, 0.01),
            }
        )
        {
            var other = Model(weights);
            Assert.Equal(Math.Log(least), other.LnSmallestError, 1e-12);
            Assert.Equal(double.NegativeInfinity, other.LogPriorOfLnError(Math.Log(0.999 * least)));
            Assert.True(double.IsFinite(other.LogPriorOfLnError(Math.Log(1.001 * least))));
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.7)]
    [InlineData(-3)]
    [InlineData(800)]
    [InlineData(-800)]
    public void LogCosh_AnySize_NoOverflow(double x) =>
        Assert.Equal(
            Math.Abs(x) < 500 ? Math.Log(Math.Cosh(x)) : Math.Abs(x) - Math.Log(2),
            DeckModel.LogCosh(x),
            1e-12
        );

    [Fact]
    public void Coefficients_MeansAndShifts_TheirPriors()
    {
        var model = Model(SliceWeights.Constant);

        Assert.Equal(
            [Math.Log(6), Math.Log(30), 0, 0],
            Enumerable.Range(0, 4).Select(model.MeanOfCoefficient)
        );
        Assert.Equal([1, 1.2, 0.5, 0.5], Enumerable.Range(0, 4).Select(model.SdOfCoefficient));
        Assert.Equal(2, model.MeanCount);
    }

    // Measured contents of the two cores: 8, 4, 2 and 6, 3, 1, mean 4; deviations 0.1, 0.2, 0.3 in each: mean square 0.14/3.
    [Fact]
    public void TypicalError_OfEachKind_AtTheMeanOfTheMeasuredSlices()
    {
        Assert.Equal(0.3, Model(SliceWeights.Constant).TypicalError(0.3), 1e-12);
        Assert.Equal(0.4, Model(SliceWeights.Relative).TypicalError(0.1), 1e-12);
        Assert.Equal(1.5 * Math.Sqrt(0.14 / 3), Model(SliceWeights.Given).TypicalError(1.5), 1e-12);
    }

    [Fact]
    public void AgeShifts_SeveralAges_LogRatioOfApparentCoefficients()
    {
        var model = new DeckModel
        {
            Slices = new DeckSlices(
                [Core("A", 10), Core("B", 10), Core("C", 40)],
                SliceWeights.Constant
            ),
            Priors = Priors,
            ReferenceYears = 40,
        };
        var shift = new double[3];

        model.AgeShifts(0.5, shift);

        // Dapp in t^-m: (40/10)^0.5 = 2.
        Assert.Equal([Math.Log(2), Math.Log(2), 0], shift, (a, b) => Math.Abs(a - b) < 1e-12);
    }

    // Mean and variance of a normal law cut at 0 and 0.95, from its closed form (Johnson, Kotz and Balakrishnan, Continuous Univariate
    // Distributions 1, 1994, section 10.1).
    [Fact]
    public void SdOfAgeingPrior_CutNormal_ClosedForm()
    {
        var (a, b) = ((0 - 0.3) / 0.25, (0.95 - 0.3) / 0.25);
        var mass = Normal.CDF(0, 1, b) - Normal.CDF(0, 1, a);
        var (pa, pb) = (Normal.PDF(0, 1, a), Normal.PDF(0, 1, b));
        var mean = (pa - pb) / mass;
        var variance = 1 + (((a * pa) - (b * pb)) / mass) - (mean * mean);

        Assert.Equal(0.25 * Math.Sqrt(variance), Priors.SdOfAgeingPrior(), 1e-9);
    }

    [Fact]
    public void Statements_WhatIsEstimated_OneLineEachAndNoMore()
    {
        var all = Priors.Statements(SliceWeights.Constant, BackgroundTreatment.Fitted, true, true);

        Assert.Equal(
            [
                "mean of ln(Cs / (kg/m3)): normal, mean 1.792, s.d. 1",
                "mean of ln(D / (mm2/yr)): normal, mean 3.401, s.d. 1.2",
                "s.d. between cores of ln Cs: half-normal, scale 0.5",
                "s.d. between cores of ln D: half-normal, scale 0.7",
                "correlation: density in (1 - rho^2)^1",
                "background: half-normal, scale 0.5 kg/m3",
                "laboratory error: half-normal, scale 0.6 kg/m3, at least 0.005 kg/m3",
                "ageing exponent: normal, mean 0.3, s.d. 0.25, from 0 to 0.95",
                "shift of targeted cores in ln Cs and ln D: normal, mean 0, s.d. 0.5",
            ],
            all.ToArray()
        );
        var least = Priors.Statements(SliceWeights.Given, BackgroundTreatment.Fixed, false, false);
        Assert.Equal(6, least.Length);
        Assert.Equal(
            "factor on the given laboratory errors: log-normal, median 1, s.d. of ln 0.5",
            least[^1]
        );
        Assert.Contains(
            "laboratory error: half-normal, scale 0.15 of the content",
            Priors.Statements(SliceWeights.Relative, BackgroundTreatment.Fixed, false, false)
        );
    }

    [Fact]
    public void Make_AgesApart_ExponentEstimatedAtTheOldestAge()
    {
        var model = Made([Core("A", 20), Core("B", 25)], new DeckFitOptions(), out var flags);

        Assert.Null(model.FixedAgeingExponent);
        Assert.Equal(25, model.ReferenceYears);
        Assert.Null(model.FixedBackground);
        Assert.Empty(flags);
    }

    // Ages within a factor of 1.25 say nothing of the exponent: 20 and 24.9 yr.
    [Fact]
    public void Make_AgesNearOneAnother_PooledWithoutAgeingAndSaid()
    {
        var model = Made([Core("A", 20), Core("B", 24.9)], new DeckFitOptions(), out var flags);

        Assert.Equal(0, model.FixedAgeingExponent);
        Assert.Equal(
            "Exposure ages run from 20 to 24.9 yr. The coefficients are brought to 24.9 yr with the given ageing exponent 0, which is not estimated.",
            Assert.Single(flags).Text
        );
    }

    [Fact]
    public void Make_OneAge_SaidOnlyWhereAnotherReferenceIsAsked()
    {
        CoreProfile[] cores = [Core("A", 20), Core("B", 20)];
        Made(cores, new DeckFitOptions(), out var none);
        Made(cores, new DeckFitOptions { FixedAgeingExponent = 0.4 }, out var same);
        var model = Made(
            cores,
            new DeckFitOptions
            {
                FixedAgeingExponent = 0.4,
                ReferenceExposureAge = Age.FromYears(30),
                ConcreteAgeAtFirstSalt = Age.FromYears(0.5),
                Background = BackgroundTreatment.Fixed,
                FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0.2),
            },
            out var other
        );

        Assert.Empty(none);
        Assert.Empty(same);
        Assert.Equal("DL2207", Assert.Single(other).Code);
        Assert.Equal(
            (30.0, 0.5, (double?)0.4, (double?)0.2),
            (
                model.ReferenceYears,
                model.StartYears,
                model.FixedAgeingExponent,
                model.FixedBackground
            )
        );
    }

    [Theory]
    [InlineData(new[] { "B" }, 0.2, null)]
    [InlineData(new string[0], 0.2, null)]
    [InlineData(
        new[] { "B" },
        null,
        "1 of 2 cores were taken where trouble was seen, and the share of the area that such places have is not given."
    )]
    [InlineData(
        new[] { "A", "B" },
        0.2,
        "2 of 2 cores were taken where trouble was seen, and none elsewhere."
    )]
    public void Make_TargetedCores_WeightedOnlyWithShareAndOthers(
        string[] targeted,
        double? share,
        string? text
    )
    {
        var model = Made(
            [Core("A", 20), Core("B", 20)],
            new DeckFitOptions { TargetedCores = [.. targeted], TargetedAreaShare = share },
            out var flags
        );

        if (text is not null)
        {
            Assert.StartsWith(text, Assert.Single(flags).Text, StringComparison.Ordinal);
            Assert.Null(model.IsTargeted);
            return;
        }

        Assert.Empty(flags);
        if (targeted.Length == 0)
        {
            Assert.Null(model.IsTargeted);
            return;
        }

        Assert.Equal([0.0, 1], model.IsTargeted!);
        Assert.Equal(4, model.MeanCount);
        Assert.Equal(0.2, model.TargetedAreaShare);
    }

    public static TheoryData<DeckFitOptions> Unusable =>
        new()
        {
            new DeckFitOptions { Chains = 1, Draws = 100 },
            new DeckFitOptions { WarmUp = 99 },
            new DeckFitOptions { Sweeps = 99, Draws = 100 },
            new DeckFitOptions { Draws = 99 },
            // More draws than sweeps: 100 sweeps of 2 chains.
            new DeckFitOptions
            {
                Chains = 2,
                Sweeps = 100,
                Draws = 201,
            },
            new DeckFitOptions { Extensions = -1 },
            new DeckFitOptions { FixedAgeingExponent = -0.01 },
            new DeckFitOptions { FixedAgeingExponent = 1 },
            new DeckFitOptions { FixedAgeingExponent = double.NaN },
            new DeckFitOptions { TargetedAreaShare = -0.01 },
            new DeckFitOptions { TargetedAreaShare = 1.01 },
            new DeckFitOptions { TargetedAreaShare = double.NaN },
        };

    [Theory]
    [MemberData(nameof(Unusable))]
    public void Check_OptionOutOfRange_Thrown(DeckFitOptions options) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            DeckFitValidation.Check(options, [Core("A", 20)])
        );

    [Fact]
    public void Check_OptionsAtTheirEnds_Allowed()
    {
        DeckFitValidation.Check(
            new DeckFitOptions
            {
                Chains = 2,
                WarmUp = 100,
                Sweeps = 100,
                Draws = 200,
                Extensions = 0,
                FixedAgeingExponent = 0,
                TargetedAreaShare = 0,
                TargetedCores = ["A"],
            },
            [Core("A", 20), Core("B", 20)]
        );
        DeckFitValidation.Check(
            new DeckFitOptions
            {
                Draws = 100,
                FixedAgeingExponent = 0.999,
                TargetedAreaShare = 1,
            },
            [Core("A", 20)]
        );
    }

    [Fact]
    public void Check_ExponentOrShareOutOfRange_TheRangeIsSaid()
    {
        string Message(DeckFitOptions options) =>
            Assert
                .Throws<ArgumentOutOfRangeException>(() =>
                    DeckFitValidation.Check(options, [Core("A", 20)])
                )
                .Message;

        Assert.StartsWith(
            "The ageing exponent must be at least 0 and below 1.",
            Message(new DeckFitOptions { FixedAgeingExponent = 1 }),
            StringComparison.Ordinal
        );
        Assert.StartsWith(
            "The share of the area of targeted cores must be from 0 to 1.",
            Message(new DeckFitOptions { TargetedAreaShare = 2 }),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Check_TargetedCoreUnknown_Named() =>
        Assert.Contains(
            "The targeted core 'X' is none of the cores given.",
            Assert
                .Throws<ArgumentException>(() =>
                    DeckFitValidation.Check(
                        new DeckFitOptions { TargetedCores = ["A", "X"] },
                        [Core("A", 20)]
                    )
                )
                .Message,
            StringComparison.Ordinal
        );

    public static TheoryData<CoreProfile, string?> Usable
    {
        get
        {
            var core = Points(20, 5, 4, 3);
            return new()
            {
                { core, null },
                { Points(0, 5, 4, 3), "its exposure age is 0" },
                { Points(20, 5, 4), "2 slices; at least 3 are needed" },
                { core.With(s => s with { IsNonDetect = true }), "all slices are below detection" },
                { core.With(s => s with { IsNonDetect = s.Row > 2 }), null },
                { Points(20, 4, 4, 4), "all its contents are equal" },
                // Of three slices all count: 3 against 5 rises, both others fall: tau -1/3. 3, 5, 4: two rise, one falls: 1/3.
                { Points(20, 5, 3, 4), null },
                {
                    Points(20, 3, 5, 4),
                    "its contents do not fall with depth (Kendall's tau 0.33; allowed: below 0)"
                },
                // Of four the shallowest does not count.
                { Points(20, 1, 5, 4, 3), null },
                // 5, 4, 5 below: one falls, one rises, one ties.
                {
                    Points(20, 9, 5, 4, 5),
                    "its contents do not fall with depth (Kendall's tau 0.00; allowed: below 0)"
                },
            };
        }
    }

    [Theory]
    [MemberData(nameof(Usable))]
    public void Problem_CoreOfADeck_SaidOrNone(CoreProfile core, string? problem) =>
        Assert.Equal(problem, DeckCoreSelection.Problem(core));

    private static CoreProfile Points(double years, params double[] content) =>
        Cores.Points(years, [.. content.Select((_, i) => 10.0 * (i + 1))], content);

    private static DeckModel Made(
        CoreProfile[] cores,
        DeckFitOptions options,
        out IReadOnlyList<Diagnostic> flags
    )
    {
        var found = ImmutableArray.CreateBuilder<Diagnostic>();
        flags = found;
        return DeckModelMaking.Make(cores, options, found);
    }

    // Two cores of 8, 4, 2 and 6, 3, 1 kg/m³; a non-detect at 9, deviation 5, that counts nowhere.
    private static DeckModel Model(SliceWeights weights)
    {
        CoreProfile Core(double[] content, double? limit)
        {
            var all = limit is { } l ? [.. content, l] : content;
            return Points(20, all)
                .With(s =>
                    s with
                    {
                        IsNonDetect = s.Row == 5,
                        StandardDeviation = s.Row == 5 ? 5 : 0.1 * (s.Row - 1),
                    }
                );
        }

        return new DeckModel
        {
            Slices = new DeckSlices([Core([8, 4, 2], 9), Core([6, 3, 1], null)], weights),
            Priors = Priors,
            ReferenceYears = 20,
        };
    }

    private static CoreProfile Core(string name, double years) =>
        Points(years, 8, 4, 2) with
        {
            Core = name,
        };

    private static void AssertSame(
        Func<double, double> found,
        Func<double, double> expected,
        double one,
        double other
    ) => Assert.Equal(expected(other) - expected(one), found(other) - found(one), 1e-12);
}
