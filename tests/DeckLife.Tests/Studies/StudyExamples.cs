using DeckLife.Numerics.DesignOfExperiments;
using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Sensitivity;
using DeckLife.Studies;

namespace DeckLife.Tests.Studies;

internal static class StudyExamples
{
    public static StudyDefinition Bare(params StudyMethod[] methods) =>
        new()
        {
            Name = "test",
            Seed = 5,
            Section = new(),
            Inputs =
            [
                new(
                    StudyVariable.Cover,
                    0,
                    new TruncatedDistribution(new NormalDistribution(50, 10), 5, 200)
                ),
                new(
                    StudyVariable.SurfaceChloride,
                    0,
                    LognormalDistribution.FromMeanAndStandardDeviation(7, 1.4)
                ),
                new(
                    StudyVariable.DiffusionCoefficient,
                    0,
                    LognormalDistribution.FromMeanAndStandardDeviation(30, 9)
                ),
                new(
                    StudyVariable.ChlorideThreshold,
                    0,
                    LognormalDistribution.FromMeanAndStandardDeviation(1.2, 0.24)
                ),
                new(StudyVariable.InitialChloride, 0.1, null),
            ],
            Outputs =
            [
                new(StudyOutputKind.ContentAtBar, 40),
                new(StudyOutputKind.TimeToInitiation, 100),
                new(StudyOutputKind.InitiatedBy, 20),
            ],
            Methods = [.. methods],
        };

    public static StudyMethod[] All { get; } =
    [
        new SwingMethod(0.1, 0.9),
        new MorrisMethod(MorrisDesign.Radial, 40, 4, 0.01),
        new SobolMethod(512, PointSource.Lattice, 100, []),
        new ShapleyMethod(128, PointSource.Lattice, 100),
        new MonteCarloMethod(150_000),
        new ReliabilityMethod(20_000),
    ];

    public static StudyResult Run(StudyDefinition study, int threads = 0)
    {
        var runner = new StudyRunner(study);
        var pieces = new StudyAccumulator(study);
        runner.Run(runner.Pieces, pieces, threads);
        return runner.Finish(pieces, threads);
    }

    /// <summary>Every number of a result, in full.</summary>
    public static string Numbers(StudyResult result) =>
        string.Join(
            "\n",
            result.Results.Select(r =>
                FormattableString.Invariant(
                    $"{r.Output.Name} {r.Draws?.Mean:R} {r.Draws?.StandardDeviation:R} {r.Draws?.Probability} {string.Join(" ", r.Draws?.Percentiles ?? [])} {string.Join(" ", r.Draws?.Convergence ?? [])} {string.Join(" ", r.Sobol?.Groups.Select(g => $"{g.FirstOrder} {g.Total}") ?? [])} {string.Join(" ", r.Shapley?.Effects ?? [])} {string.Join(" ", r.Morris?.Inputs ?? [])} {string.Join(" ", r.Swings?.Swings ?? [])} {r.Reliability?.Probability}"
                )
            )
        );
}
