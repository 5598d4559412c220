namespace DeckLife.Projection;

/// <summary>What comes off and goes on in sections that differ in their cover alone: each depth a constant, or a constant beside the cover.</summary>
/// <remarks>The cover is the depth looked at below the surface before the first change.</remarks>
internal sealed class SectionGeometry
{
    // Depths nearer than this are the same [mm].
    private const double Grain = 1e-6;

    private readonly int renewedAt;

    private SectionGeometry(double[] depthsMm, int renewedAt)
    {
        DepthsMm = depthsMm;
        this.renewedAt = renewedAt;
    }

    /// <summary>Depth taken off, thickness placed, and old concrete left, then for each event depth taken off and thickness placed [mm]; less the cover where they follow it.</summary>
    public double[] DepthsMm { get; }

    /// <summary>The geometry of one section of a batch.</summary>
    public static SectionGeometry Of(SectionBatch batch, int section, int renewedAt)
    {
        var cover = CoverMm(batch, section);
        var depths = new double[3 + 2 * batch.Events.Count];
        depths[0] = batch.RemovedMm[section];
        depths[1] = batch.LayerThicknessMm[section];
        depths[2] = batch.OldThicknessMm[section];
        for (var e = 0; e < batch.Events.Count; e++)
        {
            depths[3 + 2 * e] = batch.Events[e].RemovedMm?[section] ?? 0;
            depths[4 + 2 * e] = batch.Events[e].LayerThicknessMm?[section] ?? 0;
        }

        for (var d = 0; d < depths.Length; d++)
        {
            depths[d] = Math.Round((depths[d] - Slope(d, renewedAt) * cover) / Grain) * Grain;
        }

        return new(depths, renewedAt);
    }

    /// <summary>The cover of a section [mm].</summary>
    public static double CoverMm(SectionBatch batch, int section) =>
        batch.BarDepthMm[section] - batch.LayerThicknessMm[section] + batch.RemovedMm[section];

    /// <summary>Whether a section has this geometry.</summary>
    public bool Fits(SectionBatch batch, int section)
    {
        var cover = CoverMm(batch, section);
        if (
            !Same(0, batch.RemovedMm[section], cover)
            || !Same(1, batch.LayerThicknessMm[section], cover)
            || !Same(2, batch.OldThicknessMm[section], cover)
        )
        {
            return false;
        }

        for (var e = 0; e < batch.Events.Count; e++)
        {
            if (
                !Same(3 + 2 * e, batch.Events[e].RemovedMm?[section] ?? 0, cover)
                || !Same(4 + 2 * e, batch.Events[e].LayerThicknessMm?[section] ?? 0, cover)
            )
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>One of <see cref="DepthsMm"/> at a cover [mm].</summary>
    public double At(int depth, double coverMm) =>
        DepthsMm[depth] + Slope(depth, renewedAt) * coverMm;

    /// <summary>
    /// The covers between which the place looked at lies in old concrete after every change, or in what it was renewed with, below the surface and
    /// above the bottom [mm].
    /// </summary>
    public (double Low, double High) CoversMm()
    {
        // Nearer to the surface contents change within weeks: such places are solved one by one.
        const double LeastMm = 4;
        const double BelowMm = 7;
        const double LeftMm = 11;
        double low = LeastMm,
            high = double.PositiveInfinity;
        // Depth looked at, beside the cover, and thickness: what follows the cover comes off as deep as it goes on.
        var point = 0.0;
        var whole = DepthsMm[0] + DepthsMm[2];
        for (var change = 0; change <= (DepthsMm.Length - 3) / 2; change++)
        {
            var (off, on) = change == 0 ? (0, 1) : (1 + 2 * change, 2 + 2 * change);
            if (renewedAt == change)
            {
                high = Math.Min(high, whole - LeftMm - DepthsMm[off]);
            }
            else
            {
                low = Math.Max(low, DepthsMm[off] - point);
            }

            point += DepthsMm[on] - DepthsMm[off];
            whole += DepthsMm[on] - DepthsMm[off];
            low = Math.Max(low, LeastMm - point);
        }

        return (low, Math.Min(high, whole - BelowMm - point));
    }

    private static int Slope(int depth, int renewedAt) =>
        renewedAt < 0 ? 0
        : renewedAt == 0
            ? depth switch
            {
                0 or 1 => 1,
                2 => -1,
                _ => 0,
            }
        : depth == 1 + 2 * renewedAt || depth == 2 + 2 * renewedAt ? 1
        : 0;

    private bool Same(int depth, double value, double coverMm) =>
        Math.Abs(value - At(depth, coverMm)) < 2 * Grain;
}
