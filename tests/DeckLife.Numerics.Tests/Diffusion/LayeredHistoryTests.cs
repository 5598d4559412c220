using DeckLife.Numerics.Diffusion;
using Xunit;

namespace DeckLife.Numerics.Tests.Diffusion;

public class LayeredHistoryTests
{
    private static double Residual(double y) => 6 * HalfSpace.ConstantSurface(y + 25, 30 * 20);

    [Fact]
    public void History_ResidualUnderDenseOverlay_WithinThreeTenThousandthsOfTheSeries()
    {
        var media = new TwoMedia(50, 10);
        var history = LayeredSolver.History(
            new LayeredProblem
            {
                Layers =
                [
                    new DiffusionLayer(50, 3, 0),
                    new DiffusionLayer(500, t => 30 * t, Residual),
                ],
                Surface = BoundaryCondition.Constant(4),
            },
            75,
            75
        );

        for (var time = 1.5; time <= 75; time += 0.83)
        {
            var exact =
                media.Residual(25, 30 * time, Residual, 480)
                + (4 * media.ConstantSurface(75, 3 * time));
            Assert.Equal(exact, history.ContentAt(time), 3e-4 * 6);
        }

        // The residual chloride peaks at the bar and falls: the maximum is inside, not at the end.
        Assert.True(history.Maximum > history.ContentAt(75) + 0.3);
        Assert.Equal(history.Maximum, history.RunningMaximum(75));
        Assert.True(history.RunningMaximum(1) < history.Maximum);
    }

    [Fact]
    public void History_ThroughAnEvent_FollowsTheMaterial()
    {
        var problem = new LayeredProblem
        {
            Layers = [new DiffusionLayer(700, 30, 0)],
            Surface = BoundaryCondition.Constant(6),
            Events =
            [
                new LayeredEvent(20)
                {
                    Removal = 25,
                    Placed = new DiffusionLayer(50, 30, 0),
                    Surface = BoundaryCondition.Constant(0),
                },
            ],
        };
        var history = LayeredSolver.History(problem, 50, 40);

        Assert.Equal(6 * HalfSpace.ConstantSurface(50, 600), history.ContentAt(20), 6 * 3e-4);
        // The bar of the reference case transport/remove-and-replace, now at 75 mm.
        Assert.Equal(0.9014593152057, history.ContentAt(25), 6 * 3e-4);
        Assert.Equal(0.5899464198232, history.ContentAt(40), 6 * 3e-4);
    }

    [Fact]
    public void TryFirstCrossing_AgainstTheClosedForm_WithinAThousandth()
    {
        // Cs 5, C0 0.1, D 30: 1.2 at 50 mm after 28.240218733606 yr; 0.71 at 38 mm after 10.198152027235 yr.
        LayeredHistory At(double depth) =>
            LayeredSolver.History(
                new LayeredProblem
                {
                    Layers = [new DiffusionLayer(500, 30, 0.1)],
                    Surface = BoundaryCondition.Constant(5),
                },
                depth,
                75
            );
        Assert.True(At(50).TryFirstCrossing(1.2, out var first));
        Assert.Equal(28.240218733606, first, 0.03);
        Assert.True(At(38).TryFirstCrossing(0.71, out var second));
        Assert.Equal(10.198152027235, second, 0.01);
        Assert.False(At(50).TryFirstCrossing(4, out _));
        Assert.True(At(50).TryFirstCrossing(0.1, out var start));
        Assert.Equal(0, start);
    }

    [Fact]
    public void TryFirstCrossing_PeakBetweenStoredTimes_IsSeen()
    {
        // A parabola through 0, 1 and 0 at times 0, 2 and 4 sampled beside its top.
        double[] times = [0, 1, 3, 4];
        var history = new LayeredHistory(
            times,
            [.. times.Select(t => 1 - (0.25 * (t - 2) * (t - 2)))]
        );

        Assert.Equal(1, history.Maximum, 1e-12);
        Assert.True(history.TryFirstCrossing(0.9, out var time));
        Assert.Equal(2 - Math.Sqrt(0.4), time, 1e-9);
        Assert.False(history.TryFirstCrossing(1.01, out _));
    }

    [Fact]
    public void History_TimesThatDoNotRise_Throws() =>
        Assert.Throws<ArgumentException>(() => new LayeredHistory([0, 1, 1], [0, 0, 0]));
}
