namespace DeckLife.Numerics.Kernels;

/// <summary>The content of a layer at the start, given at depths under its top and read between them by local cubics.</summary>
public sealed class NodalProfileSamples
{
    /// <summary>Arrays for a number of samples.</summary>
    /// <param name="count">Number of samples, at least 1.</param>
    /// <param name="depthsMm">Depths under the layer's top [mm], rising, at least two; held beyond the last.</param>
    public NodalProfileSamples(int count, ReadOnlySpan<double> depthsMm)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(depthsMm.Length, 2);
        for (var i = 1; i < depthsMm.Length; i++)
        {
            if (!(depthsMm[i] > depthsMm[i - 1]))
            {
                throw new ArgumentException("The depths must rise.", nameof(depthsMm));
            }
        }

        DepthsMm = depthsMm.ToArray();
        Content = new double[count * depthsMm.Length];
    }

    /// <summary>The depths [mm].</summary>
    public ReadOnlyMemory<double> DepthsMm { get; }

    /// <summary>Content, shape [samples × depths].</summary>
    public double[] Content { get; }
}
