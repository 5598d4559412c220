namespace DeckLife.Numerics.Kernels;

/// <summary>
/// Divides a section into segments: fine next to the point and its interfaces, where a jump in content is nearest to the point and
/// oldest in time, wide elsewhere. Lengths follow each sample; roles, and so the cells, follow only the order of layers.
/// </summary>
internal static class SegmentLayout
{
    /// <summary>Finest level.</summary>
    public const int LastLevel = 4;

    /// <summary>The point keeps this distance from an interface [mm]: nearer, it counts as lying at it.</summary>
    public const double LeastGapMm = 1e-5;

    // What is nearer to an interface than this has levelled out within hours.
    private const double LeastNearMm = 2;

    // Nearer than this to an interface the point needs a mesh graded more steeply on both sides.
    private const double TightGapMm = 8;

    // Length of the segment in between over that of the near one, where the grading is steep.
    private const double MiddleOverNear = 4;

    // Cells by role (cover, far, near, gap, deep, deepest) for the first levels; each is even. Found by trial on 1000 random cases.
    private static readonly int[][] CellTable =
    [
        [12, 4, 8, 8, 4, 4],
        [16, 6, 10, 12, 4, 4],
        [24, 12, 12, 16, 12, 8],
        [48, 24, 24, 32, 24, 16],
        [96, 48, 48, 64, 48, 32],
    ];

    /// <summary>Exponents of the steps' grading towards the start; the last is for a point that the first change reaches within hours.</summary>
    public static readonly double[] Gradings = [3, 3.5, 4, 5, 6, 7];

    private static readonly int[] StepTable = [20, 28, 48, 96, 192];

    /// <summary>Steps of a level.</summary>
    public static int Steps(int level) => StepTable[level];

    /// <summary>Cells of a segment.</summary>
    public static int Cells(SegmentRole role, int level) => CellTable[level][(int)role];

    /// <summary>Divides a section.</summary>
    /// <param name="thicknessMm">Thickness of each layer from the top [mm], all above 0.</param>
    /// <param name="pointLayer">The layer in which the point lies.</param>
    /// <param name="pointMm">Depth of the point [mm].</param>
    /// <param name="clockRoots">Square root of each layer's clock shortly after the start.</param>
    /// <param name="lengthsMm">Receives the segments' lengths [mm].</param>
    /// <param name="roles">Receives the segments' roles.</param>
    /// <param name="layers">Receives the segments' layers.</param>
    /// <param name="pointSegment">The segment at whose end the point lies.</param>
    /// <returns>Number of segments.</returns>
    public static int Divide(
        ReadOnlySpan<double> thicknessMm,
        int pointLayer,
        double pointMm,
        ReadOnlySpan<double> clockRoots,
        Span<double> lengthsMm,
        Span<SegmentRole> roles,
        Span<int> layers,
        out int pointSegment
    )
    {
        var count = 0;
        pointSegment = 0;
        var top = 0.0;
        for (var i = 0; i < pointLayer; i++)
        {
            top += thicknessMm[i];
        }

        var last = thicknessMm.Length - 1;
        var above = Math.Clamp(pointMm - top, LeastGapMm, thicknessMm[pointLayer] - LeastGapMm);
        var below = thicknessMm[pointLayer] - above;
        var isTight = IsTight(pointLayer > 0, pointLayer < last, above, below);
        for (var i = 0; i <= last; i++)
        {
            var h = thicknessMm[i];
            if (i == pointLayer - 1)
            {
                var near = 1.5 * above * clockRoots[i] / clockRoots[pointLayer];
                AddUpwards(i, h, near, 0.5, isTight, lengthsMm, roles, layers, ref count);
            }
            else if (i == pointLayer)
            {
                if (i > 0)
                {
                    Add(i, SegmentRole.Gap, above, lengthsMm, roles, layers, ref count);
                }
                else if (i == last)
                {
                    Add(i, SegmentRole.Cover, above, lengthsMm, roles, layers, ref count);
                }
                else
                {
                    AddUpwards(
                        i,
                        above,
                        1.5 * below,
                        0.5,
                        isTight,
                        lengthsMm,
                        roles,
                        layers,
                        ref count
                    );
                }

                pointSegment = count - 1;
                if (i < last)
                {
                    Add(i, SegmentRole.Gap, below, lengthsMm, roles, layers, ref count);
                }
                else
                {
                    var near = (i == 0 ? 0.75 : 1.5) * above;
                    AddDownwards(
                        i,
                        below,
                        near,
                        0.25,
                        isTight,
                        true,
                        lengthsMm,
                        roles,
                        layers,
                        ref count
                    );
                }
            }
            else if (i == pointLayer + 1)
            {
                var near = 1.5 * below * clockRoots[i] / clockRoots[pointLayer];
                AddDownwards(
                    i,
                    h,
                    near,
                    i == last ? 0.25 : 0.5,
                    isTight,
                    i == last,
                    lengthsMm,
                    roles,
                    layers,
                    ref count
                );
            }
            else if (i == last)
            {
                AddDeep(i, h, lengthsMm, roles, layers, ref count);
            }
            else
            {
                Add(i, SegmentRole.Far, h, lengthsMm, roles, layers, ref count);
            }
        }

        return count;
    }

    /// <summary>Whether the point lies so near to an interface that each side needs one more segment.</summary>
    public static bool IsTight(bool hasAbove, bool hasBelow, double above, double below) =>
        (hasAbove && above < TightGapMm) || (hasBelow && below < TightGapMm);

    // The part of a layer above an interface or the point, finest at its lower end.
    private static void AddUpwards(
        int layer,
        double length,
        double near,
        double largestShare,
        bool isTight,
        Span<double> lengths,
        Span<SegmentRole> roles,
        Span<int> layers,
        ref int count
    )
    {
        near = Math.Min(Math.Max(near, LeastNearMm), (isTight ? 0.12 : largestShare) * length);
        var middle = isTight ? MiddleOverNear * near : 0;
        Add(layer, SegmentRole.Far, length - near - middle, lengths, roles, layers, ref count);
        if (isTight)
        {
            Add(layer, SegmentRole.Near, middle, lengths, roles, layers, ref count);
        }

        Add(layer, SegmentRole.Near, near, lengths, roles, layers, ref count);
    }

    // The part of a layer under an interface or the point, finest at its upper end.
    private static void AddDownwards(
        int layer,
        double length,
        double near,
        double largestShare,
        bool isTight,
        bool isLast,
        Span<double> lengths,
        Span<SegmentRole> roles,
        Span<int> layers,
        ref int count
    )
    {
        near = Math.Min(Math.Max(near, LeastNearMm), (isTight ? 0.1 : largestShare) * length);
        var middle = isTight ? MiddleOverNear * near : 0;
        Add(layer, SegmentRole.Near, near, lengths, roles, layers, ref count);
        if (isTight)
        {
            Add(layer, SegmentRole.Near, middle, lengths, roles, layers, ref count);
        }

        if (isLast)
        {
            AddDeep(layer, length - near - middle, lengths, roles, layers, ref count);
        }
        else
        {
            Add(layer, SegmentRole.Far, length - near - middle, lengths, roles, layers, ref count);
        }
    }

    private static void AddDeep(
        int layer,
        double length,
        Span<double> lengths,
        Span<SegmentRole> roles,
        Span<int> layers,
        ref int count
    )
    {
        Add(layer, SegmentRole.Deep, 0.4 * length, lengths, roles, layers, ref count);
        Add(layer, SegmentRole.Deepest, 0.6 * length, lengths, roles, layers, ref count);
    }

    private static void Add(
        int layer,
        SegmentRole role,
        double length,
        Span<double> lengths,
        Span<SegmentRole> roles,
        Span<int> layers,
        ref int count
    )
    {
        lengths[count] = length;
        roles[count] = role;
        layers[count] = layer;
        count++;
    }
}
