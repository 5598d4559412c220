using DeckLife.Numerics.Distributions;
using DeckLife.Studies;

namespace DeckLife.Benchmarks;

/// <summary>The closed-form limit state of <see cref="BenchmarkCases.LimitState"/> as a whole study: drawn, computed, counted, summed up.</summary>
internal static class BenchmarkStudy
{
    /// <summary>Numbers of draws a run.</summary>
    public const int Draws = 1 << 20;

    private static readonly StudyDefinition Study = Make();
    private static readonly StudyRunner Runner = new(Study);

    /// <summary>Runs the study on one thread; the probability.</summary>
    public static double Run()
    {
        var pieces = new StudyAccumulator(Study);
        Runner.Run(Runner.Pieces, pieces, 1);
        return Runner.Finish(pieces, 1).Results[0].Draws!.Probability!.Value;
    }

    private static StudyDefinition Make()
    {
        var state = BenchmarkCases.LimitState;
        static StudyInput Lognormal(SectionVariable variable, double mean, double deviation) =>
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
                    SectionVariable.Cover,
                    0,
                    new NormalDistribution(state.DepthMeanMm, state.DepthStandardDeviationMm)
                ),
                Lognormal(
                    SectionVariable.DiffusionCoefficient,
                    state.DiffusionLogMean,
                    state.DiffusionLogStandardDeviation
                ),
                new(
                    SectionVariable.AgeingExponent,
                    0,
                    new TruncatedDistribution(
                        new NormalDistribution(state.AgeingMean, state.AgeingStandardDeviation),
                        state.LeastAgeing,
                        state.LargestAgeing
                    )
                ),
                Lognormal(
                    SectionVariable.SurfaceChloride,
                    state.SurfaceLogMean,
                    state.SurfaceLogStandardDeviation
                ),
                Lognormal(
                    SectionVariable.ChlorideThreshold,
                    state.ThresholdLogMean,
                    state.ThresholdLogStandardDeviation
                ),
            ],
            Outputs = [new(StudyOutputKind.InitiatedBy, 50)],
            Methods = [new MonteCarloMethod(Draws)],
        };
    }
}
