namespace DeckLife.Numerics.Kernels;

/// <summary>
/// Many samples of one layered section: layers from the top down, the depth looked at (the bar), the surface content, and a threshold
/// where crossing times are wanted. The bottom is sealed.
/// </summary>
public sealed class SectionSamples
{
    /// <summary>A section of the given layers.</summary>
    /// <param name="layers">Layers from the top down, 1 to 4, with as many samples each.</param>
    public SectionSamples(params IReadOnlyList<LayerSamples> layers)
    {
        ArgumentNullException.ThrowIfNull(layers);
        if (layers.Count is < 1 or > 4)
        {
            throw new ArgumentException("From 1 to 4 layers are needed.", nameof(layers));
        }

        Layers = [.. layers];
        Count = layers[0].Count;
        if (layers.Any(layer => layer.Count != Count))
        {
            throw new ArgumentException(
                "All layers must hold the same number of samples.",
                nameof(layers)
            );
        }

        PointDepthMm = new double[Count];
        SurfaceContent = new double[Count];
    }

    /// <summary>Number of samples.</summary>
    public int Count { get; }

    /// <summary>The layers from the top down.</summary>
    public IReadOnlyList<LayerSamples> Layers { get; }

    /// <summary>Depth looked at under the top of the section [mm], above 0, at least 5 mm above the bottom [samples].</summary>
    public double[] PointDepthMm { get; }

    /// <summary>Surface content where the shape's factor is 1, at least 0 [samples].</summary>
    public double[] SurfaceContent { get; }

    /// <summary>How the surface content runs in time.</summary>
    public SurfaceShape Surface { get; set; } = SurfaceShape.Constant;

    /// <summary>Contents whose first crossing is wanted [samples]; absent: none is looked for.</summary>
    public double[]? Threshold { get; set; }
}
