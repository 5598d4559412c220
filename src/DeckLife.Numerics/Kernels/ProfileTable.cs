namespace DeckLife.Numerics.Kernels;

/// <summary>The state of one chunk's samples at an event: contents at the nodes, read at other depths by cubics inside a layer.</summary>
internal sealed class ProfileTable
{
    private readonly int _layers;
    private double[] _depths = [];
    private double[] _contents = [];
    private int[] _ends = [];
    private int _room;

    public ProfileTable(int layers) => _layers = layers;

    /// <summary>Makes room for the samples of a chunk.</summary>
    public void Ensure(int samples, int nodes)
    {
        if (_room < nodes || _ends.Length < samples * (_layers + 1))
        {
            _room = Math.Max(_room, nodes);
            _depths = new double[samples * _room];
            _contents = new double[samples * _room];
            _ends = new int[samples * (_layers + 1)];
        }
    }

    /// <summary>Where a sample's node depths and contents are written.</summary>
    public void Row(
        int sample,
        out Span<double> depths,
        out Span<double> contents,
        out Span<int> ends
    )
    {
        depths = _depths.AsSpan(sample * _room, _room);
        contents = _contents.AsSpan(sample * _room, _room);
        ends = _ends.AsSpan(sample * (_layers + 1), _layers + 1);
    }

    /// <summary>Content of a layer of a sample at a depth under the old top, held beyond the layer's ends.</summary>
    /// <param name="sample">Number within the chunk.</param>
    /// <param name="layer">Number of the layer in the phase that wrote the table.</param>
    /// <param name="depth">Depth under the top of that phase [mm].</param>
    /// <param name="hint">Where the last search ended; start with 0.</param>
    public double At(int sample, int layer, double depth, ref int hint)
    {
        Row(sample, out var depths, out var contents, out var ends);
        return Cubic(
            depths[ends[layer]..(ends[layer + 1] + 1)],
            contents[ends[layer]..(ends[layer + 1] + 1)],
            depth,
            ref hint
        );
    }

    /// <summary>Reads a table by the cubic through the four nodes around a place, held beyond its ends.</summary>
    public static double Cubic(
        ReadOnlySpan<double> x,
        ReadOnlySpan<double> values,
        double at,
        ref int hint
    )
    {
        var last = x.Length - 1;
        if (at <= x[0])
        {
            return values[0];
        }

        if (at >= x[last])
        {
            return values[last];
        }

        var i = hint <= last && x[hint] <= at ? hint : 0;
        while (x[i + 1] < at)
        {
            i++;
        }

        hint = i;
        var points = Math.Min(4, x.Length);
        var first = Math.Clamp(i - 1, 0, x.Length - points);
        var sum = 0.0;
        for (var a = first; a < first + points; a++)
        {
            var weight = 1.0;
            for (var b = first; b < first + points; b++)
            {
                if (b != a)
                {
                    weight *= (at - x[b]) / (x[a] - x[b]);
                }
            }

            sum += weight * values[a];
        }

        return Math.Max(sum, 0);
    }
}
