namespace DeckLife.Numerics.Kernels;

/// <summary>Histories of the content at the point looked at, for many samples.</summary>
public sealed class SectionHistories
{
    internal SectionHistories(int count, double[] timesYr)
    {
        Count = count;
        Times = timesYr;
        Content = new double[checked(count * timesYr.Length)];
        RunningMaximum = new double[count * timesYr.Length];
        ErrorEstimate = new double[count];
        Crossing = new CrossingStatus[count];
        CrossingYr = new double[count];
        CrossingErrorYr = new double[count];
        Level = new byte[count];
    }

    /// <summary>Number of samples.</summary>
    public int Count { get; }

    /// <summary>The times [yr], rising.</summary>
    public IReadOnlyList<double> TimesYr => Times;

    internal double[] Times { get; }

    /// <summary>Content at the point, shape [times × samples]; at the moment of an event, the state before it.</summary>
    public double[] Content { get; }

    /// <summary>Largest content at the point from the start until the time, shape [times × samples].</summary>
    public double[] RunningMaximum { get; }

    /// <summary>
    /// Estimate of the numerical error of <see cref="Content"/> from one day after the start and after each event on, in the content's unit [samples].
    /// </summary>
    public double[] ErrorEstimate { get; }

    /// <summary>Whether the threshold was reached [samples].</summary>
    public CrossingStatus[] Crossing { get; }

    /// <summary>Time of the first crossing [yr] [samples]; 0 where it is <see cref="CrossingStatus.AtStart"/>, the last time asked where it was not reached.</summary>
    public double[] CrossingYr { get; }

    /// <summary>Estimate of the numerical error of <see cref="CrossingYr"/> [yr] [samples]: the content's over its slope, at most the whole time.</summary>
    public double[] CrossingErrorYr { get; }

    /// <summary>The level of refinement that each sample needed, from 0 [samples].</summary>
    public byte[] Level { get; }

    /// <summary>Contents of all samples at one time.</summary>
    /// <param name="time">Number of the time, from 0.</param>
    public ReadOnlySpan<double> ContentAt(int time) => Content.AsSpan(time * Count, Count);

    /// <summary>Running maxima of all samples at one time.</summary>
    /// <param name="time">Number of the time, from 0.</param>
    public ReadOnlySpan<double> RunningMaximumAt(int time) =>
        RunningMaximum.AsSpan(time * Count, Count);
}
