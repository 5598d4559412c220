using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Quadrature;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.SpecialFunctions;
using Xunit;

namespace DeckLife.Numerics.Tests.Kernels;

public class SeasonalClockTests
{
    private static readonly double[] Times = [0.1, 0.5, 1, 1.6, 3, 7.25, 15.5, 25, 40.1, 60];

    public static TheoryData<string> Kinds =>
        [
            "under an overlay",
            "near the interface",
            "in the overlay",
            "one layer",
            "sealed",
            "growing",
        ];

    // The scalar solver takes the clocks as they are; here they are integrated by another rule on other pieces.
    [Theory]
    [MemberData(nameof(Kinds))]
    public void Solve_RandomYearlyWaves_EqualTheScalarSolverWithinTheEstimates(string kind)
    {
        const int count = 24;
        var (samples, wave) = Waves(kind, count, 11, isUneven: false);
        Compare(samples, wave, new LayeredOptions());
    }

    [Fact]
    public void Solve_LayersThatFeelTheSeasonsUnlike_EqualTheScalarSolverWithinTheEstimates()
    {
        var (samples, wave) = Waves("near the interface", 8, 12, isUneven: true);
        Compare(samples, wave, new LayeredOptions { MaximumStep = 1.0 / 6 });
    }

    [Fact]
    public void Solve_ConstantFactor_IsThatFactorOnTheCoefficient()
    {
        var plain = RandomSections.Draw("under an overlay", 50, 4);
        var factored = RandomSections.Draw("under an overlay", 50, 4);
        var half = new SeasonalFactor(_ => 0.5);
        foreach (var layer in factored.Layers)
        {
            layer.Season = half;
        }

        foreach (var layer in plain.Layers)
        {
            for (var i = 0; i < layer.Count; i++)
            {
                layer.DiffusionMm2PerYr[i] *= 0.5;
            }
        }

        var expected = new BatchedOverlaySolver().Solve(plain, Times);
        var found = new BatchedOverlaySolver().Solve(factored, Times);
        for (var i = 0; i < expected.Content.Length; i++)
        {
            // 1e-7 of the clock, and what the contents make of it.
            Assert.Equal(expected.Content[i], found.Content[i], 1e-6);
        }
    }

    [Fact]
    public void Solve_SeasonInPhase_ShiftsWithinTheYearAndCostsNoSteps()
    {
        var samples = RandomSections.Draw("one layer", 20, 5);
        var plain = new BatchedOverlaySolver().Solve(samples, Times);
        samples.Layers[0].Season = new SeasonalFactor(t => 1 + (0.6 * Math.Cos(2 * Math.PI * t)));
        var seasonal = new BatchedOverlaySolver().Solve(samples, Times);
        Assert.NotEqual(plain.Content, seasonal.Content);
        // Some samples change their level either way; all in all the work is the same.
        Assert.InRange(
            seasonal.Level.Sum(l => l),
            plain.Level.Sum(l => l) - 4,
            plain.Level.Sum(l => l) + 4
        );
    }

    [Fact]
    public void EvenTime_AndItsInverse_AgreeAndRunWithTheIntegral()
    {
        static double Factor(double t) => Math.Exp(0.8 * Math.Cos(2 * Math.PI * (t - 0.55)));
        var clock = new SeasonalClock(new SeasonalFactor(Factor), 3.2, 50, 0.02, 25);
        foreach (var time in (double[])[0, 0.004, 0.3, 7.77, 24.98, 33.3, 50])
        {
            var even = clock.EvenTime(time);
            Assert.Equal(time, clock.TimeAt(even), 1e-10);
            var share = Integral(t => Factor(3.2 + t), time) / Integral(t => Factor(3.2 + t), 50);
            Assert.Equal(50 * share, even, 1e-9);
        }
    }

    [Fact]
    public void Solve_SeasonWithOwnAges_IsRefused()
    {
        var samples = RandomSections.Draw("one layer", 2, 5);
        samples.Layers[0].Season = new SeasonalFactor(_ => 1);
        samples.Layers[0].OwnAgesAtStartYr = [30, 31];
        var error = Assert.Throws<ArgumentException>(() =>
            new BatchedOverlaySolver().Solve(samples, Times)
        );
        Assert.Contains("one age at the start", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.3)]
    [InlineData(0.61)]
    [InlineData(0.99)]
    public void Ratios_AnyExponent_EqualQuadrature(double exponent)
    {
        static double Factor(double t) => Math.Exp(0.8 * Math.Cos(2 * Math.PI * (t - 0.55)));
        var clock = new SeasonalClock(new SeasonalFactor(Factor), 3.2, 50, 0.02, 25);
        double[] times = [0, 0.01, 0.3, 1, 4.7, 24.98, 30, 50];
        var ratios = clock.Ratios(times);
        var weights = new double[SeasonalClock.Exponents];
        SeasonalClock.Weigh(exponent, weights, 1);
        double Rate(double t) => Math.Pow(Math.Min(0.02 + t, 25), -exponent);
        for (var k = 1; k < times.Length; k++)
        {
            var found = 0.0;
            for (var j = 0; j < weights.Length; j++)
            {
                found += weights[j] * ratios[(k * weights.Length) + j];
            }

            var with = Integral(t => Rate(t) * Factor(3.2 + t), times[k]);
            Assert.Equal(with / Integral(Rate, times[k]), found, 1e-7);
        }
    }

    // By pieces that grow from a day on, none longer than a fortnight, with an end where D becomes constant.
    private static double Integral(Func<double, double> rate, double to)
    {
        var sum = 0.0;
        var from = 0.0;
        while (from < to)
        {
            var next = Math.Min(to, from + Math.Min(0.04, (0.5 * from) + 0.002));
            next = from < 24.98 && next > 24.98 ? 24.98 : next;
            sum += GaussLegendre.Sixteen.Integrate(rate, from, next);
            from = next;
        }

        return sum;
    }

    private static (SectionSamples Samples, Func<double, double>[] Waves) Waves(
        string kind,
        int count,
        ulong seed,
        bool isUneven
    )
    {
        var samples = RandomSections.Draw(kind, count, seed);
        var random = new RandomStream(seed, kind + " waves");
        // Arrhenius' form: some 3000 to 6000 K, yearly means of 5 to 20 °C, half ranges up to 15 K; about 20 °C.
        var (mean, range, warmest) = (
            278 + (15 * random.NextUniform()),
            15 * random.NextUniform(),
            random.NextUniform()
        );
        Func<double, double> Wave(double kelvin) =>
            t =>
                Math.Exp(
                    kelvin
                        * (
                            (1 / 293.0)
                            - (1 / (mean + (range * Math.Cos(2 * Math.PI * (t - warmest)))))
                        )
                );
        var first = 3000 + (3000 * random.NextUniform());
        var waves = new Func<double, double>[samples.Layers.Count];
        var shared = new SeasonalFactor(Wave(first));
        for (var m = 0; m < waves.Length; m++)
        {
            samples.Layers[m].Season =
                isUneven && m > 0 ? new SeasonalFactor(Wave(0.5 * first)) : shared;
            waves[m] = samples.Layers[m].Season!.At;
        }

        return (samples, waves);
    }

    private static void Compare(
        SectionSamples samples,
        Func<double, double>[] waves,
        LayeredOptions options
    )
    {
        var found = new BatchedOverlaySolver().Solve(samples, Times);
        for (var i = 0; i < samples.Count; i++)
        {
            var layers = samples.Layers.Select((layer, m) => Scalar(layer, i, waves[m])).ToArray();
            var solution = LayeredSolver.Solve(
                new LayeredProblem
                {
                    Layers = layers,
                    Surface = samples.Surface.IsSealed
                        ? BoundaryCondition.Sealed
                        : Surface(samples, i),
                },
                [.. Times.Select(t => new LayeredQuery(t, samples.PointDepthMm[i]))],
                options
            );
            for (var k = 0; k < Times.Length; k++)
            {
                var error = Math.Abs(found.ContentAt(k)[i] - solution.Contents[k]);
                Assert.True(
                    error <= found.ErrorEstimate[i] + solution.ErrorEstimate,
                    FormattableString.Invariant(
                        $"sample {i} at {Times[k]} yr: {error:E2} apart, estimates {found.ErrorEstimate[i]:E2} and {solution.ErrorEstimate:E2}"
                    )
                );
            }
        }
    }

    private static BoundaryCondition Surface(SectionSamples samples, int i) =>
        BoundaryCondition
            .Varying(t => samples.SurfaceContent[i] * samples.Surface.FactorAt(t))
            .With([samples.Surface.PlateauYr], [], 0);

    private static DiffusionLayer Scalar(LayerSamples layer, int i, Func<double, double> wave)
    {
        var exponent = layer.AgeingExponent[i];
        double Rate(double t) =>
            layer.DiffusionMm2PerYr[i]
            * Math.Pow(
                layer.ReferenceAgeYr / Math.Min(layer.AgeAtStartYr + t, layer.ConstantAfterYr),
                exponent
            )
            * wave(t);
        // Cumulative over pieces that grow from a day to a fortnight, one of them ending where D becomes constant.
        var ends = new List<double> { 0 };
        var table = new List<double> { 0 };
        var cap = layer.ConstantAfterYr - layer.AgeAtStartYr;
        while (ends[^1] < 61)
        {
            var from = ends[^1];
            var next = from + Math.Min(0.04, (0.5 * from) + 0.002);
            next = from < cap && next > cap ? cap : next;
            table.Add(table[^1] + GaussLegendre.Eight.Integrate(Rate, from, next));
            ends.Add(next);
        }

        double Clock(double t)
        {
            var at = ends.BinarySearch(t);
            at = at >= 0 ? at : ~at - 1;
            return table[at]
                + (t > ends[at] ? GaussLegendre.Eight.Integrate(Rate, ends[at], t) : 0);
        }

        var residual = layer.Residual;
        return new DiffusionLayer(
            layer.ThicknessMm[i],
            Clock,
            d =>
                residual is null
                    ? layer.Background[i]
                    : layer.Background[i]
                        + (
                            (residual.SurfaceContent[i] - layer.Background[i])
                            * ErrorFunction.Erfc(
                                (d + residual.RemovedMm[i]) / (2 * Math.Sqrt(residual.SpreadMm2[i]))
                            )
                        )
        )
        {
            IsUniform = residual is null,
        };
    }
}
