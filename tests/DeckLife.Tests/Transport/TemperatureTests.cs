using System.Collections.Immutable;
using DeckLife.Numerics.Quadrature;
using DeckLife.Quantities;
using DeckLife.Transport;
using Xunit;

namespace DeckLife.Tests.Transport;

public class TemperatureTests
{
    private static readonly Activation Bulletin34 = new(4600, Temperature.FromCelsius(20));
    private static readonly SinusoidalTemperature Cycle = new(
        Temperature.FromCelsius(10),
        14,
        Age.FromYears(0.3)
    );

    [Theory]
    [InlineData(0)]
    [InlineData(0.5)]
    public void LayerClock_SinusoidAndAgeing_IsTheIntegralOfBoth(double exponent)
    {
        var layer = Layer(
            new InstantaneousAgeing(D(30), exponent, Age.FromDays(28)),
            Age.FromDays(7)
        );
        var clock = new LayerClock(layer, 3.21, 30, Cycle);
        double Rate(double t) =>
            layer.Diffusion.InstantaneousMm2PerYear(7 / 365.25, t - 3.21)
            * Bulletin34.Factor(Cycle.CelsiusAt(t));

        foreach (var time in new[] { 3.3, 4.0, 5.005, 17.77, 30 })
        {
            double expected = 0;
            for (var from = 3.21; from < time; from += 0.25)
            {
                expected += GaussLegendre.Sixteen.IntegrateAdaptively(
                    Rate,
                    from,
                    Math.Min(time, from + 0.25),
                    1e-12
                );
            }

            Assert.Equal(expected, clock.At(time), 2e-6 * expected);
        }
    }

    [Fact]
    public void LayerClock_Monthly_HoldsEachMonthsFactor()
    {
        var months = Enumerable
            .Range(0, 12)
            .Select(m => Temperature.FromCelsius(m))
            .ToImmutableArray();
        var monthly = new MonthlyTemperature(months, 10);
        var clock = new LayerClock(Layer(new ConstantDiffusion(D(12)), default), 0, 5, monthly);

        // Time 0 is the beginning of October (month 10, 9 °C here); January follows after three months.
        Assert.Equal(9, monthly.CelsiusAt(0));
        Assert.Equal(0, monthly.CelsiusAt(0.25));
        Assert.Equal(11, monthly.CelsiusAt(0.25 - 1e-6));
        Assert.Equal(Bulletin34.Factor(9), clock.At(1.0 / 12), 1e-12);
        var year = months.Sum(m => Bulletin34.Factor(m.Celsius));
        Assert.Equal(3 * year, clock.At(3), 1e-10 * year);
    }

    [Fact]
    public void EffectiveFactor_IsAboveTheFactorOfTheMeanTemperature()
    {
        // Jensen: k is convex in T, so its mean exceeds k of the mean; with ±14 K by about a quarter.
        var ratio = Cycle.EffectiveFactor(Bulletin34) / Bulletin34.Factor(10);
        Assert.InRange(ratio, 1.1, 1.3);
        Assert.Equal(
            Bulletin34.Factor(10),
            new ConstantTemperature(Temperature.FromCelsius(10)).EffectiveFactor(Bulletin34),
            1e-14
        );
    }

    [Fact]
    public void Solve_AnnualCycleAgainstItsEffectiveConstant_DifferenceIsReported()
    {
        // No ageing: the clocks agree at whole years, so contents do to the tolerance; half a year later they do not.
        // The mean temperature alone is far off: it lacks the convexity of k.
        var layer = Layer(new ConstantDiffusion(D(40)), default);
        var factor = Cycle.EffectiveFactor(Bulletin34);
        IngressResult Solve(ConcreteLayer concrete, TemperatureHistory? temperature) =>
            SectionSolver.Solve(
                new Section
                {
                    Layers = [concrete],
                    Surface = new ConstantSurface(C(6)),
                    Bottom = BottomFace.Sealed,
                    Temperature = temperature,
                },
                [
                    new IngressQuery(Age.FromYears(20), Depth.FromMillimetres(50)),
                    new IngressQuery(Age.FromYears(20.5), Depth.FromMillimetres(50)),
                ]
            );
        double[] Of(IngressResult r) => [.. r.Rows.Select(x => x.Chloride.KilogramsPerCubicMetre)];
        var cycle = Of(Solve(layer, Cycle));
        var constant = Of(
            Solve(
                layer with
                {
                    Diffusion = new ConstantDiffusion(D(40 * factor)),
                    Activation = null,
                },
                null
            )
        );
        var mean = Of(Solve(layer, new ConstantTemperature(Temperature.FromCelsius(10))));

        Assert.Equal(constant[0], cycle[0], 6 * 4e-4);
        Assert.True(Math.Abs(constant[1] - cycle[1]) < 6 * 5e-3);
        Assert.True(Math.Abs(mean[0] - cycle[0]) > 6 * 1e-2);
    }

    private static ConcreteLayer Layer(DiffusionLaw law, Age age) =>
        new()
        {
            Name = "deck",
            Thickness = Depth.FromMillimetres(200),
            Diffusion = law,
            AgeAtStart = age,
            InitialChloride = default,
            Activation = Bulletin34,
        };

    private static DiffusionCoefficient D(double value) =>
        DiffusionCoefficient.FromSquareMillimetresPerYear(value);

    private static ChlorideContent C(double value) =>
        ChlorideContent.FromKilogramsPerCubicMetre(value);
}
