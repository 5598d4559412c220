using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.Quadrature;
using Xunit;

namespace DeckLife.Numerics.Tests.Diffusion;

public class TwoMediaSpreadTests
{
    private static double Profile(double y) => 5 * Math.Exp(-y / 20);

    // Below the interface the residual profile's own integral, already checked against Laplace inversion, averaged over the slice.
    [Theory]
    [InlineData(0.1)]
    [InlineData(1)]
    [InlineData(8)]
    public void SliceMean_BelowTheInterface_IsTheMeanOfTheResidual(double ratio)
    {
        var media = new TwoMedia(40, ratio);
        foreach (var (a, b) in new[] { (0.0, 10.0), (10, 30), (60, 90) })
        {
            var expected = GaussLegendre.Sixteen.Mean(
                y => media.Residual(y, 300, Profile, 400),
                a,
                b
            );

            Assert.Equal(expected, Spread(ratio, 300, 40 + a, 40 + b), 1e-9);
        }
    }

    // In the layer a finite-volume solution: contents at depths, averaged over the slice, to the solver's own tolerance.
    [Theory]
    [InlineData(0.25)]
    [InlineData(6)]
    public void SliceMean_InTheLayer_IsTheLayeredSolver(double ratio)
    {
        const double deck = 30;
        var depths = Enumerable.Range(0, 40).Select(i => 20 + (0.5 * i) + 0.25).ToArray();
        var solution = LayeredSolver.Solve(
            new LayeredProblem
            {
                Layers =
                [
                    new DiffusionLayer(40, deck / ratio, 0),
                    new DiffusionLayer(500, t => deck * t, Profile),
                ],
                Surface = BoundaryCondition.Constant(0),
            },
            [.. depths.Select(x => new LayeredQuery(15, x))]
        );

        Assert.True(solution.IsConverged);
        Assert.Equal(solution.Contents.Average(), Spread(ratio, deck * 15, 20, 40), 1.5e-3);
        Assert.True(solution.Contents.Average() > 0.2);
    }

    // A slice across the interface is the two parts, each by its length.
    [Fact]
    public void SliceMean_AcrossTheInterface_IsBothPartsByLength() =>
        Assert.Equal(
            ((10 * Spread(3, 200, 30, 40)) + (5 * Spread(3, 200, 40, 45))) / 15,
            Spread(3, 200, 30, 45),
            1e-12
        );

    private static double Spread(double ratio, double clock, double top, double bottom)
    {
        var spread = new TwoMediaSpread(40, ratio, clock);
        return GaussLegendre.Eight.IntegrateAdaptively(
            eta => Profile(eta) * spread.SliceMean(eta, top, bottom),
            0,
            400,
            1e-11
        );
    }
}
