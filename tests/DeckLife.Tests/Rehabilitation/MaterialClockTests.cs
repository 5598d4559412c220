using DeckLife.Population;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using Xunit;

namespace DeckLife.Tests.Rehabilitation;

public class MaterialClockTests
{
    [Theory]
    [InlineData(0.2, null, 30)]
    [InlineData(0.6, null, 7)]
    [InlineData(0.6, 10.0, 7)] // still ageing
    [InlineData(0.6, 10.0, 30)] // constant for the last two thirds
    [InlineData(0.6, 0.05, 30)] // constant before the first salt
    [InlineData(1, null, 30)]
    [InlineData(1, 10.0, 30)]
    public void EffectiveYears_AnyLaw_IsTheIntegralOfTheFactor(
        double exponent,
        double? constantAfterYr,
        double years
    )
    {
        var material = Material(exponent, constantAfterYr);
        // The factor itself, (tref/age)^m with the age held, by the midpoint rule over the logarithm of the age.
        const int Steps = 20_000;
        var (from, to) = (0.2, 0.2 + years);
        var step = Math.Log(to / from) / Steps;
        var expected = Enumerable
            .Range(0, Steps)
            .Select(i => from * Math.Exp((i + 0.5) * step))
            .Sum(age =>
                Math.Pow(0.25 / Math.Min(age, constantAfterYr ?? double.PositiveInfinity), exponent)
                * age
                * step
            );

        // The kink where ageing ends costs the rule one step at most.
        Assert.Equal(expected, MaterialClock.EffectiveYears(material, years), 1e-5 * expected);
    }

    [Theory]
    [InlineData(0, 12, 12)] // D never changes: the years themselves
    [InlineData(0.4, 0, 0)]
    [InlineData(0.4, -3, 0)] // not yet exposed
    [InlineData(0, -3, 0)]
    public void EffectiveYears_NoAgeingOrNoExposure_YearsThemselvesOrNone(
        double exponent,
        double years,
        double expected
    ) => Assert.Equal(expected, MaterialClock.EffectiveYears(Material(exponent, 15), years));

    [Fact]
    public void EffectiveYears_ConstantFromBirth_StaysFinite()
    {
        var years = MaterialClock.EffectiveYears(Material(0.4, 0), 10);

        Assert.True(double.IsFinite(years) && years > 0, $"{years}");
    }

    private static OverlayMaterial Material(double exponent, double? constantAfterYr) =>
        new()
        {
            Name = "invented",
            DiffusionCoefficient = UncertainValue.Exactly(10),
            AgeingExponent = exponent,
            ReferenceAge = Age.FromYears(0.25),
            AgeAtExposure = Age.FromYears(0.2),
            ConstantAfter = constantAfterYr is { } after ? Age.FromYears(after) : null,
            Source = "invented",
        };
}
