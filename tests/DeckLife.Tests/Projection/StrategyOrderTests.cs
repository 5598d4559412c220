using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Rehabilitation;
using Xunit;

namespace DeckLife.Tests.Projection;

/// <summary>Orders between strategies that hold as theorems, with their conditions.</summary>
public class StrategyOrderTests
{
    private const double SolverError = 4e-3;

    // One diffusion coefficient everywhere and equal grade: the three problems differ in their first contents alone, which are ordered.
    [Theory]
    [InlineData(0)]
    [InlineData(15)]
    public void Follow_UndercuttingEverywhere_LiesBetweenANewDeckAndTheResidualProblem(double at)
    {
        var deck = ExampleDecks.Plain with
        {
            Materials =
            [
                ExampleDecks.Plain.Materials[0] with
                {
                    DiffusionCoefficient = UncertainValue.Exactly(30),
                    AgeingExponent = 0,
                    ConstantAfter = null,
                },
            ],
            Threshold = ExampleDecks.Plain.Threshold with
            {
                Content = new(0.6, 0.35, SpreadShape.Lognormal),
            },
        };
        var clock = new ExposureClock(25);
        var draw = new KnowledgeSampler(deck, ExampleDecks.Fit, new(0, 45, 8), 7, 20).Draw(3);
        var drawn = AreaPoints.From(
            draw.Population,
            UnitPoints.ForArea(7, 3, 64, AreaPoints.Dimensions)
        );
        var points = new AreaPoints(
            [.. drawn.CoverMm.Select(c => Math.Min(c, 70))],
            drawn.SurfaceChloride,
            [.. drawn.CoverMm.Select(_ => 30.0)],
            drawn.PropagationYr,
            drawn.MaterialScore
        );
        StrategyDraw Follow(double depth)
        {
            var plan = new StrategyPlanner(deck, draw, points, clock).Plan(
                ExampleDecks.Overlay("", at, depth, depth),
                out _
            )!;
            return new DrawProjector(
                deck,
                clock,
                new BatchedSectionSolver(),
                ProjectionRun.SolverSteps,
                draw,
                points
            ).Follow(plan);
        }

        var replaced = Follow(190);
        var undercut = Follow(90);
        var residual = Follow(6);

        var fed = 0.0;
        var spared = 0.0;
        for (var j = 0; j < replaced.Initiated.Length; j++)
        {
            if (replaced.Grid.Phase[j] == 0)
            {
                continue;
            }

            Assert.True(replaced.Initiated[j] <= undercut.Initiated[j] + SolverError);
            Assert.True(undercut.Initiated[j] <= residual.Initiated[j] + SolverError);
            Assert.True(replaced.Damaged[j] <= undercut.Damaged[j] + SolverError);
            Assert.True(undercut.Damaged[j] <= residual.Damaged[j] + SolverError);
            fed = Math.Max(fed, undercut.Initiated[j] - replaced.Initiated[j]);
            spared = Math.Max(spared, residual.Initiated[j] - undercut.Initiated[j]);
        }

        Assert.Equal(
            1,
            undercut.Interventions[0]!.Undercut + undercut.Interventions[0]!.Repaired,
            1e-9
        );
        Assert.True(fed > SolverError, $"the concrete below feeds the bar: {fed}");
        Assert.True(spared > 5 * SolverError, $"new concrete around the bar spares it: {spared}");
    }
}
