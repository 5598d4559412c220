using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>Which slices lie above a peak that is too high to be noise: wetting, drying and carbonation lower the skin's content.</summary>
/// <remarks>
/// Rule: slices above the largest content are left out where it exceeds each of them by more than 2 combined standard deviations
/// (given, else 8 % of each value) and its centre lies no deeper than 25.4 mm. The bare maximum would leave slices out in 9 % of
/// cores that have no skin.
/// </remarks>
internal static class SkinRule
{
    // Judgement: sampling and titration together (common practice gives 5 to 15 % for powder of one slice). Simulated on cores without a skin, errors of
    // 8 %: the rule leaves slices out in 0.01 % of cores of six slices of 12.7 mm and 0.1 % of eight of 6.35 mm; half of either number makes it
    // 0.1 and 1.5 %; the bare maximum does so in 1 and 11 %.
    private const double RelativeSd = 0.08;

    // Judgement: one inch, the depth that wetting and drying reach (common practice); a peak that lies deeper is no skin.
    private const double DeepestPeakMm = 25.4;
    private const double CombinedSds = 2;

    /// <summary>Applies the rule to slices ordered by depth.</summary>
    /// <returns>Number of slices to leave out, the index of the peak, and the smallest excess in combined standard deviations.</returns>
    public static (int Skip, int Peak, double Excess) Apply(IReadOnlyList<ChlorideSlice> slices)
    {
        var peak = 0;
        for (var i = 1; i < slices.Count; i++)
        {
            var larger =
                slices[i].Content.KilogramsPerCubicMetre
                > slices[peak].Content.KilogramsPerCubicMetre;
            if (!slices[i].IsNonDetect && larger)
            {
                peak = i;
            }
        }

        // Determinations of the peak's own depth lie beside it, not above.
        var above = peak;
        while (above > 0 && slices[above - 1].CentreMm >= slices[peak].CentreMm)
        {
            above--;
        }

        if (above == 0)
        {
            return (0, 0, 0);
        }

        var least = double.PositiveInfinity;
        for (var i = 0; i < above; i++)
        {
            var rise =
                slices[peak].Content.KilogramsPerCubicMetre
                - slices[i].Content.KilogramsPerCubicMetre;
            var sd = Math.Sqrt(Square(Sd(slices[peak])) + Square(Sd(slices[i])));
            least = Math.Min(least, sd > 0 ? rise / sd : double.PositiveInfinity);
        }

        var applies = least > CombinedSds && slices[peak].CentreMm <= DeepestPeakMm;
        return (applies ? above : 0, peak, least);
    }

    private static double Sd(ChlorideSlice slice) =>
        slice.StandardDeviation
        ?? RelativeSd * slice.Content.KilogramsPerCubicMetre / Math.Sqrt(slice.Replicates);

    private static double Square(double x) => x * x;
}
