namespace DeckLife.Numerics.Sensitivity;

/// <summary>Percentiles of sorted values, linear between order statistics (Hyndman &amp; Fan 1996, definition 7).</summary>
internal static class SortedPercentile
{
    public static double At(double[] sorted, double p)
    {
        var position = p * (sorted.Length - 1);
        var i = Math.Min((int)position, sorted.Length - 2);
        return sorted.Length == 1
            ? sorted[0]
            : sorted[i] + ((position - i) * (sorted[i + 1] - sorted[i]));
    }
}
