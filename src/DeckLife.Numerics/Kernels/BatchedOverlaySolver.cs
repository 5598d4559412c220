using System.Buffers;
using System.Collections.Concurrent;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>
/// Content at one depth of many layered sections in time: diffusion through layers that age each at their own pace, what earlier exposures
/// left behind, material taken off and placed at dated events; vectors across samples, and an error estimate for every sample.
/// </summary>
/// <remarks>
/// Equation: dC/dt = d/dx(D_i(t) dC/dx) in each layer, content and flux continuous at interfaces, content given or no flux at the surface,
/// sealed bottom. Two-stage L-stable steps in the layers' clocks s_i = ∫D_i dt, compact fourth-order mass rows, two meshes whose difference
/// both improves the result (Richardson) and is its error estimate; samples beyond the tolerance are solved again, finer.
/// Source: Alexander, SIAM J. Numer. Anal. 14 (1977) 1006; clocks: Crank, The Mathematics of Diffusion (1975), section 7.1.
/// Seasons of temperature enter through the clocks, whose steps need not follow the year; where layers feel them unlike, steps of two months at most.
/// Valid for: linear transport, up to 4 layers at the start and 6 with those placed.
/// Accuracy: <see cref="SectionHistories.ErrorEstimate"/>, from one day after the start and each event on. Each sample's result depends on
/// nothing but its own input: not on the other samples, the number of threads or the chunks. Checked by: BatchedOverlaySolverTests.
/// </remarks>
public sealed class BatchedOverlaySolver
{
    // Large enough to fill the groups of a chunk with whole vectors, small enough for the second-level cache.
    private const int ChunkSize = 512;

    private readonly SectionSolverOptions _options;
    private readonly ConcurrentBag<SectionWorkspace> _workspaces = [];

    /// <summary>A solver; it may be used again, also from several threads.</summary>
    /// <param name="options">How finely to solve; absent: the defaults.</param>
    public BatchedOverlaySolver(SectionSolverOptions? options = null)
    {
        _options = options ?? new SectionSolverOptions();
        ArgumentOutOfRangeException.ThrowIfNegative(_options.FirstLevel, nameof(options));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(
            _options.LastLevel,
            SegmentLayout.LastLevel,
            nameof(options)
        );
        ArgumentOutOfRangeException.ThrowIfLessThan(
            _options.LastLevel,
            _options.FirstLevel,
            nameof(options)
        );
        ArgumentOutOfRangeException.ThrowIfNegative(_options.Threads, nameof(options));
        if (!(_options.Tolerance > 0))
        {
            throw new ArgumentOutOfRangeException(
                nameof(options),
                _options.Tolerance,
                "The tolerance must be above 0."
            );
        }

        if (_options.Width > VectorWidth.InUse)
        {
            throw new ArgumentOutOfRangeException(
                nameof(options),
                _options.Width,
                FormattableString.Invariant($"This process has {VectorWidth.Description}.")
            );
        }
    }

    /// <summary>Solves all samples.</summary>
    /// <param name="samples">The sections at time 0.</param>
    /// <param name="timesYr">Times wanted [yr], rising, the first at least 0, the last above 0; at the moment of an event, the state before it.</param>
    /// <param name="events">Dated changes in rising order; those at or after the last time do nothing.</param>
    /// <param name="cancellation">Stops between two chunks.</param>
    /// <returns>Histories at the point of every sample.</returns>
    /// <exception cref="ArgumentException">A value is outside its range; the message names the sample, the value and the range.</exception>
    public SectionHistories Solve(
        SectionSamples samples,
        ReadOnlySpan<double> timesYr,
        IReadOnlyList<SectionEvent>? events = null,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(samples);
        var target = new SectionHistories(samples.Count, timesYr.ToArray());
        Solve(samples, target, events, cancellation);
        return target;
    }

    /// <summary>Solves all samples again into histories of an earlier call, at the same times: what is drawn in a loop needs no new memory.</summary>
    /// <param name="samples">The sections at time 0, as many as the histories are for.</param>
    /// <param name="target">Receives the histories.</param>
    /// <param name="events">Dated changes in rising order; those at or after the last time do nothing.</param>
    /// <param name="cancellation">Stops between two chunks.</param>
    /// <exception cref="ArgumentException">A value is outside its range; the message names the sample, the value and the range.</exception>
    public void Solve(
        SectionSamples samples,
        SectionHistories target,
        IReadOnlyList<SectionEvent>? events = null,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(samples);
        ArgumentNullException.ThrowIfNull(target);
        if (target.Count != samples.Count)
        {
            throw new ArgumentException(
                "The histories are for another number of samples.",
                nameof(target)
            );
        }

        events ??= [];
        var times = target.Times;
        Check(samples, times, events);
        var phases = SectionPhase.Split(samples, events, times);
        var chunks = FixedOrderParallel.ChunkCount(samples.Count, ChunkSize);
        FixedOrderParallel.Run(
            chunks,
            () =>
            {
                var workspace = _workspaces.TryTake(out var idle)
                    ? idle
                    : new SectionWorkspace(_options.Width);
                workspace.Begin();
                return workspace;
            },
            (workspace, chunk) =>
                workspace.Solve(
                    samples,
                    phases,
                    times,
                    _options,
                    chunk * ChunkSize,
                    Math.Min(ChunkSize, samples.Count - (chunk * ChunkSize)),
                    target
                ),
            _options.Threads,
            _workspaces.Add,
            cancellation
        );
    }

    private static void Check(
        SectionSamples samples,
        double[] times,
        IReadOnlyList<SectionEvent> events
    )
    {
        if (times.Length == 0 || !(times[^1] > 0) || !(times[0] >= 0) || !(times[^1] < 1e5))
        {
            throw new ArgumentException(
                "Times from 0 yr on are needed, the last above 0 yr.",
                nameof(times)
            );
        }

        for (var i = 1; i < times.Length; i++)
        {
            if (!(times[i] > times[i - 1]))
            {
                throw new ArgumentException("The times must rise.", nameof(times));
            }
        }

        var room = ArrayPool<double>.Shared.Rent(2 * samples.Count);
        try
        {
            CheckSections(
                samples,
                events,
                room.AsSpan(0, samples.Count),
                room.AsSpan(samples.Count, samples.Count)
            );
        }
        finally
        {
            ArrayPool<double>.Shared.Return(room);
        }
    }

    private static void CheckSections(
        SectionSamples samples,
        IReadOnlyList<SectionEvent> events,
        Span<double> thickness,
        Span<double> point
    )
    {
        thickness.Clear();
        for (var m = 0; m < samples.Layers.Count; m++)
        {
            samples.Layers[m].Check(FormattableString.Invariant($"layer {m + 1} from the top"));
            for (var i = 0; i < samples.Count; i++)
            {
                thickness[i] += samples.Layers[m].ThicknessMm[i];
            }
        }

        samples.PointDepthMm.AsSpan().CopyTo(point);
        CheckPoints(samples.SurfaceContent, point, thickness, "start");
        if (samples.Threshold is { } threshold)
        {
            if (threshold.Length != samples.Count)
            {
                throw new ArgumentException(
                    "As many thresholds as samples are needed.",
                    nameof(samples)
                );
            }

            for (var i = 0; i < threshold.Length; i++)
            {
                LayerSamples.Require(
                    double.IsFinite(threshold[i]),
                    "section",
                    i,
                    "threshold",
                    threshold[i],
                    "finite"
                );
            }
        }

        if (samples.Layers.Count + events.Count(e => e.Placed is not null) > 6)
        {
            throw new ArgumentException(
                "At most 6 layers can be there in all, those placed included.",
                nameof(events)
            );
        }

        var last = 0.0;
        foreach (var item in events)
        {
            CheckEvent(item, last, samples.Count, samples.SurfaceContent, point, thickness);
            last = item.AtYr;
        }
    }

    private static void CheckEvent(
        SectionEvent item,
        double last,
        int count,
        double[] surface,
        Span<double> point,
        Span<double> thickness
    )
    {
        if (!(item.AtYr > last))
        {
            throw new ArgumentException("The events must rise in time.", nameof(item));
        }

        var name = FormattableString.Invariant($"event at {item.AtYr} yr");
        if (
            (item.RemovedMm ?? surface).Length != count
            || (item.SurfaceContent ?? surface).Length != count
            || (item.Placed?.Count ?? count) != count
        )
        {
            throw new ArgumentException(
                $"{name}: as many values as samples are needed.",
                nameof(item)
            );
        }

        item.Placed?.Check(name);
        for (var i = 0; i < count; i++)
        {
            var removed = item.RemovedMm?[i] ?? 0;
            LayerSamples.Require(
                removed >= 0 && removed <= thickness[i] - 10,
                name,
                i,
                "removed depth",
                removed,
                "from 0 mm to 10 mm above the bottom"
            );
            var change = (item.Placed?.ThicknessMm[i] ?? 0) - removed;
            thickness[i] += change;
            point[i] += change;
        }

        CheckPoints(item.SurfaceContent ?? surface, point, thickness, name);
    }

    private static void CheckPoints(
        double[] surface,
        ReadOnlySpan<double> point,
        ReadOnlySpan<double> thickness,
        string name
    )
    {
        for (var i = 0; i < point.Length; i++)
        {
            LayerSamples.Require(
                point[i] > 0 && point[i] <= thickness[i] - 5,
                name,
                i,
                "depth of the point",
                point[i],
                "above 0 mm, at least 5 mm above the bottom"
            );
            LayerSamples.Require(
                surface[i] >= 0 && surface[i] < 1e6,
                name,
                i,
                "surface content",
                surface[i],
                "at least 0"
            );
        }
    }
}
