using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>
/// The probability of a limit state by conditional quasi-Monte Carlo: threshold and surface content are integrated analytically, depth, D and m
/// by a randomly shifted lattice; or, for comparison, by counting over all five.
/// </summary>
/// <remarks>
/// Equation: P(t) = E[Φ((E ln Cs + ln erfc z - E ln Ct) / sqrt(var ln Cs + var ln Ct))], z = x / (2 sqrt(s(t))).
/// Source: conditional Monte Carlo: Hammersley &amp; Handscomb, Monte Carlo Methods (1964), section 6.6; the standard error over independent
/// random shifts: Sloan &amp; Joe (1994), chapter 5. Results are summed in the order of the points: the same for any number of threads.
/// Accuracy: the standard error returned; functions to 1e-14. Checked by: ConditionalEstimatorTests.
/// </remarks>
public sealed class ConditionalEstimator
{
    private const int ChunkSize = 1024;

    private readonly LimitStateModel _model;
    private readonly LaneWidth _width;

    /// <summary>An estimator of one model.</summary>
    /// <param name="model">The random variables.</param>
    /// <param name="width">The vectors to use; by default the widest that the machine has.</param>
    public ConditionalEstimator(LimitStateModel model, LaneWidth? width = null)
    {
        ArgumentNullException.ThrowIfNull(model);
        model.Check();
        model.CheckSpread();
        _model = model;
        _width = width ?? VectorWidth.InUse;
    }

    /// <summary>Estimates the probability at several times.</summary>
    /// <param name="timesYr">Times [yr], above 0.</param>
    /// <param name="points">Points a shift, at most 2^18; a power of two is best.</param>
    /// <param name="shifts">Number of random shifts, at least 2.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="threads">Number of threads; 0 for one a processor.</param>
    public ProbabilityEstimate[] Estimate(
        ReadOnlySpan<double> timesYr,
        int points,
        int shifts,
        ulong seed,
        int threads = 0
    ) => Run(timesYr, points, shifts, seed, threads, isCounting: false);

    /// <summary>The same by counting how often the threshold is reached, all five variables sampled: far less exact, for comparison.</summary>
    /// <param name="timesYr">Times [yr], above 0.</param>
    /// <param name="points">Points a shift, at most 2^18; a power of two is best.</param>
    /// <param name="shifts">Number of random shifts, at least 2.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="threads">Number of threads; 0 for one a processor.</param>
    public ProbabilityEstimate[] EstimateByCounting(
        ReadOnlySpan<double> timesYr,
        int points,
        int shifts,
        ulong seed,
        int threads = 0
    ) => Run(timesYr, points, shifts, seed, threads, isCounting: true);

    private ProbabilityEstimate[] Run(
        ReadOnlySpan<double> timesYr,
        int points,
        int shifts,
        ulong seed,
        int threads,
        bool isCounting
    )
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(points, RandomlyShiftedLattice.LargestCount);
        ArgumentOutOfRangeException.ThrowIfLessThan(shifts, 2);
        var times = timesYr.ToArray();
        foreach (var time in times)
        {
            if (!(time > 0 && double.IsFinite(time)))
            {
                throw new ArgumentOutOfRangeException(
                    nameof(timesYr),
                    time,
                    "Times above 0 yr are needed."
                );
            }
        }

        var numbers = times.Select(t => new LimitStateNumbers(_model, t)).ToArray();
        var indicators = isCounting
            ? times.Select(t => new LimitStateIndicator(_model, t, _width)).ToArray()
            : [];
        var lattices = new RandomlyShiftedLattice[shifts];
        for (var r = 0; r < shifts; r++)
        {
            lattices[r] = new RandomlyShiftedLattice(
                6,
                new RandomStream(seed, "limit state", (ulong)r),
                baker: !isCounting
            );
        }

        var chunks = FixedOrderParallel.ChunkCount(points, ChunkSize);
        var sums = new double[shifts * chunks * times.Length];
        FixedOrderParallel.Run(
            shifts * chunks,
            () => new AlignedArray(),
            (memory, piece) =>
                Chunk(
                    lattices[piece / chunks],
                    numbers,
                    indicators,
                    piece % chunks * ChunkSize,
                    Math.Min(ChunkSize, points - (piece % chunks * ChunkSize)),
                    memory,
                    sums.AsSpan(piece * times.Length, times.Length)
                ),
            threads
        );
        var estimates = new ProbabilityEstimate[times.Length];
        for (var t = 0; t < times.Length; t++)
        {
            var means = new double[shifts];
            for (var r = 0; r < shifts; r++)
            {
                for (var c = 0; c < chunks; c++)
                {
                    means[r] += sums[(((r * chunks) + c) * times.Length) + t];
                }

                means[r] /= points;
            }

            var mean = means.Sum() / shifts;
            var square = means.Sum(m => (m - mean) * (m - mean));
            estimates[t] = new ProbabilityEstimate(
                times[t],
                mean,
                Math.Sqrt(square / (shifts * (shifts - 1.0)))
            );
        }

        return estimates;
    }

    private unsafe void Chunk(
        RandomlyShiftedLattice lattice,
        LimitStateNumbers[] numbers,
        LimitStateIndicator[] indicators,
        int first,
        int count,
        AlignedArray memory,
        Span<double> sums
    )
    {
        var isCounting = indicators.Length > 0;
        var room = (count + 7) & ~7; // whole vectors; what lies beyond the points is computed and left out of the sum
        var block = memory.Ensure(6 * ChunkSize);
        if (room != count)
        {
            new Span<double>(block, 6 * ChunkSize).Fill(0.5);
        }

        var variables = isCounting ? 6 : 3;
        for (var d = 0; d < variables; d++)
        {
            var column = new Span<double>(block + (d * ChunkSize), count);
            lattice.FillCoordinate(d, first, column);
            if (!isCounting)
            {
                VectorFunctions.Apply(4, column, column, _width);
            }
        }

        var depth = block;
        var diffusion = block + ChunkSize;
        var ageing = block + (2 * ChunkSize);
        var surface = block + (3 * ChunkSize);
        var threshold = block + (4 * ChunkSize);
        var result = block + (5 * ChunkSize);
        switch (_width, isCounting)
        {
            case (LaneWidth.Eight, false):
                LimitStateLanes512.Transform(numbers[0], depth, diffusion, ageing, room);
                break;
            case (LaneWidth.Four, false):
                LimitStateLanes256.Transform(numbers[0], depth, diffusion, ageing, room);
                break;
            case (_, false):
                LimitStateScalar.Transform(numbers[0], depth, diffusion, ageing, room);
                break;
            default:
                RandomPairs.ToNormals(depth, diffusion, room, _width);
                RandomPairs.ToNormals(ageing, surface, room, _width);
                RandomPairs.ToNormals(threshold, result, room, _width); // of the last pair one is used
                break;
        }

        for (var t = 0; t < numbers.Length; t++)
        {
            switch (_width, isCounting)
            {
                case (LaneWidth.Eight, false):
                    LimitStateLanes512.Probability(
                        numbers[t],
                        depth,
                        diffusion,
                        ageing,
                        result,
                        room
                    );
                    break;
                case (LaneWidth.Four, false):
                    LimitStateLanes256.Probability(
                        numbers[t],
                        depth,
                        diffusion,
                        ageing,
                        result,
                        room
                    );
                    break;
                case (_, false):
                    LimitStateScalar.Probability(
                        numbers[t],
                        depth,
                        diffusion,
                        ageing,
                        result,
                        room
                    );
                    break;
                default:
                    indicators[t]
                        .Fill(
                            new(depth, room),
                            new(diffusion, room),
                            new(ageing, room),
                            new(surface, room),
                            new(threshold, room),
                            new(result, room)
                        );
                    break;
            }

            sums[t] = Sum(result, count);
        }
    }

    // Eight running sums, the same for every width.
    private static unsafe double Sum(double* values, int count)
    {
        Span<double> parts = stackalloc double[8];
        parts.Clear();
        for (var i = 0; i < count; i++)
        {
            parts[i & 7] += values[i];
        }

        return ((parts[0] + parts[1]) + (parts[2] + parts[3]))
            + ((parts[4] + parts[5]) + (parts[6] + parts[7]));
    }
}
