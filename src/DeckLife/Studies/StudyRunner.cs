using System.Collections.Immutable;
using System.Numerics;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Sensitivity;

namespace DeckLife.Studies;

/// <summary>Does the work of a study piece by piece.</summary>
/// <remarks>
/// A piece depends on the study alone, never on threads, shards or earlier runs. Checked by: StudyRunnerTests (1, 2, 8 threads,
/// shards merged, resumed: same bytes).
/// </remarks>
public sealed class StudyRunner
{
    private readonly StudyDefinition _study;
    private readonly IStudyModel _model;
    private readonly StudyDraws _draws;
    private readonly EvaluationPlan?[] _plans;

    /// <summary>Prepares a study that has no errors (<see cref="StudyCheck"/>).</summary>
    /// <param name="study">The study.</param>
    public StudyRunner(StudyDefinition study)
    {
        ArgumentNullException.ThrowIfNull(study);
        _study = study;
        _model = study.ToModel();
        _draws = new(study);
        _plans = [.. study.Methods.Select(m => StudyPlans.Make(study, m))];
        Pieces = [.. MakePieces()];
    }

    /// <summary>All pieces, in a fixed order.</summary>
    public ImmutableArray<StudyPiece> Pieces { get; }

    /// <summary>The pieces of one of several shares of the work.</summary>
    /// <param name="share">Number of the share, from 1.</param>
    /// <param name="shares">Number of shares.</param>
    public ImmutableArray<StudyPiece> Shard(int share, int shares)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(shares, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(share, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(share, shares);
        return [.. Pieces.Where((_, i) => i % shares == share - 1)];
    }

    /// <summary>Number of evaluations of a piece.</summary>
    /// <param name="piece">The piece.</param>
    public long Evaluations(StudyPiece piece) =>
        _study.Methods[piece.Method] is MonteCarloMethod m
            ? Math.Min(_study.DrawsAPiece, m.Draws - ((long)piece.Block * _study.DrawsAPiece))
            : Math.Max(1, _plans[piece.Method]!.Evaluations / _plans[piece.Method]!.Blocks);

    /// <summary>Computes those pieces that are not there yet.</summary>
    /// <param name="pieces">The pieces wanted.</param>
    /// <param name="into">Receives them.</param>
    /// <param name="threads">Number of threads, 0 for all.</param>
    /// <param name="made">Called with each new piece, from any thread, one at a time.</param>
    /// <param name="progress">Told after each piece.</param>
    /// <param name="cancellation">Stops between two pieces; those made stay.</param>
    /// <exception cref="OperationCanceledException">Cancelled before all pieces were there.</exception>
    public void Run(
        ImmutableArray<StudyPiece> pieces,
        StudyAccumulator into,
        int threads = 0,
        Action<StudyPiece, double[]>? made = null,
        IProgress<StudyProgress>? progress = null,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(into);
        var gate = new Lock();
        var total = pieces.Sum(Evaluations);
        var open = pieces.Where(p => !into.Has(p)).ToArray();
        var earlier = total - open.Sum(Evaluations);
        var done = earlier;
        FixedOrderParallel.Run(
            open.Length,
            i =>
            {
                var payload = Compute(open[i]);
                lock (gate)
                {
                    into.Add(open[i], payload);
                    made?.Invoke(open[i], payload);
                    done += Evaluations(open[i]);
                    progress?.Report(new(done, total, earlier));
                }
            },
            threads,
            cancellation
        );
    }

    /// <summary>Computes a piece.</summary>
    /// <param name="piece">The piece.</param>
    public double[] Compute(StudyPiece piece) =>
        _study.Methods[piece.Method] is MonteCarloMethod method
            ? ComputeDraws(method, piece.Block)
            : ComputePoints(_plans[piece.Method]!, piece.Block);

    /// <summary>Puts the results together.</summary>
    /// <param name="from">All pieces.</param>
    /// <param name="threads">Number of threads, 0 for all; the result is the same for any.</param>
    /// <param name="cancellation">Stops between two steps.</param>
    /// <exception cref="ArgumentException">A piece is missing.</exception>
    public StudyResult Finish(
        StudyAccumulator from,
        int threads = 0,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(from);
        var missing = Pieces.Count(p => !from.Has(p));
        if (missing > 0)
        {
            throw new ArgumentException(
                $"{missing} of {Pieces.Length} pieces are missing.",
                nameof(from)
            );
        }

        return new StudyFinish(_study, _model, _plans, from, threads, cancellation).Result();
    }

    private IEnumerable<StudyPiece> MakePieces()
    {
        for (var m = 0; m < _study.Methods.Length; m++)
        {
            var blocks = _study.Methods[m] is MonteCarloMethod draws
                ? (int)((draws.Draws + _study.DrawsAPiece - 1) / _study.DrawsAPiece)
                : _plans[m]?.Blocks ?? 0;
            for (var b = 0; b < blocks; b++)
            {
                yield return new(m, b);
            }
        }
    }

    // All outputs after each other, each with the values of all points.
    private double[] ComputePoints(EvaluationPlan plan, int block)
    {
        var points = plan.Points(block);
        var outputs = new double[_model.Outputs][];
        for (var o = 0; o < outputs.Length; o++)
        {
            outputs[o] = new double[points.Count];
        }

        _model.Evaluate(points.Count, points.Columns, outputs);
        return [.. outputs.SelectMany(o => o)];
    }

    // For each output and sub-block: count with a value, mean, squared deviations, least, largest, events, not reached; then the bins of the values.
    private double[] ComputeDraws(MonteCarloMethod method, int block)
    {
        const int Sums = StudyAccumulator.SumsASubBlock;
        var inputs = StudyDraws.Buffers(_draws.Inputs);
        var slice = StudyDraws.Buffers(_draws.Outputs);
        var values = new double[_draws.Outputs][];
        var counts = new QuantileCounts[_draws.Outputs];
        for (var o = 0; o < values.Length; o++)
        {
            values[o] = new double[_study.DrawsASum];
            counts[o] = new();
        }

        var events = new int[_draws.Outputs];
        var left = method.Draws - ((long)block * _study.DrawsAPiece);
        var payload = new double[values.Length * _study.SumsAPiece * Sums];
        for (var sub = 0; sub < _study.SumsAPiece && left > 0; sub++)
        {
            var filled = 0;
            Array.Clear(events);
            while (filled < _study.DrawsASum && left > 0)
            {
                var size = (int)Math.Min(_draws.SliceSize, left);
                var number =
                    (((long)block * _study.DrawsAPiece) + (sub * _study.DrawsASum) + filled)
                    / _draws.SliceSize;
                _draws.FillOutputs(number, size, inputs, slice);
                for (var o = 0; o < values.Length; o++)
                {
                    var drawn = slice[o].AsSpan(0, size);
                    if (_study.Outputs[o].IsEvent)
                    {
                        events[o] += Events(drawn);
                    }
                    else
                    {
                        drawn.CopyTo(values[o].AsSpan(filled));
                    }
                }

                filled += size;
                left -= size;
            }

            for (var o = 0; o < values.Length; o++)
            {
                var at = ((o * _study.SumsAPiece) + sub) * Sums;
                if (_study.Outputs[o].IsEvent)
                {
                    // All moments of a yes or no follow from the count.
                    var share = (double)events[o] / filled;
                    double[] known =
                    [
                        filled,
                        share,
                        filled * share * (1 - share),
                        0,
                        1,
                        events[o],
                        0,
                    ];
                    known.CopyTo(payload, at);
                    continue;
                }

                var all = values[o].AsSpan(0, filled);
                counts[o].Add(all);
                var reached = Reached(all);
                var sums = RunningMoments.Of(reached);
                payload[at] = sums.Count;
                payload[at + 1] = sums.Mean;
                payload[at + 2] = sums.SquaredDeviations;
                payload[at + 3] = sums.Count == 0 ? 0 : sums.Least;
                payload[at + 4] = sums.Count == 0 ? 0 : sums.Largest;
                payload[at + 5] = sums.Count;
                payload[at + 6] = filled - reached.Length;
            }
        }

        var tail = new List<double>();
        foreach (var count in counts)
        {
            var bins = count.Bins.ToArray();
            tail.Add(bins.Length);
            foreach (var (key, number) in bins)
            {
                tail.Add(key);
                tail.Add(number);
            }
        }

        return [.. payload, .. tail];
    }

    // The finite values, moved together in place.
    private static Span<double> Reached(Span<double> values)
    {
        var kept = 0;
        foreach (var value in values)
        {
            if (double.IsFinite(value))
            {
                values[kept++] = value;
            }
        }

        return values[..kept];
    }

    private static int Events(ReadOnlySpan<double> values)
    {
        // Ones and zeros: their sum is exact.
        var sum = Vector<double>.Zero;
        var at = 0;
        for (; at <= values.Length - Vector<double>.Count; at += Vector<double>.Count)
        {
            sum += new Vector<double>(values[at..]);
        }

        var events = Vector.Sum(sum);
        for (; at < values.Length; at++)
        {
            events += values[at];
        }

        return (int)events;
    }
}
