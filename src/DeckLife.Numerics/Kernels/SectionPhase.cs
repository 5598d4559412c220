namespace DeckLife.Numerics.Kernels;

/// <summary>What holds between two events: the layers there are, the surface, and the times asked within.</summary>
internal sealed class SectionPhase
{
    /// <summary>The early time that guides the mesh [yr]: some days.</summary>
    public const double EarlyYr = 0.02;

    /// <summary>Time of the phase's start [yr].</summary>
    public required double StartYr { get; init; }

    /// <summary>Length of the phase [yr].</summary>
    public required double DurationYr { get; init; }

    /// <summary>Layers from the top down, those of all phases before included.</summary>
    public required LayerSamples[] Layers { get; init; }

    /// <summary>Age of each layer at the phase's start [yr].</summary>
    public required double[] AgesYr { get; init; }

    /// <summary>Time from the start, or from each layer's placing, to the phase's start [yr] [layers].</summary>
    public required double[] ElapsedYr { get; init; }

    /// <summary>What the seasons make of each layer's clock [layers]; absent where a layer doesn't feel them.</summary>
    public required SeasonalClock?[] Seasons { get; init; }

    /// <summary>The seasonal factor of a layer at the phase's start, which guides the mesh; 1 where there is none.</summary>
    /// <param name="layer">Number of the layer.</param>
    public double SeasonAtStart(int layer) => Layers[layer].Season?.At(StartYr) ?? 1;

    /// <summary>How the surface content runs.</summary>
    public required SurfaceShape Shape { get; init; }

    /// <summary>Time of the shape's own start, relative to the phase's [yr].</summary>
    public required double ShapeStartYr { get; init; }

    /// <summary>Surface contents [samples].</summary>
    public required double[] SurfaceContent { get; init; }

    /// <summary>Depth taken off before the phase [mm] [samples]; absent: nothing.</summary>
    public double[]? RemovedMm { get; init; }

    /// <summary>Whether the first layer was placed at the phase's start.</summary>
    public bool HasPlaced { get; init; }

    /// <summary>Number of the first time asked that lies in the phase.</summary>
    public required int FirstTime { get; init; }

    /// <summary>Number of times asked that lie in the phase: after its start, up to its end.</summary>
    public required int TimeCount { get; init; }

    /// <summary>ln(reference age / age) of each layer a few days after the start [layers]: what guides the mesh.</summary>
    public required double[] EarlyLogRatios { get; init; }

    /// <summary>For each level and grading, the time by which eight steps are done [yr], and there ln(reference age / age) of each layer.</summary>
    public required (double TimeYr, double[] LogRatios)[] EighthSteps { get; init; }

    /// <summary>ln(reference age / age) of a sample's layer a time after the phase's start, as in <see cref="EarlyLogRatios"/>.</summary>
    /// <param name="layer">Number of the layer.</param>
    /// <param name="sample">Number of the sample among all.</param>
    /// <param name="timeYr">The time; the age is taken half-way there [yr].</param>
    /// <param name="shared">The value where the samples share their ages.</param>
    public double LogRatio(int layer, int sample, double timeYr, double shared) =>
        Layers[layer].OwnAgesAtStartYr is { } ages
            ? Math.Log(
                Layers[layer].ReferenceAgeYr
                    / Math.Min(
                        Layers[layer].ConstantAfterYr,
                        ages[sample] + ElapsedYr[layer] + (0.5 * timeYr)
                    )
            )
            : shared;

    private static double[] LogRatios(
        IEnumerable<LayerSamples> layers,
        double[] ages,
        double timeYr
    ) =>
        [
            .. layers.Select(
                (layer, m) =>
                    Math.Log(
                        layer.ReferenceAgeYr
                            / Math.Min(layer.ConstantAfterYr, ages[m] + (0.5 * timeYr))
                    )
            ),
        ];

    private static (double TimeYr, double[] LogRatios)[] Eighths(
        List<LayerSamples> layers,
        double[] ages,
        double durationYr
    )
    {
        var result = new (double, double[])[
            (SegmentLayout.LastLevel + 1) * SegmentLayout.Gradings.Length
        ];
        for (var level = 0; level <= SegmentLayout.LastLevel; level++)
        {
            for (var g = 0; g < SegmentLayout.Gradings.Length; g++)
            {
                var time =
                    durationYr
                    * Math.Pow(8.0 / SegmentLayout.Steps(level), SegmentLayout.Gradings[g]);
                result[(level * SegmentLayout.Gradings.Length) + g] = (
                    time,
                    LogRatios(layers, ages, time)
                );
            }
        }

        return result;
    }

    /// <summary>Splits the whole time at the events.</summary>
    public static SectionPhase[] Split(
        SectionSamples samples,
        IReadOnlyList<SectionEvent> events,
        double[] times
    )
    {
        var phases = new List<SectionPhase>();
        var layers = new List<LayerSamples>(samples.Layers);
        var placed = layers.Select(_ => 0.0).ToList();
        var shape = samples.Surface;
        var shapeStart = 0.0;
        var surface = samples.SurfaceContent;
        var start = 0.0;
        double[]? removed = null;
        var hasPlaced = false;
        var time = 0;
        while (time < times.Length && times[time] <= 0)
        {
            time++;
        }

        for (var e = 0; e <= events.Count; e++)
        {
            var end = e < events.Count ? Math.Min(events[e].AtYr, times[^1]) : times[^1];
            if (end > start)
            {
                var first = time;
                while (time < times.Length && times[time] <= end)
                {
                    time++;
                }

                double[] ages =
                [
                    .. layers.Select((layer, i) => layer.AgeAtStartYr + (start - placed[i])),
                ];
                phases.Add(
                    new SectionPhase
                    {
                        StartYr = start,
                        DurationYr = end - start,
                        Layers = [.. layers],
                        AgesYr = ages,
                        ElapsedYr = [.. placed.Select(p => start - p)],
                        Seasons =
                        [
                            .. layers.Select(
                                (layer, i) =>
                                    layer.Season is { } season
                                        ? new SeasonalClock(
                                            season,
                                            start,
                                            end - start,
                                            ages[i],
                                            layer.ConstantAfterYr
                                        )
                                        : null
                            ),
                        ],
                        EarlyLogRatios = LogRatios(layers, ages, EarlyYr),
                        EighthSteps = Eighths(layers, ages, end - start),
                        Shape = shape,
                        ShapeStartYr = shapeStart - start,
                        SurfaceContent = surface,
                        RemovedMm = removed,
                        HasPlaced = hasPlaced,
                        FirstTime = first,
                        TimeCount = time - first,
                    }
                );
                removed = null;
                hasPlaced = false;
            }

            if (e == events.Count)
            {
                break;
            }

            var item = events[e];
            if (item.AtYr >= times[^1])
            {
                break;
            }

            start = item.AtYr;
            removed = item.RemovedMm;
            if (item.Placed is { } layer)
            {
                layers.Insert(0, layer);
                placed.Insert(0, start);
                hasPlaced = true;
            }

            if (item.Surface is { } next)
            {
                shape = next;
                shapeStart = start;
            }

            surface = item.SurfaceContent ?? surface;
        }

        return [.. phases];
    }
}
