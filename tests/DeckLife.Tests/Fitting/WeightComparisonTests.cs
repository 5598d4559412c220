using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>When a fit says that its limits depend on the kind of error, and in which words; numbers by hand.</summary>
public class WeightComparisonTests
{
    private const string Notice =
        "The kind of error was not stated, so the limits hold for errors from constant to in proportion to the content (here up to ";

    // Limits 4 to 9, were the errors known to be constant 5 to 8: 5/3 as wide.
    [Fact]
    public void Add_LimitsWider_BothKindsTold()
    {
        var fit = WeightComparison.Add(Fit(4, 9), Other());

        var flag = Assert.Single(fit.Flags);
        Assert.Equal("DL2022", flag.Code);
        // The product of the deviations is 0.5³ = 0.125 against 0.1 × 0.2 × 0.8 = 0.016: 7.81 times.
        Assert.Equal(
            Notice
                + "10 times one another). Were it known: Cs 6 kg/m3 (5 to 8 kg/m3) with constant errors, 6.5 kg/m3 (5.5 to 7.25 kg/m3) with errors in proportion to the content; "
                + "D 20 mm2/yr (18 to 22 mm2/yr) and 21 mm2/yr (no limit to 30 mm2/yr). "
                + "The 3 slices make proportional errors 7.81 times as likely as the other, too little to tell.",
            flag.Text
        );
        Assert.NotNull(fit.OtherWeights);
    }

    // 1.25 times as wide is where it starts to be worth a word: 5 to 8 is 3 wide, 5 to 8.75 is 3.75 wide.
    [Theory]
    [InlineData(5, 8.74, false)]
    [InlineData(5, 8.76, true)]
    [InlineData(4.24, 8, true)]
    [InlineData(5, 8, false)]
    public void Add_Width_FromAQuarterMore(double low, double high, bool said) =>
        Assert.Equal(
            said,
            WeightComparison.Add(Fit(low, high), Other()).Flags.Any(f => f.Code == "DL2022")
        );

    // A limit that is there for constant errors and lost over the kinds is worth a word whatever the width.
    [Theory]
    [InlineData(null, 8.0, true)]
    [InlineData(5.0, null, true)]
    public void Add_LimitLost_Said(double? low, double? high, bool said) =>
        Assert.Equal(
            said,
            WeightComparison.Add(Fit(low, high), Other()).Flags.Any(f => f.Code == "DL2022")
        );

    [Fact]
    public void Add_LimitAbsentEitherWay_ComparedFromTheEstimate()
    {
        var absent = Fit(5, null);
        absent = absent with
        {
            SurfaceChloride = absent.SurfaceChloride! with { ConstantErrorsUpper95 = null },
        };

        Assert.Empty(WeightComparison.Add(absent, Other()).Flags);
        // 6 - 4.7 = 1.3 against 6 - 5 = 1: wider by more than a quarter.
        Assert.Single(
            WeightComparison
                .Add(
                    absent with
                    {
                        SurfaceChloride = absent.SurfaceChloride with { Lower95 = 4.7 },
                    },
                    Other()
                )
                .Flags
        );
    }

    [Fact]
    public void Add_LimitsOfDAloneWider_Said()
    {
        var fit = Fit(5, 8);
        fit = fit with { DiffusionCoefficient = fit.DiffusionCoefficient! with { Upper95 = 26 } };

        Assert.Equal("DL2022", Assert.Single(WeightComparison.Add(fit, Other()).Flags).Code);
    }

    // Contents within a factor of 4 hardly tell the kinds apart; a non-detect is no content.
    [Theory]
    [InlineData(2.01, false, false)]
    [InlineData(1.99, false, true)]
    [InlineData(1.99, true, false)]
    public void Add_RatioOfContents_FromFour(double least, bool nonDetect, bool said)
    {
        var fit = Fit(4, 9);
        fit = fit with
        {
            Slices =
            [
                Slice(2, 8, 0.5),
                Slice(3, 5, 0.5),
                Slice(4, least, 0.5) with
                {
                    IsNonDetect = nonDetect,
                },
            ],
        };

        Assert.Equal(said, WeightComparison.Add(fit, Other()).Flags.Any(f => f.Code == "DL2022"));
    }

    [Theory]
    // 0.125 / (0.1 × 0.1 × 0.5) = 25: more than twenty times.
    [InlineData(0.1, 0.1, 0.5, "make proportional errors 25 times as likely as the other.")]
    // (1 × 1 × 1) / 0.125 = 8.
    [InlineData(
        1,
        1,
        1,
        "make constant errors 8 times as likely as the other, too little to tell."
    )]
    public void Add_Evidence_RatioOfTheLikelihoods(double a, double b, double c, string text)
    {
        var other = Other() with { Slices = [Slice(2, 8, a), Slice(3, 5, b), Slice(4, 0.8, c)] };

        Assert.EndsWith(
            "The 3 slices " + text,
            Assert.Single(WeightComparison.Add(Fit(4, 9), other).Flags).Text,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Add_NoLikelihoodsToCompare_NotAsked()
    {
        var fit = Fit(4, 9);
        var other = Other();
        (ProfileFit, ProfileFit)[] pairs =
        [
            (fit with { Options = new ProfileFitOptions { Law = ErrorLaw.Student } }, other),
            (fit, other with { DegreesOfFreedom = 2 }),
            (fit, other with { Slices = [Slice(2, 8, 0), Slice(3, 5, 1), Slice(4, 0.8, 1)] }),
            (
                fit with
                {
                    Slices = [.. fit.Slices, Slice(5, 0.2, 0.5) with { IsNonDetect = true }],
                },
                other
            ),
        ];

        foreach (var (one, two) in pairs)
        {
            Assert.EndsWith(
                "The slices were not asked which errors they favour.",
                Assert.Single(WeightComparison.Add(one, two).Flags).Text,
                StringComparison.Ordinal
            );
        }
    }

    [Theory]
    [InlineData(null, null, "Cs 6.5 kg/m3 (no limits), D")]
    [InlineData(5.5, null, "Cs 6.5 kg/m3 (5.5 kg/m3 to no limit), D")]
    [InlineData(null, 7.25, "Cs 6.5 kg/m3 (no limit to 7.25 kg/m3), D")]
    public void Add_Bootstrap_LimitsOfTheOtherKindInWords(double? low, double? high, string text)
    {
        var other = Other();
        other = other with
        {
            SurfaceChloride = other.SurfaceChloride! with { Lower95 = low, Upper95 = high },
        };
        var fit = Fit(5, 8) with
        {
            Options = new ProfileFitOptions { Limits = LimitMethod.Bootstrap },
        };

        var flag = Assert.Single(WeightComparison.Add(fit, other).Flags);

        Assert.Equal("DL2023", flag.Code);
        Assert.EndsWith(
            "D 21 mm2/yr (no limit to 30 mm2/yr).",
            flag.Text,
            StringComparison.Ordinal
        );
        Assert.Contains(text, flag.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Add_OneRefused_NothingSetBeside()
    {
        var fit = Fit(4, 9);

        Assert.Same(fit, WeightComparison.Add(fit, Other() with { Status = FitStatus.Refused }));
        var refused = fit with { Status = FitStatus.Refused };
        Assert.Same(refused, WeightComparison.Add(refused, Other()));
    }

    // Cs 6, known constant 5 to 8; D 20, known constant and over the kinds 18 to 22.
    private static ProfileFit Fit(double? low, double? high) =>
        new()
        {
            Profile = Core(),
            Status = FitStatus.Fitted,
            DegreesOfFreedom = 3,
            SurfaceChloride = new Estimate(6)
            {
                Lower95 = low,
                Upper95 = high,
                ConstantErrorsLower95 = 5,
                ConstantErrorsUpper95 = 8,
            },
            DiffusionCoefficient = new Estimate(20)
            {
                Lower95 = 18,
                Upper95 = 22,
                ConstantErrorsLower95 = 18,
                ConstantErrorsUpper95 = 22,
            },
            Slices = [Slice(2, 8, 0.5), Slice(3, 5, 0.5), Slice(4, 0.8, 0.5)],
        };

    private static ProfileFit Other() =>
        new()
        {
            Profile = Core(),
            Status = FitStatus.Fitted,
            DegreesOfFreedom = 3,
            SurfaceChloride = new Estimate(6.5) { Lower95 = 5.5, Upper95 = 7.25 },
            DiffusionCoefficient = new Estimate(21) { Upper95 = 30 },
            Slices = [Slice(2, 8, 0.8), Slice(3, 5, 0.2), Slice(4, 0.8, 0.1)],
        };

    private static FittedSlice Slice(int row, double measured, double sd) =>
        new(row, 10 * row, (10 * row) + 10, measured, false, measured, sd, 1);

    private static CoreProfile Core() =>
        new()
        {
            Core = "C1",
            ExposureAge = Age.FromYears(25),
            Slices = ImmutableArray<ChlorideSlice>.Empty,
        };
}
