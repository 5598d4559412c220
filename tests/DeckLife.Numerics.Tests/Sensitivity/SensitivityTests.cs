using DeckLife.Numerics.DesignOfExperiments;
using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Sensitivity;
using Xunit;

namespace DeckLife.Numerics.Tests.Sensitivity;

public class SensitivityTests
{
    private static readonly RandomVector Cube = new(
        Enumerable.Range(0, 3).Select(_ => new UniformDistribution(-Math.PI, Math.PI))
    );

    private static readonly BatchFunction Ishigami = (count, x, y) =>
    {
        for (var i = 0; i < count; i++)
        {
            var s = Math.Sin(x[1][i]);
            y[i] =
                Math.Sin(x[0][i]) + (7 * s * s) + (0.1 * Math.Pow(x[2][i], 4) * Math.Sin(x[0][i]));
        }
    };

    [Theory]
    [InlineData(PointSource.Lattice)]
    [InlineData(PointSource.LatinHypercube)]
    [InlineData(PointSource.Random)]
    public void Sobol_Ishigami_LimitsHoldTheExactShares(PointSource source)
    {
        var plan = new SobolPlan(Cube, 4096, 3, source);
        var result = plan.Finish(plan.Evaluate(Ishigami));
        double[] first = [0.313905191147811, 0.442411144790041, 0];
        double[] total = [0.557588855209959, 0.442411144790041, 0.243683664062148];
        for (var i = 0; i < 3; i++)
        {
            Assert.InRange(
                first[i],
                result.Groups[i].FirstOrder.Lower,
                result.Groups[i].FirstOrder.Upper
            );
            Assert.InRange(total[i], result.Groups[i].Total.Lower, result.Groups[i].Total.Upper);
        }

        Assert.False(result.Groups[2].FirstOrder.IsToldApartFromZero);
        Assert.Equal("not told apart from 0", result.Groups[2].FirstOrder.Verdict);
        Assert.True(result.Groups[2].Total.IsToldApartFromZero);
    }

    [Fact]
    public void Sobol_AnyNumberOfThreads_IsTheSameBytes()
    {
        var texts = new[] { 1, 2, 8 }.Select(t =>
        {
            var plan = new SobolPlan(Cube, 512, 3);
            var result = plan.Finish(plan.Evaluate(Ishigami, t), 200, t);
            return string.Join(" ", result.Groups.Select(g => $"{g.FirstOrder} {g.Total}"));
        });
        Assert.Single(texts.Distinct());
    }

    [Fact]
    public void Finish_ValuesMissingInABlock_Refused()
    {
        var plan = new SobolPlan(Cube, 512, 3);
        var values = plan.Evaluate(Ishigami);
        values[1] = values[1][..^5];
        var problem = Assert.Throws<ArgumentException>(() => plan.Finish(values));
        // 512 points, each at both samples and 3 mixtures.
        Assert.Contains(
            "2560 values are needed, 2555 are given",
            problem.Message,
            StringComparison.Ordinal
        );
        Assert.Throws<ArgumentException>(() => plan.Finish(values[..1]));
    }

    [Fact]
    public void Sobol_ConstantOutput_HasNoVariance()
    {
        var plan = new SobolPlan(Cube, 64, 3);
        var result = plan.Finish(plan.Evaluate((n, _, y) => Array.Fill(y, 4.2, 0, n)));
        Assert.True(result.HasNoVariance);
        Assert.Empty(result.Groups);
        Assert.Equal(4.2, result.Mean, 1e-14);
        var shapley = new ShapleyPlan(Cube, 64, 3);
        Assert.True(
            shapley.Finish(shapley.Evaluate((n, _, y) => Array.Fill(y, 4.2, 0, n))).HasNoVariance
        );
        var morris = new MorrisPlan(Cube, MorrisDesign.Radial, 8, 1);
        Assert.True(
            morris.Finish(morris.Evaluate((n, _, y) => Array.Fill(y, 4.2, 0, n))).HasNoVariance
        );
        var swing = new SwingPlan(Cube);
        Assert.True(
            swing.Finish(swing.Evaluate((n, _, y) => Array.Fill(y, 4.2, 0, n))).HasNoVariance
        );
    }

    [Fact]
    public void Sobol_InertInput_IsZeroAndNotToldApart()
    {
        var plan = new SobolPlan(Cube, 256, 3);
        var result = plan.Finish(plan.Evaluate((n, x, y) => x[0].AsSpan(0, n).CopyTo(y)));
        Assert.Equal(0, result.Groups[1].Total.Value);
        Assert.False(result.Groups[1].Total.IsToldApartFromZero);
        Assert.Equal(1, result.Groups[0].Total.Value, 0.02);
    }

    [Fact]
    public void Sobol_DependentInputsApart_AreRefused_TogetherGiveTheClosedForm()
    {
        var correlation = new double[,]
        {
            { 1, 0.5, 0 },
            { 0.5, 1, 0 },
            { 0, 0, 1 },
        };
        var vector = new RandomVector(
            Enumerable.Range(0, 3).Select(_ => new NormalDistribution(0, 1)),
            GaussianCopula.FromScoreCorrelation(correlation)
        );
        Assert.Throws<ArgumentException>(() => new SobolPlan(vector, 64, 1));
        Assert.Throws<ArgumentException>(() => new MorrisPlan(vector, MorrisDesign.Radial, 8, 1));
        var plan = new SobolPlan(
            vector,
            4096,
            1,
            groups:
            [
                [0, 1],
                [2],
            ]
        );
        var result = plan.Finish(plan.Evaluate(Sum), 200);
        // Var(x1 + x2) = 3 of 4.
        Assert.Equal(0.75, result.Groups[0].FirstOrder.Value, 0.02);
        Assert.Equal(0.25, result.Groups[1].Total.Value, 0.01);
    }

    [Fact]
    public void Shapley_LinearDependent_MatchesTheClosedForm()
    {
        // Y = x1 + x2 + x3, x1 and x2 with correlation ρ: V = 3 + 2ρ; Sh = (1 + ρ)/V, (1 + ρ)/V, 1/V (Owen & Prieur 2017, by symmetry).
        const double Rho = 0.6;
        var vector = new RandomVector(
            Enumerable.Range(0, 3).Select(_ => new NormalDistribution(0, 1)),
            GaussianCopula.FromScoreCorrelation(
                new double[,]
                {
                    { 1, Rho, 0 },
                    { Rho, 1, 0 },
                    { 0, 0, 1 },
                }
            )
        );
        var plan = new ShapleyPlan(vector, 4096, 1);
        var result = plan.Finish(plan.Evaluate(Sum), 200);
        Assert.Equal(1.6 / 4.2, result.Effects[0].Value, 0.01);
        Assert.Equal(1 / 4.2, result.Effects[2].Value, 0.01);
        Assert.Equal(1, result.Effects.Sum(e => e.Value), 1e-12);
        Assert.All(result.Effects, e => Assert.True(e.IsToldApartFromZero));
    }

    // Unequal weights: Y = x1 + 2 x2, σ² = 1 + 4ρ + 4; σ² Sh1 = 1 - ρ²/2 + 2ρ + 4ρ²/2 (Owen & Prieur 2017, two inputs).
    [Fact]
    public void Shapley_TwoUnequalDependentInputs_MatchTheClosedForm()
    {
        const double Rho = -0.4;
        var vector = new RandomVector(
            [new NormalDistribution(0, 1), new NormalDistribution(0, 1)],
            GaussianCopula.FromScoreCorrelation(
                new double[,]
                {
                    { 1, Rho },
                    { Rho, 1 },
                }
            )
        );
        var plan = new ShapleyPlan(vector, 8192, 1);
        var result = plan.Finish(
            plan.Evaluate(
                (n, x, y) =>
                {
                    for (var i = 0; i < n; i++)
                    {
                        y[i] = x[0][i] + (2 * x[1][i]);
                    }
                }
            ),
            100
        );
        var expected = (1 - (Rho * Rho / 2) + (2 * Rho) + (2 * Rho * Rho)) / (5 + (4 * Rho));
        Assert.Equal(expected, result.Effects[0].Value, 0.01);
    }

    [Theory]
    [InlineData(MorrisDesign.Trajectories)]
    [InlineData(MorrisDesign.Radial)]
    public void Morris_LinearFunction_EffectsAreItsSlopes(MorrisDesign design)
    {
        var vector = new RandomVector([
            new UniformDistribution(0, 1),
            new UniformDistribution(0, 2),
            new UniformDistribution(0, 1),
        ]);
        var plan = new MorrisPlan(vector, design, 10, 7, edgeProbability: 0);
        var result = plan.Finish(plan.Evaluate(Sum));
        Assert.Equal([1, 2, 1], result.Inputs.Select(e => Math.Round(e.MeanAbsolute, 9)));
        Assert.All(result.Inputs, e => Assert.Equal(0, e.StandardDeviation, 1e-9));
    }

    [Fact]
    public void Morris_UnboundedInputsToTheirEnds_AreRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new MorrisPlan(
                new RandomVector([new NormalDistribution(0, 1)]),
                MorrisDesign.Radial,
                8,
                1,
                edgeProbability: 0
            )
        );

    [Fact]
    public void Swings_AreOrderedByWidth()
    {
        var vector = new RandomVector([
            new UniformDistribution(0, 1),
            new UniformDistribution(0, 3),
            new UniformDistribution(0, 2),
        ]);
        var plan = new SwingPlan(vector);
        var result = plan.Finish(plan.Evaluate(Sum));
        Assert.Equal([1, 2, 0], result.Swings.Select(s => s.Input));
        Assert.Equal(2.4, result.Swings[0].Change, 1e-12);
        Assert.Equal(3, result.AtMedians, 1e-12);
    }

    [Fact]
    public void Finish_ValueNotFinite_IsRefused()
    {
        var plan = new SwingPlan(Cube);
        Assert.Throws<ArgumentException>(() =>
            plan.Finish(plan.Evaluate((n, _, y) => Array.Fill(y, double.NaN, 0, n)))
        );
    }

    [Theory]
    [InlineData(1000, 3)]
    [InlineData(1 << 19, 3)]
    [InlineData(1024, 33)]
    public void Lattice_LengthOrWidthThatItCannotGive_IsRefused(int count, int dimensions) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            UnitPointSet.Make(PointSource.Lattice, count, dimensions, 1, "test")
        );

    [Fact]
    public void QuantileCounts_AnyOrder_AreNearTheOrderStatistics()
    {
        var values = new double[100_000];
        new RandomStream(2, "counts").FillNormal(values);
        values[0] = double.PositiveInfinity;
        var counts = new QuantileCounts();
        counts.Add(values);
        var halves = new QuantileCounts();
        halves.Add(values.AsSpan(50_000));
        halves.Add(values.AsSpan(0, 50_000));
        Array.Sort(values);
        foreach (var p in new[] { 0.001, 0.05, 0.4, 0.9, 0.999 })
        {
            // Between the two order statistics of this rank, give or take a bin.
            var k = (int)(p * values.Length);
            var bin = 1.3e-4 * Math.Abs(values[k]);
            Assert.InRange(counts.Percentile(p)!.Value, values[k - 1] - bin, values[k] + bin);
            Assert.Equal(counts.Percentile(p), halves.Percentile(p));
        }

        Assert.Equal(double.PositiveInfinity, counts.Percentile(1));
        Assert.Null(new QuantileCounts().Percentile(0.5));
    }

    [Fact]
    public void RunningMoments_Joined_AreThoseOfTheWhole()
    {
        var values = new double[1001];
        new RandomStream(2, "moments").FillNormal(values);
        var whole = RunningMoments.Of(values);
        var joined = RunningMoments
            .None.With(RunningMoments.Of(values.AsSpan(0, 300)))
            .With(RunningMoments.Of(values.AsSpan(300)));
        Assert.Equal(whole.Mean, joined.Mean, 1e-14);
        Assert.Equal(whole.Variance, joined.Variance, 1e-13);
        Assert.Equal(whole.Least, joined.Least);
        Assert.Equal(1001, joined.Count);
    }

    private static void Sum(int n, double[][] x, double[] y)
    {
        for (var i = 0; i < n; i++)
        {
            y[i] = x[0][i] + x[1][i] + x[2][i];
        }
    }
}
