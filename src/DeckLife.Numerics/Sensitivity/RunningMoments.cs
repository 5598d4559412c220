namespace DeckLife.Numerics.Sensitivity;

/// <summary>Count, mean, sum of squared deviations and range of values, that can be joined with others'.</summary>
/// <remarks>Source: Chan, Golub &amp; LeVeque, The American Statistician 37 (1983) 242-247. Joining in a fixed order gives the same bytes.</remarks>
/// <param name="Count">Number of values.</param>
/// <param name="Mean">Their mean; 0 where there are none.</param>
/// <param name="SquaredDeviations">Sum of squared deviations from the mean.</param>
/// <param name="Least">Smallest value; positive infinity where there are none.</param>
/// <param name="Largest">Largest value; negative infinity where there are none.</param>
public readonly record struct RunningMoments(
    long Count,
    double Mean,
    double SquaredDeviations,
    double Least,
    double Largest
)
{
    /// <summary>No values yet.</summary>
    public static RunningMoments None { get; } =
        new(0, 0, 0, double.PositiveInfinity, double.NegativeInfinity);

    /// <summary>Variance with divisor n - 1; 0 for fewer than 2 values.</summary>
    public double Variance => Count < 2 ? 0 : SquaredDeviations / (Count - 1);

    /// <summary>Standard error of the mean of independent values.</summary>
    public double StandardErrorOfMean => Count < 2 ? 0 : Math.Sqrt(Variance / Count);

    /// <summary>The moments of a list of values, in two passes.</summary>
    /// <param name="values">Finite values.</param>
    public static RunningMoments Of(ReadOnlySpan<double> values)
    {
        if (values.IsEmpty)
        {
            return None;
        }

        double sum = 0,
            least = double.PositiveInfinity,
            largest = double.NegativeInfinity;
        foreach (var value in values)
        {
            sum += value;
            least = Math.Min(least, value);
            largest = Math.Max(largest, value);
        }

        var mean = sum / values.Length;
        var squares = 0.0;
        foreach (var value in values)
        {
            squares += (value - mean) * (value - mean);
        }

        return new(values.Length, mean, squares, least, largest);
    }

    /// <summary>The moments of these values and others together.</summary>
    /// <param name="other">The others.</param>
    public RunningMoments With(RunningMoments other)
    {
        if (other.Count == 0)
        {
            return this;
        }

        if (Count == 0)
        {
            return other;
        }

        var count = Count + other.Count;
        var difference = other.Mean - Mean;
        return new(
            count,
            Mean + (difference * other.Count / count),
            SquaredDeviations
                + other.SquaredDeviations
                + (difference * difference * ((double)Count * other.Count / count)),
            Math.Min(Least, other.Least),
            Math.Max(Largest, other.Largest)
        );
    }
}
