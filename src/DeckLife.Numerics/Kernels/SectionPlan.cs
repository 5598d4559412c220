namespace DeckLife.Numerics.Kernels;

/// <summary>
/// How a section of layers is divided for one batch of samples: the segments between the surface, the interfaces, the point looked
/// at and the bottom, how many equal cells each has, and which material it is made of. Lengths are each sample's own.
/// </summary>
internal sealed class SectionPlan
{
    /// <summary>Largest number of segments: what the kernels' scratch memory is laid out for.</summary>
    public const int LargestSegments = 14;

    public SectionPlan(int[] cells, int[] materials, int pointSegment)
    {
        Cells = cells;
        Materials = materials;
        MaterialCount = materials.Max() + 1;
        for (var s = 0; s < cells.Length; s++)
        {
            Nodes += cells[s];
            if (s == pointSegment)
            {
                PointNode = Nodes;
            }
        }
    }

    /// <summary>Cells of each segment, at least 2.</summary>
    public int[] Cells { get; }

    /// <summary>Material of each segment, counted from the top.</summary>
    public int[] Materials { get; }

    /// <summary>Number of materials.</summary>
    public int MaterialCount { get; }

    /// <summary>Number of the last node; node 0 is the surface.</summary>
    public int Nodes { get; }

    /// <summary>The node of the point looked at.</summary>
    public int PointNode { get; }

    /// <summary>The same section with another number of cells in each segment.</summary>
    public SectionPlan With(Func<int, int> cells) =>
        new([.. Cells.Select(cells)], Materials, SegmentOfPoint());

    private int SegmentOfPoint()
    {
        var nodes = 0;
        for (var s = 0; s < Cells.Length; s++)
        {
            nodes += Cells[s];
            if (nodes == PointNode)
            {
                return s;
            }
        }

        return -1;
    }
}
