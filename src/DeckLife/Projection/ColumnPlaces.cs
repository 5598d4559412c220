namespace DeckLife.Projection;

/// <summary>Sections of a column's points through all interventions: what comes off and goes on, and where the bar is looked at.</summary>
/// <remarks>
/// A bar that a removal leaves partly exposed still touches old concrete and is held against what lies there: it is then looked at
/// deeper from that intervention on, in a section of its own.
/// </remarks>
internal sealed class ColumnPlaces
{
    // Numerical choice: nearer to the surface than this the content is the surface's own.
    private const double LeastDepthMm = 1;

    // The layered solver keeps its point 5 mm above the bottom; one more for what rounding takes.
    private const double LeastBelowMm = 6;

    private readonly IReadOnlyList<WorkAtPoints> works;
    private readonly int first;
    private readonly int renewedAt;
    private readonly List<int> pointOf = [];
    private readonly List<double> offsetOf = [];

    /// <summary>Lays out the sections.</summary>
    /// <param name="works">What is done.</param>
    /// <param name="which">The points.</param>
    /// <param name="first">The first intervention that changes the section.</param>
    /// <param name="renewedAt">The intervention at which the places are repaired; −1 for never.</param>
    /// <param name="offsets">Depths below the bar to look at instead [mm]; absent: the bars.</param>
    public ColumnPlaces(
        IReadOnlyList<WorkAtPoints> works,
        int[] which,
        int first,
        int renewedAt,
        double[]? offsets = null
    )
    {
        this.works = works;
        this.first = first;
        this.renewedAt = renewedAt;
        SectionOf = new int[works.Count - first][];
        var current = new int[which.Length];
        for (var c = 0; c < which.Length; c++)
        {
            current[c] = -1;
        }

        for (var k = first; k < works.Count; k++)
        {
            for (var c = 0; c < which.Length; c++)
            {
                var before = current[c] < 0 ? 0 : offsetOf[current[c]];
                var offset = offsets?[c] ?? Offset(k, which[c], before);
                if (current[c] < 0 || offset != before)
                {
                    current[c] = pointOf.Count;
                    pointOf.Add(which[c]);
                    offsetOf.Add(offset);
                }
            }

            SectionOf[k - first] = [.. current];
        }

        BarMm = new double[pointOf.Count];
        RemovedMm = new double[works.Count - first][];
        LayerMm = new double[works.Count - first][];
        Lay();
    }

    /// <summary>Number of sections.</summary>
    public int Count => pointOf.Count;

    /// <summary>The point of each section.</summary>
    public IReadOnlyList<int> PointOf => pointOf;

    /// <summary>For each intervention from the first change on, the section in which each point is looked at.</summary>
    public int[][] SectionOf { get; }

    /// <summary>Depth looked at, after the first change [mm].</summary>
    public double[] BarMm { get; }

    /// <summary>For each intervention from the first change on, what comes off each section [mm].</summary>
    public double[][] RemovedMm { get; }

    /// <summary>For each intervention from the first change on, what goes on each section [mm].</summary>
    public double[][] LayerMm { get; }

    private double Offset(int k, int point, double before)
    {
        var work = works[k];
        var offset = k == renewedAt ? 0 : before;
        if (k != renewedAt && work.IsUndercut[point])
        {
            return before;
        }

        if (k != renewedAt && work.DepthMm[point] > 0)
        {
            offset = Math.Max(offset, work.LayerMm - work.BarAfterMm[point]);
        }

        return Math.Max(offset, LeastDepthMm - work.BarAfterMm[point]);
    }

    private void Lay()
    {
        for (var k = first; k < works.Count; k++)
        {
            RemovedMm[k - first] = new double[Count];
            LayerMm[k - first] = new double[Count];
        }

        for (var a = 0; a < Count; a++)
        {
            var i = pointOf[a];
            var bar = 0.0;
            var section = 0.0;
            for (var k = first; k < works.Count; k++)
            {
                var work = works[k];
                var renewed = k == renewedAt;
                var removed = renewed ? work.RenewedMm[i] : work.DepthMm[i];
                var layer = renewed ? work.RenewedLayerMm(i) : work.LayerMm;
                if (k == first)
                {
                    section = work.SectionAfterMm[i];
                    bar = Math.Clamp(
                        work.BarAfterMm[i] + offsetOf[a],
                        LeastDepthMm,
                        section - LeastBelowMm
                    );
                    BarMm[a] = bar;
                }
                else
                {
                    // What a section is not looked at for any more may not put its point above the surface.
                    removed = Math.Max(0, Math.Min(removed, bar + layer - LeastDepthMm));
                    bar += layer - removed;
                    section += layer - removed;
                }

                RemovedMm[k - first][a] = removed;
                LayerMm[k - first][a] = layer;
            }
        }
    }
}
