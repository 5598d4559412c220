using DeckLife.Numerics.Quadrature;
using DeckLife.Quantities;
using DeckLife.Transport;
using Xunit;

namespace DeckLife.Tests.Transport;

public class DiffusionLawTests
{
    private static readonly DiffusionCoefficient Thirty =
        DiffusionCoefficient.FromSquareMillimetresPerYear(30);

    [Theory]
    [InlineData(0)]
    [InlineData(0.35)]
    [InlineData(0.999999999)]
    [InlineData(1)]
    [InlineData(1.2)]
    public void ClockMm2_Instantaneous_IsTheIntegralOfTheCoefficient(double exponent)
    {
        var law = new InstantaneousAgeing(Thirty, exponent, Age.FromDays(90), Age.FromYears(12));
        var start = 60 / 365.25;
        var expected =
            GaussLegendre.Sixteen.IntegrateAdaptively(
                t => law.InstantaneousMm2PerYear(start, t),
                0,
                12 - start,
                1e-12
            )
            + GaussLegendre.Sixteen.IntegrateAdaptively(
                t => law.InstantaneousMm2PerYear(start, t),
                12 - start,
                30,
                1e-12
            );

        Assert.Equal(expected, law.ClockMm2(start, 30), 1e-10 * expected);
        // From 12 yr of age on D stays what it is.
        Assert.Equal(
            law.InstantaneousMm2PerYear(start, 12),
            law.InstantaneousMm2PerYear(start, 50)
        );
    }

    [Fact]
    public void ClockMm2_ExponentOneFromBirth_IsRefused() =>
        Assert.Throws<ArgumentException>(() =>
            new InstantaneousAgeing(Thirty, 1, Age.FromDays(28)).ClockMm2(0, 1)
        );

    [Fact]
    public void ClockMm2_Apparent_IsApparentTimesTime()
    {
        var law = new ApparentAgeing(Thirty, 0.4, Age.FromYears(20));

        Assert.Equal(600, law.ClockMm2(0, 20), 1e-10);
        Assert.Equal(18, law.InstantaneousMm2PerYear(0, 20), 1e-12);
        Assert.Equal(0, law.ClockMm2(0, 0));
        var faded = new ApparentAgeing(Thirty, 0.4, Age.FromYears(20), Age.FromYears(20));
        Assert.Equal(600 + (18 * 10), faded.ClockMm2(0, 30), 1e-10);
    }

    [Fact]
    public void Conversion_FromBirth_GoesBothWays()
    {
        var apparent = new ApparentAgeing(Thirty, 0.4, Age.FromDays(28));
        var instantaneous = apparent.ToInstantaneousFromBirth();

        Assert.Equal(18, instantaneous.Coefficient.SquareMillimetresPerYear, 1e-12);
        Assert.Equal(apparent.ClockMm2(0, 37), instantaneous.ClockMm2(0, 37), 1e-10);
        Assert.Equal(
            apparent.Coefficient.SquareMillimetresPerYear,
            instantaneous.ToApparentFromBirth().Coefficient.SquareMillimetresPerYear,
            1e-12
        );
    }

    [Theory]
    // Apparent D 0.03 in²/yr at 20 yr, Cs 15, threshold 2 lb/yd³, cover 2 in: the exponent's meaning moves the answer by a
    // factor of two to ten. Values computed from the closed form, printed to one decimal.
    [InlineData(0, false, 29.6)]
    [InlineData(0.4, false, 38.4)]
    [InlineData(0.4, true, 16.4)]
    [InlineData(0.6, false, 53.2)]
    [InlineData(0.6, true, 5.4)]
    public void Exponent_TakenForTheOtherLaw_MovesInitiation(
        double exponent,
        bool isMistaken,
        double expectedYears
    )
    {
        var coefficient = DiffusionCoefficient.FromSquareInchesPerYear(0.03);
        DiffusionLaw law = isMistaken
            ? new InstantaneousAgeing(coefficient, exponent, Age.FromYears(20))
            : new ApparentAgeing(coefficient, exponent, Age.FromYears(20));
        var time = DeckLife.Initiation.TimeToInitiation.UnderConstantSurface(
            ChlorideContent.FromPoundsPerCubicYard(15),
            default,
            law,
            default,
            Depth.FromInches(2),
            ChlorideContent.FromPoundsPerCubicYard(2),
            Age.FromYears(200)
        );

        var reached = Assert.IsType<DeckLife.Initiation.Reached>(time);
        Assert.Equal(expectedYears, reached.Age.Years, 0.05);
    }

    [Fact]
    public void WithoutAgeing_HoldsTheCoefficientOfTheMoment()
    {
        var law = new InstantaneousAgeing(Thirty, 0.5, Age.FromYears(1));
        Assert.Equal(15, law.WithoutAgeing(0, 4).Coefficient.SquareMillimetresPerYear, 1e-12);
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void ApparentAgeing_ExponentOutOfRange_Throws(double exponent) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new ApparentAgeing(Thirty, exponent, Age.FromDays(28))
        );
}
