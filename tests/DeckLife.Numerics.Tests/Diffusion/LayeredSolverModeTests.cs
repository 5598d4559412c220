using DeckLife.Numerics.Diffusion;
using Xunit;

namespace DeckLife.Numerics.Tests.Diffusion;

/// <summary>The layered solver against an exact decaying mode of two layers: order of mesh and steps, and the default settings.</summary>
public class LayeredSolverModeTests
{
    private const double Exponent = 0.4;
    private const double Age = 0.2;

    private static readonly LayeredQuery[] Asked =
    [
        new(0.5, 30),
        new(5, 20),
        new(5, 90),
        new(30, 20),
        new(30, 100),
        new(30, 170),
    ];

    private static double Clock(double t) =>
        (Math.Pow(t + Age, 1 - Exponent) - Math.Pow(Age, 1 - Exponent)) / (1 - Exponent);

    [Theory]
    [InlineData(1, 1)]
    [InlineData(1.8, 0.6)]
    public void Solve_DecayingModeOfTwoLayers_WithinItsEstimate(double capacity, double mobility)
    {
        var mode = Mode(capacity, mobility);
        var found = LayeredSolver.Solve(Problem(mode, capacity, mobility), Asked);

        Assert.True(found.IsConverged);
        Assert.True(found.MassBalanceError < 1e-10, $"mass {found.MassBalanceError:G3}");
        for (var k = 0; k < Asked.Length; k++)
        {
            var error = Math.Abs(
                found.Contents[k] - mode.Total(Asked[k].Depth, Clock(Asked[k].Time))
            );
            Assert.True(
                error <= found.ErrorEstimate,
                $"{Asked[k]}: error {error:G3}, estimate {found.ErrorEstimate:G3}"
            );
        }
    }

    [Theory]
    [InlineData(true, 1, 1)]
    [InlineData(true, 1.8, 0.6)]
    [InlineData(false, 1, 1)]
    [InlineData(false, 1.8, 0.6)]
    public void March_DecayingModeOfTwoLayers_ErrorFallsWithTheSquare(
        bool isSpace,
        double capacity,
        double mobility
    )
    {
        // One of mesh and steps is kept fine while the other halves twice.
        var mode = Mode(capacity, mobility);
        var problem = Problem(mode, capacity, mobility);
        var errors = new List<double>();
        for (var level = 0; level <= 2; level++)
        {
            var kept = (isSpace ? 0.004 : 0.0005) * Math.Pow(2, level);
            // A smooth start makes the error of the steps so small that they must be long to show it.
            var options = isSpace
                ? new LayeredOptions { LogarithmicStep = kept }
                : new LayeredOptions
                {
                    LogarithmicStep = 1.4,
                    SpacingGrowth = kept,
                    SpacingAtSharpPoint = kept,
                };
            var found = new LayeredMarch(
                new LayeredPlan(problem, Asked, options),
                options,
                level
            ).Run();
            errors.Add(
                Asked
                    .Select((q, k) => Math.Abs(found[k] - mode.Total(q.Depth, Clock(q.Time))))
                    .Max()
            );
        }

        var order = 0.5 * Math.Log2(errors[0] / errors[2]);
        Assert.True(order > 1.9, $"order {order:F2}, errors {string.Join(", ", errors)}");
    }

    private static CompositeMode Mode(double capacity, double mobility) =>
        new((60, 12, capacity, mobility), (140, 45, 1, 1));

    private static LayeredProblem Problem(CompositeMode mode, double capacity, double mobility) =>
        new()
        {
            Layers =
            [
                new DiffusionLayer(60, t => 12 * Clock(t), x => mode.Total(x, 0))
                {
                    Sorption = new LinearSorption(capacity, mobility),
                },
                // The top of the layer is approached from below: the total may jump at the interface.
                new DiffusionLayer(
                    140,
                    t => 45 * Clock(t),
                    x => mode.Total(Math.Max(60 + x, 60 + 1e-9), 0)
                ),
            ],
            Surface = BoundaryCondition.Constant(0),
            Bottom = BoundaryCondition.Constant(0),
        };
}
