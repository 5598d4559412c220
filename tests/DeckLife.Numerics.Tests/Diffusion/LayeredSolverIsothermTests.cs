using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.SpecialFunctions;
using Xunit;

namespace DeckLife.Numerics.Tests.Diffusion;

/// <summary>What must hold for Langmuir and Freundlich isotherms as it does for linear layers.</summary>
public class LayeredSolverIsothermTests
{
    private static readonly LayeredQuery[] Asked =
    [
        new(12, 20),
        new(12, 40),
        new(30, 20),
        new(30, 60),
    ];

    public static TheoryData<string> Laws => ["Langmuir", "Freundlich"];

    [Theory]
    [MemberData(nameof(Laws))]
    public void Solve_StoppedAndRestarted_ChangesNothingAboveTheEstimates(string name)
    {
        const double stop = 5;
        const double spacing = 0.25;
        var whole = LayeredSolver.Solve(Problem(name, _ => 0.3, 0), Asked);
        var depths = Enumerable.Range(0, 601).Select(k => k * spacing).ToArray();
        var state = LayeredSolver.Solve(
            Problem(name, _ => 0.3, 0),
            [.. depths.Select(x => new LayeredQuery(stop, x))]
        );
        double Stored(double x)
        {
            var k = Math.Min((int)(x / spacing), depths.Length - 2);
            var share = (x - depths[k]) / spacing;
            return ((1 - share) * state.Contents[k]) + (share * state.Contents[k + 1]);
        }

        var restarted = LayeredSolver.Solve(Problem(name, Stored, stop), Asked);

        for (var k = 0; k < Asked.Length; k++)
        {
            Assert.Equal(
                whole.Contents[k],
                restarted.Contents[k],
                whole.ErrorEstimate + state.ErrorEstimate + restarted.ErrorEstimate
            );
        }
    }

    [Theory]
    [MemberData(nameof(Laws))]
    public void Solve_LayerSplitInTwo_ChangesNothingAboveTheEstimates(string name)
    {
        var whole = LayeredSolver.Solve(Problem(name, _ => 0.3, 0), Asked);
        var split = LayeredSolver.Solve(
            new LayeredProblem
            {
                Layers = [Layer(name, 33, _ => 0.3), Layer(name, 117, _ => 0.3)],
                Surface = BoundaryCondition.Constant(6),
            },
            Asked
        );

        for (var k = 0; k < Asked.Length; k++)
        {
            Assert.Equal(
                whole.Contents[k],
                split.Contents[k],
                whole.ErrorEstimate + split.ErrorEstimate
            );
        }
    }

    [Theory]
    [MemberData(nameof(Laws))]
    public void Solve_EmptyEvents_ChangeNothingAboveTheEstimates(string name)
    {
        var without = LayeredSolver.Solve(Problem(name, _ => 0.3, 0), Asked);
        var same = LayeredSolver.Solve(
            Problem(name, _ => 0.3, 0, new LayeredEvent(7) { Removal = 0 }),
            Asked
        );
        var renamed = LayeredSolver.Solve(
            Problem(
                name,
                _ => 0.3,
                0,
                new LayeredEvent(7) { Surface = BoundaryCondition.Constant(6) }
            ),
            Asked
        );

        Assert.Equal(without.Contents, same.Contents);
        for (var k = 0; k < Asked.Length; k++)
        {
            Assert.Equal(
                without.Contents[k],
                renamed.Contents[k],
                without.ErrorEstimate + renamed.ErrorEstimate
            );
        }
    }

    [Fact]
    public void SimilarProfile_OfALinearLaw_IsTheErrorFunction()
    {
        // The oracle of the study, against the one case with a closed form: T = 2.5 u, m = 1.
        var profile = SimilarProfile.Of(new LangmuirSorption(1, 1.5, 0), 5, 1, 8000);
        var root = Math.Sqrt(2.5);
        foreach (var eta in new[] { 0.0, 0.2, 0.7, 1.3, 2 })
        {
            Assert.Equal(1 + (4 * ErrorFunction.Erfc(eta * root)), profile.Free(eta), 1e-9);
        }

        Assert.Equal(4 * 2 * root / Math.Sqrt(Math.PI), profile.Gradient, 1e-9);
    }

    private static DiffusionLayer Layer(
        string name,
        double thickness,
        Func<double, double> content
    ) =>
        new(thickness, t => 50 * t, content)
        {
            Sorption =
                name == "Langmuir"
                    ? new LangmuirSorption(0.08, 0.39, 0.07)
                    : new FreundlichSorption(0.08, 1.05, 0.36),
        };

    private static LayeredProblem Problem(
        string name,
        Func<double, double> content,
        double start,
        params LayeredEvent[] events
    ) =>
        new()
        {
            Layers = [Layer(name, 150, content)],
            Surface = BoundaryCondition.Constant(6),
            Events = events,
            StartTime = start,
        };
}
