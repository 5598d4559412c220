namespace DeckLife.Numerics.Kernels;

/// <summary>Results of a batch of profile fits.</summary>
public sealed class BatchedFits
{
    internal BatchedFits(int count, bool hasLimits = false, bool ofAll = false)
    {
        SpreadLowMm2 = new double[hasLimits ? count : 0];
        SpreadHighMm2 = new double[hasLimits ? count : 0];
        SurfaceContentLow = new double[ofAll ? count : 0];
        SurfaceContentHigh = new double[ofAll ? count : 0];
        BackgroundLow = new double[ofAll ? count : 0];
        BackgroundHigh = new double[ofAll ? count : 0];
        Count = count;
        SurfaceContent = new double[count];
        Background = new double[count];
        SpreadMm2 = new double[count];
        ResidualSumOfSquares = new double[count];
        Status = new BatchedFitStatus[count];
    }

    /// <summary>Number of profiles.</summary>
    public int Count { get; }

    /// <summary>Surface content Cs [profiles].</summary>
    public double[] SurfaceContent { get; }

    /// <summary>Background C0: fitted, at least 0, or as given [profiles].</summary>
    public double[] Background { get; }

    /// <summary>D t, the apparent coefficient times the exposure time [mm²] [profiles].</summary>
    public double[] SpreadMm2 { get; }

    /// <summary>Lower limit of D t [mm²] [profiles]; 0 where there is none within the search interval. Empty unless limits were asked.</summary>
    public double[] SpreadLowMm2 { get; }

    /// <summary>Upper limit of D t [mm²] [profiles]; positive infinity where there is none. Empty unless limits were asked.</summary>
    public double[] SpreadHighMm2 { get; }

    /// <summary>Lower limit of Cs, at least 0 [profiles]; empty unless limits of all were asked.</summary>
    public double[] SurfaceContentLow { get; }

    /// <summary>Upper limit of Cs [profiles]; positive infinity where there is none within the search interval.</summary>
    public double[] SurfaceContentHigh { get; }

    /// <summary>Lower limit of C0, at least 0 [profiles]; C0 itself where it is given.</summary>
    public double[] BackgroundLow { get; }

    /// <summary>Upper limit of C0 [profiles]; positive infinity where there is none within the search interval.</summary>
    public double[] BackgroundHigh { get; }

    /// <summary>Weighted sum of squared residuals [profiles].</summary>
    public double[] ResidualSumOfSquares { get; }

    /// <summary>How the fit ended [profiles]; only <see cref="BatchedFitStatus.Converged"/> has numbers to use.</summary>
    public BatchedFitStatus[] Status { get; }
}
