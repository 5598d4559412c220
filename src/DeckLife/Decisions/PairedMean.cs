namespace DeckLife.Decisions;

/// <summary>A mean over draws with its Monte Carlo standard error.</summary>
/// <param name="Mean">The mean.</param>
/// <param name="Error">Its standard error; 0 for a single draw.</param>
internal readonly record struct PairedMean(double Mean, double Error)
{
    /// <summary>Mean and error of values, one a draw.</summary>
    public static PairedMean Of(IReadOnlyList<double> values)
    {
        var mean = values.Average();
        var squares = values.Sum(v => (v - mean) * (v - mean));
        return new(
            mean,
            values.Count > 1 ? Math.Sqrt(squares / (values.Count - 1.0) / values.Count) : 0
        );
    }

    /// <summary>Mean and error of the differences of two strategies in the same draws.</summary>
    public static PairedMean Difference(
        IReadOnlyList<double> first,
        IReadOnlyList<double> second
    ) => Of([.. first.Select((v, k) => v - second[k])]);

    /// <summary>Mean and error of the difference of two strategies that share no draws.</summary>
    public static PairedMean Independent(IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        var (a, b) = (Of(first), Of(second));
        return new(a.Mean - b.Mean, Math.Sqrt((a.Error * a.Error) + (b.Error * b.Error)));
    }
}
