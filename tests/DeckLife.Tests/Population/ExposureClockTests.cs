using DeckLife.Population;
using Xunit;

namespace DeckLife.Tests.Population;

public class ExposureClockTests
{
    [Theory]
    [InlineData(25, 0.5, 0.3, 60)]
    [InlineData(25, 0.5, 0.3, 4)]
    [InlineData(12, 3, 0.75, 40)]
    public void EffectiveYears_InstantaneousLaw_IsItsIntegralOverThatAtTheSurvey(
        double survey,
        double firstSalt,
        double exponent,
        double years
    )
    {
        // age^−m by Simpson's rule: over the exposure asked for, divided by that over the exposure at the survey.
        double Integral(double until)
        {
            const int Steps = 2000;
            var h = until / Steps;
            double At(int i) => Math.Pow(firstSalt + (i * h), -exponent);
            return h
                / 3
                * Enumerable
                    .Range(0, Steps + 1)
                    .Sum(i =>
                        At(i)
                        * (
                            i is 0 or Steps ? 1
                            : i % 2 == 1 ? 4
                            : 2
                        )
                    );
        }

        var clock = new ExposureClock(survey, firstSalt, exponent);

        Assert.Equal(
            survey * Integral(years) / Integral(survey),
            clock.EffectiveYears(years),
            1e-6 * years
        );
        // The apparent coefficient is a mean over the exposure; the instantaneous one is what the clock goes on with.
        var rate =
            (clock.EffectiveYears(survey + 1e-4) - clock.EffectiveYears(survey - 1e-4)) / 2e-4;
        Assert.Equal(rate, clock.InstantaneousAtSurvey, 1e-7);
        Assert.Equal(survey, clock.EffectiveYears(survey), 1e-12);
        Assert.Equal(survey + firstSalt, clock.ConcreteAgeAtSurveyYr);
    }

    [Fact]
    public void InstantaneousAtSurvey_SaltFromBirth_IsOneLessTheExponent() =>
        Assert.Equal(0.6, new ExposureClock(30, 0, 0.4).InstantaneousAtSurvey, 1e-12);

    [Fact]
    public void EffectiveYears_ConstantCoefficient_IsTheExposureToTheBit()
    {
        var clock = new ExposureClock(30, 2);

        Assert.Equal(17.3, clock.EffectiveYears(17.3));
        Assert.Equal(1, clock.InstantaneousAtSurvey);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.4)]
    public void EffectiveYears_BeforeTheFirstSalt_StandsAtZero(double exponent)
    {
        var clock = new ExposureClock(30, 2, exponent);

        Assert.Equal(0, clock.EffectiveYears(0));
        Assert.Equal(0, clock.EffectiveYears(-1));
    }

    [Theory]
    [InlineData(0, 1, 0.3, "exposureAtSurveyYr")]
    [InlineData(double.NaN, 1, 0.3, "exposureAtSurveyYr")]
    [InlineData(double.PositiveInfinity, 1, 0.3, "exposureAtSurveyYr")]
    [InlineData(10, -0.1, 0.3, "ageAtFirstSaltYr")]
    [InlineData(10, double.PositiveInfinity, 0.3, "ageAtFirstSaltYr")]
    [InlineData(10, 1, -0.1, "ageingExponent")]
    [InlineData(10, 1, 1, "ageingExponent")]
    [InlineData(10, 1, double.NaN, "ageingExponent")]
    public void Constructor_ValueOutsideItsRange_IsNamed(
        double survey,
        double firstSalt,
        double exponent,
        string name
    ) =>
        Assert.Equal(
            name,
            Assert
                .Throws<ArgumentOutOfRangeException>(() =>
                    new ExposureClock(survey, firstSalt, exponent)
                )
                .ParamName
        );
}
