namespace DeckLife.Numerics.Diffusion;

/// <summary>
/// Nodes of one layer: on every fixed depth, between them equally spread in ∫dx/h, where the spacing h grows linearly
/// from the sharp points. Halving divides every interval in that measure, so finer meshes hold the coarser ones' nodes.
/// </summary>
internal static class LayeredMesh
{
    /// <summary>Depths of the nodes in the layer.</summary>
    /// <param name="fixedDepths">Depths that get a node, both ends among them.</param>
    /// <param name="sharp">Sharp points and their spacing.</param>
    /// <param name="growth">Growth of the spacing with distance.</param>
    /// <param name="largest">Largest spacing.</param>
    /// <param name="level">Number of halvings.</param>
    public static double[] Nodes(
        IReadOnlyList<double> fixedDepths,
        IReadOnlyList<(double Position, double Spacing)> sharp,
        double growth,
        double largest,
        int level
    )
    {
        var depths = fixedDepths.Order().ToArray();
        var pieces = SpacingPieces(depths[0], depths[^1], sharp, growth, largest);
        var nodes = new List<double> { depths[0] };
        for (var i = 1; i < depths.Length; i++)
        {
            var from = Measure(pieces, depths[i - 1]);
            var to = Measure(pieces, depths[i]);
            var count = Math.Max(1, (int)Math.Ceiling(to - from - 1e-9)) << level;
            for (var k = 1; k < count; k++)
            {
                nodes.Add(Inverse(pieces, from + ((to - from) * k / count)));
            }

            nodes.Add(depths[i]);
        }

        return [.. nodes];
    }

    // The spacing min over p of (h_p + growth |x - p|), capped, as straight pieces.
    private static List<(
        double From,
        double To,
        double AtFrom,
        double AtTo,
        double Start
    )> SpacingPieces(
        double begin,
        double end,
        IReadOnlyList<(double Position, double Spacing)> sharp,
        double growth,
        double largest
    )
    {
        double Spacing(double x)
        {
            var spacing = largest;
            foreach (var (position, at) in sharp)
            {
                spacing = Math.Min(spacing, at + (growth * Math.Abs(x - position)));
            }

            return spacing;
        }

        var points = sharp
            .Select(s => (s.Position, Spacing: Math.Min(s.Spacing, Spacing(s.Position))))
            .GroupBy(s => s.Position)
            .Select(g => g.First())
            .ToList();
        var corners = new SortedSet<double> { begin, end };
        foreach (var (position, at) in points)
        {
            corners.Add(position);
            var reach = (largest - at) / growth;
            corners.Add(position - reach);
            corners.Add(position + reach);
            foreach (var (other, otherAt) in points)
            {
                if (other > position)
                {
                    corners.Add(0.5 * (position + other) + ((otherAt - at) / (2 * growth)));
                }
            }
        }

        var inside = corners.Where(c => c >= begin && c <= end).ToArray();
        var pieces = new List<(double, double, double, double, double)>();
        double start = 0;
        for (var i = 1; i < inside.Length; i++)
        {
            var (a, b) = (inside[i - 1], inside[i]);
            var (ha, hb) = (Spacing(a), Spacing(b));
            pieces.Add((a, b, ha, hb, start));
            start += Length(b - a, ha, hb);
        }

        return pieces;
    }

    private static double Length(double width, double first, double last) =>
        Math.Abs(last - first) < 1e-9 * first
            ? width / first
            : width / (last - first) * Math.Log(last / first);

    private static double Measure(
        List<(double From, double To, double AtFrom, double AtTo, double Start)> pieces,
        double x
    )
    {
        foreach (var (from, to, first, last, start) in pieces)
        {
            if (x <= to)
            {
                var at = first + ((last - first) * (x - from) / (to - from));
                return start + Length(x - from, first, at);
            }
        }

        var end = pieces[^1];
        return end.Start + Length(end.To - end.From, end.AtFrom, end.AtTo);
    }

    private static double Inverse(
        List<(double From, double To, double AtFrom, double AtTo, double Start)> pieces,
        double measure
    )
    {
        var k = pieces.Count - 1;
        while (k > 0 && pieces[k].Start > measure)
        {
            k--;
        }

        var (from, to, first, last, start) = pieces[k];
        var slope = (last - first) / (to - from);
        var q = measure - start;
        return Math.Abs(last - first) < 1e-9 * first
            ? from + (q * first)
            : from + (first * (Math.Exp(q * slope) - 1) / slope);
    }
}
