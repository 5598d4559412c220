namespace DeckLife.Fitting;

/// <summary>Whether contents fall with depth.</summary>
internal static class FallRule
{
    /// <summary>Kendall's tau-a of content against depth: concordant less discordant pairs over all pairs.</summary>
    /// <param name="data">Slices ordered by depth.</param>
    /// <param name="from">The first slice that counts.</param>
    /// <remarks>A pair with a non-detect counts only where its order is sure. Source: Kendall, Biometrika 30 (1938) 81.</remarks>
    public static double KendallTau(ProfileData data, int from)
    {
        var sum = 0;
        var pairs = 0;
        for (var i = from; i < data.Count; i++)
        {
            for (var j = i + 1; j < data.Count; j++)
            {
                pairs++;
                sum += Order(data, i, j) * DepthOrder(data, i, j);
            }
        }

        return pairs > 0 ? sum / (double)pairs : 0;
    }

    private static int DepthOrder(ProfileData data, int i, int j) =>
        Math.Sign(data.TopMm[j] + data.BottomMm[j] - data.TopMm[i] - data.BottomMm[i]);

    // +1 where content j is surely above content i.
    private static int Order(ProfileData data, int i, int j)
    {
        var (a, b) = (data.Content[i], data.Content[j]);
        return (data.Censored[i], data.Censored[j]) switch
        {
            (false, false) => Math.Sign(b - a),
            (false, true) => a >= b ? -1 : 0,
            (true, false) => b >= a ? 1 : 0,
            _ => 0,
        };
    }
}
