namespace DeckLife.Numerics.Kernels;

/// <summary>
/// The content left in a layer by an earlier exposure, each sample with its own:
/// C(d) = background + (surface - background) erfc((d + removed) / (2 sqrt(spread))), d from the layer's top.
/// </summary>
public sealed class ErfcProfileSamples
{
    /// <summary>Arrays for a number of samples, all 0 but the spread, which is 1.</summary>
    /// <param name="count">Number of samples, at least 1.</param>
    public ErfcProfileSamples(int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        SurfaceContent = new double[count];
        SpreadMm2 = new double[count];
        Array.Fill(SpreadMm2, 1.0);
        RemovedMm = new double[count];
    }

    /// <summary>Surface content of the earlier exposure, at least 0 [samples].</summary>
    public double[] SurfaceContent { get; }

    /// <summary>Integral of D over the earlier exposure [mm²], above 0 [samples].</summary>
    public double[] SpreadMm2 { get; }

    /// <summary>Depth taken off since, at least 0 [mm] [samples].</summary>
    public double[] RemovedMm { get; }
}
