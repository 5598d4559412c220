using System.Collections.Immutable;
using DeckLife.Decisions;
using DeckLife.Diagnostics;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using Xunit;

namespace DeckLife.Tests.Projection;

public class DepthMapTests
{
    private static readonly DepthMapPlan Plan = new()
    {
        RemovalDepths = [.. new[] { 6.0, 25, 45, 75 }.Select(Depth.FromMillimetres)],
        Thicknesses = [.. new[] { 32.0, 50, 75 }.Select(Depth.FromMillimetres)],
        Materials = ["dense"],
        Points =
        [
            ExampleDecks.Overlay("scarify and overlay", 0, 6, 50),
            ExampleDecks.ToLimit("to the limit", 0, 1, 50),
        ],
        Draws = 40,
        AreaPoints = 32,
    };

    private static readonly Lazy<DepthMap> Map = new(() =>
        DepthMap.Compute(ExampleDecks.Plain, ExampleDecks.Fit, Plan)
    );

    [Fact]
    public void Compute_OneCase_IsTheStrategyProjectedByItself()
    {
        // One engine: the map must not have numbers of its own.
        var alone = ExampleDecks
            .Project(
                ExampleDecks.Plain with
                {
                    Strategies = [ExampleDecks.Overlay("alone", 0, 25, 50)],
                    Analysis = ExampleDecks.Plain.Analysis with { Draws = 40, Points = 32 },
                }
            )
            .Strategies[0];

        var cell = Map.Value.At(0, 1, 1);

        Assert.Equal(alone.ServiceLife, cell.Projection!.ServiceLife);
        Assert.Equal(alone.Cost!.PresentValue, cell.Projection.Cost!.PresentValue);
    }

    [Fact]
    public void Compute_ScarifyAlone_IsACaseAndAPointWithTheSameNumbers()
    {
        var point = Map.Value.Points[0];
        var cell = Map.Value.At(0, 1, 0);

        Assert.Equal("scarify and overlay", point.Name);
        Assert.Equal(cell.ExpectedPresentValue, point.ExpectedPresentValue);
        Assert.Equal(cell.ExpectedYears, point.ExpectedYears);
        Assert.Equal(cell.Removal, point.Removal);
    }

    [Fact]
    public void Compute_ToAChlorideLimit_IsAPointAtItsMeanDepth()
    {
        var point = Map.Value.Points[1];

        Assert.Equal(
            point.Projection!.Interventions[0].MeanRemovalMm.P50,
            point.Removal.Millimetres,
            1e-12
        );
        Assert.InRange(point.Removal.Millimetres, 10, 80);
        Assert.NotNull(point.ExpectedPresentValue);
    }

    [Fact]
    public void Compute_Best_IsCheapestOfAllAllowed()
    {
        var choice = Map.Value.Choice!;

        Assert.True(choice.Best.IsAllowed);
        Assert.All(
            Map.Value.Cells.Where(c => c.IsAllowed),
            c => Assert.True(c.ExpectedPresentValue >= choice.Best.ExpectedPresentValue)
        );
        Assert.DoesNotContain(choice.Best, choice.Indistinguishable);
    }

    [Theory]
    [InlineData(StructureKind.PostTensioned)]
    [InlineData(StructureKind.Precast)]
    public void Compute_BelowBarsOfPrecastOrPostTensioned_IsRefusedAndNeverBest(
        StructureKind structure
    )
    {
        var map = DepthMap.Compute(
            ExampleDecks.Plain with
            {
                Structure = structure,
            },
            ExampleDecks.Fit,
            Plan
        );

        // Bars at 55 mm in the mean: 75 mm lies below nearly all of them.
        Assert.All(
            map.Cells.Where(c => c.Removal.Millimetres >= 75),
            c =>
            {
                Assert.Equal(DiagnosticCatalogue.RemovalBelowTopBarsRefused.Code, c.Refusal!.Code);
                Assert.False(c.IsAllowed);
            }
        );
        Assert.NotNull(map.Choice);
        Assert.True(map.Choice.Best.Removal.Millimetres < 75);
        Assert.Contains(map.Notes, n => n.Contains("below the top bars", StringComparison.Ordinal));
    }

    [Fact]
    public void Compute_BelowBarsOfCastInPlace_NeedsStructuralCheck()
    {
        var deep = Map.Value.At(0, 1, 3);

        Assert.True(deep.NeedsStructuralCheck);
        // Half a bar and 3/4 in below the deepest surface: 200 − 75 − 8 − 19.05.
        Assert.Equal(200 - 75 - 8 - 19.05, deep.RemainingMm!.Value, 1e-9);
    }

    [Fact]
    public void Compute_EachLimit_ShutsOutWhatBreaksItAndNothingElse()
    {
        var free = Map.Value;
        var cases = new (DepthLimits Limits, Func<DepthMapCell, bool> Keeps)[]
        {
            (
                new() { GradeRise = Depth.FromMillimetres(25) },
                c => c.Projection!.Interventions[0].GradeRiseMm <= 25
            ),
            (
                new() { AddedDeadLoadKnPerM2 = 0.6 },
                c => c.Projection!.Interventions[0].AddedDeadLoadKnPerM2 <= 0.6
            ),
            (new() { BarClearance = Depth.FromMillimetres(5) }, c => c.BarClearanceMm >= 5),
            (new() { Budget = 300_000 }, c => c.FirstCost <= 300_000),
            (new() { RemainingThickness = Depth.FromMillimetres(150) }, c => c.RemainingMm >= 150),
            (new() { BarsExposed = 0.6 }, c => c.BarsExposed <= 0.6),
        };
        foreach (var (limits, keeps) in cases)
        {
            var judge = new LimitJudge(ExampleDecks.Plain, new(0, 55, 55 * 0.18), limits);
            var judged = free.Cells.Select(judge.Judge).ToImmutableArray();

            Assert.Equal(free.Cells.Select(keeps), judged.Select(c => c.IsAllowed));
            Assert.Contains(judged, c => c.IsAllowed);
            Assert.Contains(judged, c => !c.IsAllowed);
            Assert.True(DepthChooser.Choose(ExampleDecks.Plain, judged)!.Best.IsAllowed);
        }
    }

    [Fact]
    public void Judge_DensityNotKnown_LimitIsNotShownToBeKept()
    {
        var cell = Map.Value.At(0, 0, 0);
        var unknown = cell with
        {
            Projection = cell.Projection! with
            {
                Interventions =
                [
                    cell.Projection.Interventions[0] with
                    {
                        AddedDeadLoadKnPerM2 = null,
                    },
                ],
            },
        };

        var judged = new LimitJudge(
            ExampleDecks.Plain,
            new(0, 55, 10),
            new() { AddedDeadLoadKnPerM2 = 5 }
        ).Judge(unknown);

        var breach = Assert.Single(judged.Broken);
        Assert.Null(breach.Value);
    }

    [Fact]
    public void Choose_NothingKeepsTheLimits_NoAnswer()
    {
        var judge = new LimitJudge(ExampleDecks.Plain, new(0, 55, 10), new() { Budget = 1 });

        Assert.Null(
            DepthChooser.Choose(ExampleDecks.Plain, [.. Map.Value.Cells.Select(judge.Judge)])
        );
    }

    [Fact]
    public void NextYear_ThreeCases_PriceByHand()
    {
        // From 100 for 10 yr: 160 for 12 yr is 30 a year, 120 for 11 yr is 20 a year, 90 for 20 yr is no dearer step.
        var from = Made(10, 100);
        var step = Made(11, 120);

        var year = DepthChooser.NextYear(from, [from, Made(12, 160), step, Made(20, 90)], 60)!;

        Assert.Equal(20, year.PerYear, 1e-12);
        Assert.Same(step, year.Next);
        Assert.Equal(1, year.ExtraYears, 1e-12);
        Assert.Equal(20, year.ExtraFirstCost, 1e-12);
        Assert.Equal(0, year.ErrorOfPerYear, 1e-12);
    }

    [Fact]
    public void NextYear_YearsBeyondTheHorizon_DoNotCount() =>
        Assert.Null(DepthChooser.NextYear(Made(60, 100), [Made(double.PositiveInfinity, 120)], 60));

    [Fact]
    public void For_NoOverlay_NothingToMap() =>
        Assert.Null(
            DepthMapPlan.For(ExampleDecks.Plain with { Strategies = [ExampleDecks.Nothing] })
        );

    private static DepthMapCell Made(double years, double cost) =>
        new()
        {
            Material = "dense",
            Removal = Depth.FromMillimetres(10),
            Thickness = Depth.FromMillimetres(40),
            ExpectedYears = Math.Min(years, 60),
            FirstCost = cost,
            Outcomes = new()
            {
                Name = "made",
                LivesYr = [years, years, years],
                FirstCosts = [cost, cost, cost],
                PresentValues = [cost, cost, cost],
            },
        };
}
