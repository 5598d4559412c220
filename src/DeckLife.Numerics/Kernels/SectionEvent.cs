namespace DeckLife.Numerics.Kernels;

/// <summary>A dated change of all samples' sections: material taken off the top, a layer placed, a new surface, or any of them.</summary>
public sealed class SectionEvent
{
    /// <summary>An event.</summary>
    /// <param name="atYr">Time from the start [yr], above 0.</param>
    public SectionEvent(double atYr)
    {
        if (!(atYr > 0 && double.IsFinite(atYr)))
        {
            throw new ArgumentOutOfRangeException(
                nameof(atYr),
                atYr,
                "A time above 0 yr is needed."
            );
        }

        AtYr = atYr;
    }

    /// <summary>Time from the start [yr].</summary>
    public double AtYr { get; }

    /// <summary>Depth taken off each sample [mm] [samples]; absent: nothing. The depth looked at stays at its place in space, even in new material.</summary>
    public double[]? RemovedMm { get; init; }

    /// <summary>The layer placed on top; absent: none.</summary>
    public LayerSamples? Placed { get; init; }

    /// <summary>How the surface content runs from now on, its time counted from the event; absent: as before.</summary>
    public SurfaceShape? Surface { get; init; }

    /// <summary>Each sample's surface content from now on [samples]; absent: as before.</summary>
    public double[]? SurfaceContent { get; init; }
}
