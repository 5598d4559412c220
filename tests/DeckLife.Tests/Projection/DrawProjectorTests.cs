using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Rehabilitation;
using Xunit;

namespace DeckLife.Tests.Projection;

public class DrawProjectorTests
{
    private static readonly ExposureClock Clock = new(25);

    [Theory]
    [InlineData(0)]
    [InlineData(5)]
    [InlineData(6.3)]
    [InlineData(40)]
    public void Follow_OnePropagationPeriod_UntreatedDamageIsTheAreaOwnBitForBit(double period)
    {
        var (draw, points) = Draw(period);
        var area = new UntreatedArea(
            points,
            draw.Population.Threshold,
            draw.Population.BackgroundKgPerM3,
            Clock
        );

        var followed = Follow(draw, points, ExampleDecks.Nothing);

        var grid = followed.Grid;
        for (var j = 0; j < grid.TimesYr.Length; j++)
        {
            Assert.Equal(area.InitiatedFraction(25 + grid.TimesYr[j]), followed.Initiated[j]);
            Assert.Equal(area.DamagedFraction(25 + grid.TimesYr[j]), followed.Damaged[j]);
        }

        Assert.True(followed.Damaged[^1] > 0.1);
    }

    [Theory]
    [InlineData(5)]
    [InlineData(6.3)]
    public void Follow_OnePropagationPeriod_AgreesWithTheWayForManyPeriods(double period)
    {
        var (draw, points) = Draw(period);
        // One point a hair off: every point is then asked for its own period.
        var many = points.PropagationYr.ToArray();
        many[3] += 1e-9;
        var apart = new AreaPoints(
            points.CoverMm,
            points.SurfaceChloride,
            points.DiffusionMm2PerYr,
            many,
            points.MaterialScore
        );
        foreach (
            var strategy in new[]
            {
                ExampleDecks.Nothing,
                ExampleDecks.Overlay("overlay", 3, 10, 50),
                ExampleDecks.ToLimit("deeper", 2, 1.0, 50),
            }
        )
        {
            var one = Follow(draw, points, strategy);
            var each = Follow(draw, apart, strategy);

            for (var j = 0; j < one.Damaged.Length; j++)
            {
                // With one period the share is read between the times of the solver.
                Assert.Equal(one.Damaged[j], each.Damaged[j], 2e-4);
                Assert.Equal(one.Initiated[j], each.Initiated[j], 1e-8);
            }

            Assert.True(one.Damaged[^1] > 0);
        }
    }

    // All but the last 10 mm comes off, which is as far as removal goes: what is left is too far from the bars to matter.
    [Fact]
    public void Follow_ReplacementDownToTheLeastThatStays_IsANewDeckOfThatMaterial()
    {
        var (draw, points) = Draw(5);
        Array.Fill(points.MaterialScore, 0);

        var material = ExampleDecks.Plain.Materials[0] with
        {
            DiffusionCoefficient = new(60, 0.3, SpreadShape.Lognormal),
        };

        var followed = Follow(
            draw,
            points,
            ExampleDecks.Overlay("new deck", 0, 190, 190),
            ExampleDecks.Plain with
            {
                Materials = [material],
            }
        );

        var diffusion = PointDistribution
            .WithinDeck(
                material.DiffusionCoefficient,
                material.WithinDeckShare,
                draw.MaterialScores[0]
            )
            .Quantile(0.5);
        var times = followed.Grid.TimesYr;
        for (var j = 2; j < times.Length; j++)
        {
            // Half space of the new material, clean at first: Cs erfc(cover / (2 sqrt(s))), s by the material's own clock.
            double Share(double years) =>
                years <= 0
                    ? 0
                    : Enumerable
                        .Range(0, points.Count)
                        .Average(i =>
                            draw.Population.Threshold.Cumulative(
                                points.SurfaceChloride[i]
                                    * MathNet.Numerics.SpecialFunctions.Erfc(
                                        points.CoverMm[i]
                                            / (
                                                2
                                                * Math.Sqrt(
                                                    diffusion
                                                        * MaterialClock.EffectiveYears(
                                                            material,
                                                            years
                                                        )
                                                )
                                            )
                                    )
                            )
                        );
            Assert.Equal(Share(times[j]), followed.Initiated[j], 6e-3);
            Assert.Equal(Share(times[j] - 5), followed.Damaged[j], 6e-3);
        }

        Assert.True(followed.Initiated[^1] > 0.1, $"{followed.Initiated[^1]}");
    }

    [Fact]
    public void Project_RemovalOfTheWholeThickness_IsRefused()
    {
        var result = ExampleDecks.Project(
            ExampleDecks.Plain with
            {
                Strategies = [ExampleDecks.Nothing, ExampleDecks.Overlay("all of it", 0, 200, 200)],
            }
        );

        Assert.Equal("DL4006", Assert.Single(result.Refused).Reason.Code);
    }

    private static (KnowledgeDraw Draw, AreaPoints Points) Draw(double period)
    {
        var sampler = new KnowledgeSampler(
            ExampleDecks.Plain,
            ExampleDecks.Fit,
            new(0, 55, 10),
            7,
            20
        );
        var draw = sampler.Draw(3);
        var points = AreaPoints.From(
            draw.Population,
            UnitPoints.ForArea(7, 3, 64, AreaPoints.Dimensions)
        );
        Array.Fill(points.PropagationYr, period);
        return (draw, points);
    }

    private static StrategyDraw Follow(
        KnowledgeDraw draw,
        AreaPoints points,
        Strategy strategy,
        Deck? on = null
    )
    {
        var deck = on ?? ExampleDecks.Plain;
        var planner = new StrategyPlanner(deck, draw, points, Clock);
        var plan = planner.Plan(strategy, out _)!;
        return new DrawProjector(
            deck,
            Clock,
            new BatchedSectionSolver(),
            ProjectionRun.SolverSteps,
            draw,
            points
        ).Follow(plan);
    }
}
