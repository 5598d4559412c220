using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Reliability;
using DeckLife.Numerics.Sampling;
using Xunit;

namespace DeckLife.Numerics.Tests.Reliability;

public class ReliabilityTests
{
    private static RandomVector StandardNormal(int n) =>
        new(Enumerable.Range(0, n).Select(_ => new NormalDistribution(0, 1)));

    [Fact]
    public void Find_LinearLimitState_IsExactInOneStep()
    {
        // β = (7 - 2)/√2 and α = (-1, 1)/√2: Cornell's case in closed form.
        var state = new LimitState(
            new RandomVector([new NormalDistribution(7, 1), new NormalDistribution(2, 1)]),
            x => x[0] - x[1]
        );
        var point = FirstOrderReliability.Find(state);
        Assert.Equal(DesignPointStatus.Converged, point.Status);
        Assert.Equal(5 / Math.Sqrt(2), point.Beta, 1e-12);
        Assert.Equal(0.5, point.ImportanceFactors[0], 1e-12);
        Assert.Equal(4.5, point.Values[0], 1e-10);
    }

    [Fact]
    public void Find_FailedOrigin_HasNegativeIndex()
    {
        var state = new LimitState(StandardNormal(2), x => -1 - x[0]);
        var point = FirstOrderReliability.Find(state);
        Assert.Equal(-1, point.Beta, 1e-12);
        Assert.Equal(0.841344746068543, point.Probability, 1e-12);
        Assert.Equal(
            0.841344746068543,
            SecondOrderReliability.Correct(state, point).Breitung!.Value,
            1e-9
        );
    }

    [Fact]
    public void Find_CorrelatedNormals_MatchesTheClosedForm()
    {
        // β = 5/sqrt(1 + 1 - 2 · 0.5): the difference of two normals with correlation 0.5.
        var state = new LimitState(
            new RandomVector(
                [new NormalDistribution(7, 1), new NormalDistribution(2, 1)],
                GaussianCopula.FromScoreCorrelation(
                    new double[,]
                    {
                        { 1, 0.5 },
                        { 0.5, 1 },
                    }
                )
            ),
            x => x[0] - x[1]
        );
        Assert.Equal(5, FirstOrderReliability.Find(state).Beta, 1e-10);
    }

    [Fact]
    public void Find_WithoutGradientOrNumber_SaysSo()
    {
        Assert.Equal(
            DesignPointStatus.NoGradient,
            FirstOrderReliability.Find(new LimitState(StandardNormal(2), _ => 3)).Status
        );
        Assert.Equal(
            DesignPointStatus.NotFinite,
            FirstOrderReliability
                .Find(new LimitState(StandardNormal(1), x => double.NaN * x[0]))
                .Status
        );
        // Never fails: g has no zero.
        var none = FirstOrderReliability.Find(
            new LimitState(StandardNormal(1), x => 1 + Math.Exp(x[0]))
        );
        Assert.NotEqual(DesignPointStatus.Converged, none.Status);
        Assert.True(double.IsFinite(none.Beta));
    }

    [Fact]
    public void Correct_Sphere_HasItsCurvature()
    {
        // Failure outside a sphere of radius 3 moved to (1, 0, 0): nearest point (…), curvature -1/3 in both directions.
        var state = new LimitState(
            StandardNormal(3),
            x => 9 - ((x[0] + 1) * (x[0] + 1)) - (x[1] * x[1]) - (x[2] * x[2])
        );
        var point = FirstOrderReliability.Find(state, [1.0, 0.2, 0.1]);
        Assert.Equal(2, point.Beta, 1e-7);
        var result = SecondOrderReliability.Correct(state, point);
        Assert.Equal(-1.0 / 3, result.Curvatures[0], 1e-5);
        Assert.Equal(-1.0 / 3, result.Curvatures[1], 1e-5);
        Assert.Equal(0.0227501319481792 / (1 - (2.0 / 3)), result.Breitung!.Value, 1e-6);
    }

    [Fact]
    public void FindAll_TwoSides_FindsBothAndTheMixtureSeesBoth()
    {
        // Failure beyond ±2.5: P = 2 Φ(-2.5).
        var state = new LimitState(StandardNormal(2), x => 6.25 - (x[0] * x[0]));
        var found = FirstOrderReliability.FindAll(state, 3);
        Assert.Equal(2, found.Points.Length);
        Assert.All(found.Points, p => Assert.Equal(2.5, p.Beta, 1e-8));
        var estimate = DeckLife.Numerics.Reliability.ImportanceSampling.Estimate(
            state,
            found.Points,
            1 << 17,
            4
        );
        Assert.Equal(
            1,
            estimate.Value / (2 * 0.00620966532577613),
            4 * estimate.StandardError / estimate.Value
        );
        Assert.InRange(estimate.StandardError / estimate.Value, 1e-5, 0.01);
    }

    [Fact]
    public void FindAll_FailedOrigin_NearestPointComesFirst()
    {
        // Safe beyond 1 on one side and beyond -3 on the other: P = Φ(1) - Φ(-3).
        var state = new LimitState(StandardNormal(2), x => (x[0] - 1) * (x[0] + 3));
        var found = FirstOrderReliability.FindAll(state, 3).Points;
        Assert.Equal([-1.0, -3.0], found.Select(p => Math.Round(p.Beta, 7)));
        Assert.Empty(
            FirstOrderReliability.FindAll(new LimitState(StandardNormal(1), _ => -1), 3).Points
        );
        var estimate = DeckLife.Numerics.Reliability.ImportanceSampling.Estimate(
            state,
            found,
            1 << 14,
            4
        );
        Assert.InRange(
            NormalQuantile.Probability(1) - NormalQuantile.Probability(-3),
            estimate.Lower,
            estimate.Upper
        );
    }

    [Fact]
    public void FindAll_IslandOfFailure_OnlyItsNearSideIsADesignPoint()
    {
        // Failure from 2 to 2.5 only: its far side is reached from within, with an index of -2.5 whose Φ(2.5) would be no probability of anything.
        var state = new LimitState(StandardNormal(1), x => (x[0] - 2) * (x[0] - 2.5));
        var found = FirstOrderReliability.FindAll(state, 3).Points;
        Assert.Equal(2, Assert.Single(found).Beta, 1e-8);
        var farSide = FirstOrderReliability.Find(state, [3.0]);
        Assert.Equal(-2.5, farSide.Beta, 1e-8);
    }

    [Fact]
    public void Estimate_NoEvent_UpperLimitIsThatOfTheLargestWeight()
    {
        // A design point that is none: no draw around it or the origin fails, which says nothing sharper than 10 times the rule
        // of the logarithm, 1 - 0.025^(1/n).
        var elsewhere = FirstOrderReliability.Find(
            new LimitState(StandardNormal(1), x => 3 - x[0])
        );
        var never = new LimitState(StandardNormal(1), _ => 1);
        var sampled = DeckLife.Numerics.Reliability.ImportanceSampling.Estimate(
            never,
            [elsewhere],
            4096,
            1
        );
        Assert.Equal(0, sampled.Value);
        Assert.Equal(0, sampled.Lower);
        Assert.Equal(10 * (1 - Math.Pow(0.025, 1.0 / 4096)), sampled.Upper, 1e-12);
        var plain = DeckLife.Numerics.Reliability.ImportanceSampling.Estimate(never, [], 4096, 1);
        Assert.Equal(1 - Math.Pow(0.025, 1.0 / 4096), plain.Upper, 1e-12);
        var always = DeckLife.Numerics.Reliability.ImportanceSampling.Estimate(
            new LimitState(StandardNormal(1), _ => -1),
            [],
            4096,
            1
        );
        Assert.Equal(1, always.Upper);
        Assert.Equal(Math.Pow(0.025, 1.0 / 4096), always.Lower, 1e-12);
    }

    [Fact]
    public void Estimate_AnyNumberOfThreads_IsTheSameBytes()
    {
        var state = new LimitState(StandardNormal(3), x => 3 - x[0] - (0.2 * x[1] * x[2]));
        var points = FirstOrderReliability.FindAll(state, 1).Points;
        var found = new[] { 1, 2, 8 }
            .Select(t =>
                DeckLife.Numerics.Reliability.ImportanceSampling.Estimate(
                    state,
                    points,
                    50_000,
                    9,
                    t
                )
            )
            .Distinct()
            .ToArray();
        Assert.Single(found);
        Assert.NotEqual(
            found[0].Value,
            DeckLife
                .Numerics.Reliability.ImportanceSampling.Estimate(state, points, 50_000, 10)
                .Value
        );
    }

    [Fact]
    public void ClopperPearson_Ends_AreTheRuleOfTheLogarithm()
    {
        // No event: upper limit 1 - 0.025^(1/n), in closed form.
        var none = BinomialLimits.ClopperPearson(0, 50);
        Assert.Equal(0, none.Lower);
        Assert.Equal(1 - Math.Pow(0.025, 1.0 / 50), none.Upper, 1e-12);
        var all = BinomialLimits.ClopperPearson(50, 50);
        Assert.Equal(1, all.Upper);
        Assert.Equal(Math.Pow(0.025, 1.0 / 50), all.Lower, 1e-12);
        Assert.Throws<ArgumentOutOfRangeException>(() => BinomialLimits.ClopperPearson(3, 2));
    }
}
