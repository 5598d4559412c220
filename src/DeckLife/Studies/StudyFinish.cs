using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Numerics.Reliability;
using DeckLife.Numerics.Sensitivity;

namespace DeckLife.Studies;

/// <summary>Turns the pieces of a study into its results.</summary>
internal sealed class StudyFinish(
    StudyDefinition study,
    IStudyModel model,
    EvaluationPlan?[] plans,
    StudyAccumulator pieces,
    int threads,
    CancellationToken cancellation
)
{
    private static readonly double[] Percents = [1, 5, 10, 25, 50, 75, 90, 95, 99];

    private readonly List<Diagnostic> _flags = [];

    public StudyResult Result()
    {
        var results = ImmutableArray.CreateBuilder<StudyOutputResult>();
        for (var m = 0; m < study.Methods.Length; m++)
        {
            for (var o = 0; o < study.Outputs.Length; o++)
            {
                cancellation.ThrowIfCancellationRequested();
                if (Make(m, o) is { } result)
                {
                    results.Add(result);
                }
            }
        }

        return new()
        {
            Study = study,
            Results = results.ToImmutable(),
            Flags = [.. StudyCheck.Find(study), .. _flags],
        };
    }

    private StudyOutputResult? Make(int m, int o)
    {
        var method = study.Methods[m];
        var result = new StudyOutputResult
        {
            MethodNumber = m,
            Method = method,
            Output = study.Outputs[o],
            Evaluations = plans[m]?.Evaluations ?? 0,
        };
        switch (method)
        {
            case MonteCarloMethod draws:
                return result with { Evaluations = draws.Draws, Draws = Summary(draws, m, o) };
            case ReliabilityMethod reliability:
                return study.Outputs[o].HasMargin
                    ? result with
                    {
                        Reliability = Reliability(reliability, o),
                        Evaluations = reliability.Draws,
                    }
                    : null;
            case SobolMethod sobol:
                var shares = ((SobolPlan)plans[m]!).Finish(Values(m, o), sobol.Bootstrap, threads);
                Note(shares.HasNoVariance, o, method);
                return result with { Sobol = shares };
            case ShapleyMethod shapley:
                var effects = ((ShapleyPlan)plans[m]!).Finish(
                    Values(m, o),
                    shapley.Bootstrap,
                    threads
                );
                Note(effects.HasNoVariance, o, method);
                return result with { Shapley = effects };
            case MorrisMethod:
                var elementary = ((MorrisPlan)plans[m]!).Finish(Values(m, o));
                Note(elementary.HasNoVariance, o, method);
                return result with { Morris = elementary };
            default:
                var swings = ((SwingPlan)plans[m]!).Finish(Values(m, o));
                Note(swings.HasNoVariance, o, method);
                return result with { Swings = swings };
        }
    }

    private void Note(bool noVariance, int o, StudyMethod method)
    {
        if (noVariance)
        {
            _flags.Add(
                DiagnosticCatalogue.StudyNoVariance.With(study.Outputs[o].Name, method.Name)
            );
        }
    }

    // A time not within its horizon is held at it: a share of variance needs a value at every point.
    private double[][] Values(int m, int o)
    {
        var plan = plans[m]!;
        var values = new double[plan.Blocks][];
        long held = 0,
            all = 0;
        for (var b = 0; b < values.Length; b++)
        {
            var numbers = pieces.Numbers(new(m, b));
            var count = numbers.Length / model.Outputs;
            values[b] = numbers[(o * count)..((o + 1) * count)];
            all += count;
            for (var i = 0; i < count; i++)
            {
                if (double.IsPositiveInfinity(values[b][i]))
                {
                    values[b][i] = study.Outputs[o].AgeYr;
                    held++;
                }
            }
        }

        if (held > 0)
        {
            _flags.Add(
                DiagnosticCatalogue.StudyTimeHeldAtHorizon.With(
                    study.Outputs[o].Name,
                    (double)held / all,
                    study.Methods[m].Name
                )
            );
        }

        return values;
    }

    private DrawSummary Summary(MonteCarloMethod method, int m, int o)
    {
        const int Sums = StudyAccumulator.SumsASubBlock;
        var isEvent = study.Outputs[o].IsEvent || study.Outputs[o].IsTime;
        var moments = RunningMoments.None;
        long draws = 0,
            events = 0;
        var rows = ImmutableArray.CreateBuilder<DrawConvergenceRow>();
        long next = study.DrawsASum;
        var blocks = (int)((method.Draws + study.DrawsAPiece - 1) / study.DrawsAPiece);
        for (var b = 0; b < blocks; b++)
        {
            var numbers = pieces.Numbers(new(m, b)).AsSpan();
            for (var sub = 0; sub < study.SumsAPiece; sub++)
            {
                var n = numbers.Slice(((o * study.SumsAPiece) + sub) * Sums, Sums);
                if (n[0] + n[6] == 0)
                {
                    continue;
                }

                if (n[0] > 0)
                {
                    moments = moments.With(new((long)n[0], n[1], n[2], n[3], n[4]));
                }

                draws += (long)(n[0] + n[6]);
                events += (long)n[5];
                if (draws >= next || draws == method.Draws)
                {
                    rows.Add(Row(draws, events, moments, isEvent));
                    next *= 2;
                }
            }
        }

        var counts = pieces.Counts(m, o);
        return new()
        {
            Draws = draws,
            WithValue = moments.Count,
            Mean = moments.Count > 0 ? moments.Mean : null,
            StandardDeviation = moments.Count > 1 ? Math.Sqrt(moments.Variance) : null,
            StandardErrorOfMean = moments.Count > 1 ? moments.StandardErrorOfMean : null,
            Percentiles = study.Outputs[o].IsEvent
                ? []
                :
                [
                    .. Percents.Select(p => new StudyPercentile(
                        p,
                        counts.Percentile(p / 100) is { } v && double.IsFinite(v)
                            ? Math.Clamp(v, moments.Least, moments.Largest)
                            : null
                    )),
                ],
            Probability = isEvent ? BinomialLimits.ClopperPearson(events, draws) : null,
            Convergence = rows.ToImmutable(),
        };
    }

    private static DrawConvergenceRow Row(
        long draws,
        long events,
        RunningMoments moments,
        bool isEvent
    )
    {
        if (isEvent)
        {
            var p = (double)events / draws;
            return new(draws, p, Math.Sqrt(p * (1 - p) / draws));
        }

        return moments.Count > 1
            ? new(draws, moments.Mean, moments.StandardErrorOfMean)
            : new(draws, null, null);
    }

    private StudyReliability Reliability(ReliabilityMethod method, int o)
    {
        var state = new LimitState(
            study.ToRandomVector(),
            (count, inputs, outputs) => model.Margin(o, count, inputs, outputs)
        );
        var found = FirstOrderReliability.FindAll(state, study.Seed);
        if (found.Points.IsEmpty)
        {
            _flags.Add(
                DiagnosticCatalogue.StudyNoDesignPoint.With(
                    study.Outputs[o].Name,
                    DesignPointWords.Of(found.FromOrigin.Status)
                )
            );
        }

        return new()
        {
            Points = found.Points,
            FromOrigin = found.FromOrigin.Status,
            SecondOrder = [.. found.Points.Select(p => SecondOrderReliability.Correct(state, p))],
            Probability = ImportanceSampling.Estimate(
                state,
                found.Points,
                method.Draws,
                study.Seed,
                threads,
                cancellation
            ),
        };
    }
}
