using System.Numerics;

namespace DeckLife.Numerics.Kernels;

/// <summary>Plain loops over lanes; products and sums are rounded one by one, so every width gives the same bits.</summary>
/// <remarks>Lengths are multiples of 8 and pointers lie on cache lines.</remarks>
internal static unsafe class LaneLoops
{
    /// <summary>result = scale a.</summary>
    public static void Scale(double* a, double scale, double* result, int lanes)
    {
        var factor = new Vector<double>(scale);
        for (var i = 0; i < lanes; i += Vector<double>.Count)
        {
            Store(factor * Load(a + i), result + i);
        }
    }

    /// <summary>result = a + b.</summary>
    public static void Add(double* a, double* b, double* result, int lanes)
    {
        for (var i = 0; i < lanes; i += Vector<double>.Count)
        {
            Store(Load(a + i) + Load(b + i), result + i);
        }
    }

    /// <summary>largest = max(largest, |a|).</summary>
    public static void LargestMagnitude(double* a, double* largest, int lanes)
    {
        for (var i = 0; i < lanes; i += Vector<double>.Count)
        {
            Store(Vector.Max(Load(largest + i), Vector.Abs(Load(a + i))), largest + i);
        }
    }

    /// <summary>largest = max(largest, a).</summary>
    public static void Largest(double* a, double* largest, int lanes)
    {
        for (var i = 0; i < lanes; i += Vector<double>.Count)
        {
            Store(Vector.Max(Load(largest + i), Load(a + i)), largest + i);
        }
    }

    /// <summary>result = the weighted sum of four consecutive rows.</summary>
    public static void WeightedRows(
        double* first,
        ReadOnlySpan<double> weights,
        double* result,
        int lanes
    )
    {
        var w0 = new Vector<double>(weights[0]);
        var w1 = new Vector<double>(weights[1]);
        var w2 = new Vector<double>(weights[2]);
        var w3 = new Vector<double>(weights[3]);
        for (var i = 0; i < lanes; i += Vector<double>.Count)
        {
            var a = first + i;
            Store(
                ((w0 * Load(a)) + (w1 * Load(a + lanes)))
                    + ((w2 * Load(a + (2 * lanes))) + (w3 * Load(a + (3 * lanes)))),
                result + i
            );
        }
    }

    /// <summary>result = the weighted sum of four consecutive rows; largest and running = max(largest, result).</summary>
    public static void WeightedRows(
        double* first,
        ReadOnlySpan<double> weights,
        double* result,
        double* largest,
        double* running,
        int lanes
    )
    {
        var w0 = new Vector<double>(weights[0]);
        var w1 = new Vector<double>(weights[1]);
        var w2 = new Vector<double>(weights[2]);
        var w3 = new Vector<double>(weights[3]);
        for (var i = 0; i < lanes; i += Vector<double>.Count)
        {
            var a = first + i;
            var value =
                ((w0 * Load(a)) + (w1 * Load(a + lanes)))
                + ((w2 * Load(a + (2 * lanes))) + (w3 * Load(a + (3 * lanes))));
            var high = Vector.Max(Load(largest + i), value);
            Store(value, result + i);
            Store(high, largest + i);
            Store(high, running + i);
        }
    }

    /// <summary>result = a + count step.</summary>
    public static void Along(double* a, double count, double* step, double* result, int lanes)
    {
        var n = new Vector<double>(count);
        for (var i = 0; i < lanes; i += Vector<double>.Count)
        {
            Store(Load(a + i) + (n * Load(step + i)), result + i);
        }
    }

    /// <summary>result = a + addend, held between two bounds.</summary>
    public static void SumWithin(
        double* a,
        double addend,
        double least,
        double most,
        double* result,
        int lanes
    )
    {
        var add = new Vector<double>(addend);
        var low = new Vector<double>(least);
        var high = new Vector<double>(most);
        for (var i = 0; i < lanes; i += Vector<double>.Count)
        {
            Store(Vector.Min(Vector.Max(Load(a + i) + add, low), high), result + i);
        }
    }

    /// <summary>result = a b.</summary>
    public static void Multiply(double* a, double* b, double* result, int lanes)
    {
        for (var i = 0; i < lanes; i += Vector<double>.Count)
        {
            Store(Load(a + i) * Load(b + i), result + i);
        }
    }

    /// <summary>result = a - b.</summary>
    public static void Subtract(double* a, double* b, double* result, int lanes)
    {
        for (var i = 0; i < lanes; i += Vector<double>.Count)
        {
            Store(Load(a + i) - Load(b + i), result + i);
        }
    }

    /// <summary>result = a + b c.</summary>
    public static void AddProduct(double* a, double* b, double* c, double* result, int lanes)
    {
        for (var i = 0; i < lanes; i += Vector<double>.Count)
        {
            Store(Load(a + i) + (Load(b + i) * Load(c + i)), result + i);
        }
    }

    private static Vector<double> Load(double* at) => *(Vector<double>*)at;

    private static void Store(Vector<double> value, double* at) => *(Vector<double>*)at = value;
}
