using DeckLife.Numerics.Distributions;
using DeckLife.Studies;

namespace DeckLife.Benchmarks;

/// <summary>The closed-form limit state of <see cref="BenchmarkCases.LimitState"/> as a whole study: drawn, computed, counted, summed up.</summary>
internal static class BenchmarkStudy
{
    /// <summary>Numbers of draws a run.</summary>
    public const int Draws = 1 << 20;

    /// <summary>Number of draws of the layered study.</summary>
    public const int LayeredDraws = 1 << 13;

    private static readonly StudyDefinition Study = Make();
    private static readonly StudyRunner Runner = new(Study);
    private static readonly StudyDefinition Overlaid = MakeOverlaid();
    private static readonly StudyRunner OverlaidRunner = new(Overlaid);

    /// <summary>Runs the study on one thread; the probability.</summary>
    public static double Run() => Run(Study, Runner);

    /// <summary>Runs the study of a section with an overlay on one thread; the probability.</summary>
    public static double RunLayered() => Run(Overlaid, OverlaidRunner);

    private static double Run(StudyDefinition study, StudyRunner runner)
    {
        var pieces = new StudyAccumulator(study);
        runner.Run(runner.Pieces, pieces, 1);
        return runner.Finish(pieces, 1).Results[0].Draws!.Probability!.Value;
    }

    private static StudyDefinition MakeOverlaid() =>
        Study with
        {
            Section = Study.Section with { OverlayAgeYr = 20 },
            Inputs =
            [
                .. Study.Inputs,
                new(StudyVariable.RemovalDepth, 0, new UniformDistribution(5, 20)),
                new(StudyVariable.OverlayThickness, 0, new UniformDistribution(30, 60)),
                new(
                    StudyVariable.OverlayDiffusionCoefficient,
                    0,
                    LognormalDistribution.FromMeanAndStandardDeviation(12, 4)
                ),
            ],
            Methods = [new MonteCarloMethod(LayeredDraws)],
        };

    private static StudyDefinition Make()
    {
        var state = BenchmarkCases.LimitState;
        static StudyInput Lognormal(StudyVariable variable, double mean, double deviation) =>
            new(variable, 0, LognormalDistribution.FromLogMoments(mean, deviation));
        return new()
        {
            Name = "limit state",
            Seed = 1,
            Section = new()
            {
                Ageing = SectionAgeing.Instantaneous,
                ReferenceAgeYr = state.ReferenceAgeYr,
            },
            Inputs =
            [
                new(
                    StudyVariable.Cover,
                    0,
                    new NormalDistribution(state.DepthMeanMm, state.DepthStandardDeviationMm)
                ),
                Lognormal(
                    StudyVariable.DiffusionCoefficient,
                    state.DiffusionLogMean,
                    state.DiffusionLogStandardDeviation
                ),
                new(
                    StudyVariable.AgeingExponent,
                    0,
                    new TruncatedDistribution(
                        new NormalDistribution(state.AgeingMean, state.AgeingStandardDeviation),
                        state.LeastAgeing,
                        state.LargestAgeing
                    )
                ),
                Lognormal(
                    StudyVariable.SurfaceChloride,
                    state.SurfaceLogMean,
                    state.SurfaceLogStandardDeviation
                ),
                Lognormal(
                    StudyVariable.ChlorideThreshold,
                    state.ThresholdLogMean,
                    state.ThresholdLogStandardDeviation
                ),
            ],
            Outputs = [new(StudyOutputKind.InitiatedBy, 50)],
            Methods = [new MonteCarloMethod(Draws)],
        };
    }
}
