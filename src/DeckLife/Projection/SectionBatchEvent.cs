namespace DeckLife.Projection;

/// <summary>A dated change of all sections of a batch.</summary>
internal sealed class SectionBatchEvent
{
    /// <summary>When, from the batch's start [yr], above 0.</summary>
    public required double AtYr { get; init; }

    /// <summary>Depth taken off, one value a section [mm]; absent: nothing.</summary>
    public double[]? RemovedMm { get; init; }

    /// <summary>Thickness of the layer placed, one value a section [mm]; absent: none.</summary>
    public double[]? LayerThicknessMm { get; init; }

    /// <summary>Its diffusion coefficient at its reference age [mm²/yr].</summary>
    public double[]? LayerDiffusion { get; init; }

    /// <summary>Its content [kg/m³].</summary>
    public double LayerInitial { get; init; }

    /// <summary>How it ages.</summary>
    public AgeingLaw LayerAgeing { get; init; } = AgeingLaw.None;

    /// <summary>Surface content from now on [kg/m³]; absent: as before.</summary>
    public double[]? SurfaceChloride { get; init; }

    /// <summary>Whether no salt passes the surface from now on; absent: as before.</summary>
    public bool? IsSealed { get; init; }
}
