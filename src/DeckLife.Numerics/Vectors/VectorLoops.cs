using System.Numerics;

namespace DeckLife.Numerics.Vectors;

/// <summary>Plain loops over spans in vectors; products, quotients and sums are rounded one by one, so every width gives the same bits.</summary>
/// <remarks>A result may be the same span as an argument. Checked by: VectorLoopsTests.</remarks>
public static class VectorLoops
{
    /// <summary>result = origin + slope x.</summary>
    /// <param name="x">x.</param>
    /// <param name="result">Receives as many values.</param>
    /// <param name="origin">Added to each.</param>
    /// <param name="slope">Multiplies each.</param>
    public static void Line(
        ReadOnlySpan<double> x,
        Span<double> result,
        double origin,
        double slope
    )
    {
        var at = 0;
        for (; at <= x.Length - Vector<double>.Count; at += Vector<double>.Count)
        {
            (
                new Vector<double>(origin)
                + (new Vector<double>(slope) * new Vector<double>(x[at..]))
            ).CopyTo(result[at..]);
        }

        for (; at < x.Length; at++)
        {
            result[at] = origin + (slope * x[at]);
        }
    }

    /// <summary>result = a + b.</summary>
    /// <param name="a">a.</param>
    /// <param name="b">b, as many.</param>
    /// <param name="result">Receives as many values.</param>
    public static void Add(ReadOnlySpan<double> a, ReadOnlySpan<double> b, Span<double> result)
    {
        var at = 0;
        for (; at <= a.Length - Vector<double>.Count; at += Vector<double>.Count)
        {
            (new Vector<double>(a[at..]) + new Vector<double>(b[at..])).CopyTo(result[at..]);
        }

        for (; at < a.Length; at++)
        {
            result[at] = a[at] + b[at];
        }
    }

    /// <summary>result = a b.</summary>
    /// <param name="a">a.</param>
    /// <param name="b">b, as many.</param>
    /// <param name="result">Receives as many values.</param>
    public static void Multiply(ReadOnlySpan<double> a, ReadOnlySpan<double> b, Span<double> result)
    {
        var at = 0;
        for (; at <= a.Length - Vector<double>.Count; at += Vector<double>.Count)
        {
            (new Vector<double>(a[at..]) * new Vector<double>(b[at..])).CopyTo(result[at..]);
        }

        for (; at < a.Length; at++)
        {
            result[at] = a[at] * b[at];
        }
    }

    /// <summary>result = one number where x is not above a middle, else another.</summary>
    /// <param name="x">x.</param>
    /// <param name="middle">The middle.</param>
    /// <param name="below">Where x is at most the middle.</param>
    /// <param name="above">Elsewhere.</param>
    /// <param name="result">Receives as many values.</param>
    public static void Choose(
        ReadOnlySpan<double> x,
        double middle,
        double below,
        double above,
        Span<double> result
    )
    {
        var at = 0;
        for (; at <= x.Length - Vector<double>.Count; at += Vector<double>.Count)
        {
            Vector
                .ConditionalSelect(
                    Vector.LessThanOrEqual(new Vector<double>(x[at..]), new Vector<double>(middle)),
                    new Vector<double>(below),
                    new Vector<double>(above)
                )
                .CopyTo(result[at..]);
        }

        for (; at < x.Length; at++)
        {
            result[at] = x[at] <= middle ? below : above;
        }
    }

    /// <summary>Holds values within bounds, in place.</summary>
    /// <param name="x">The values.</param>
    /// <param name="lower">Lower bound.</param>
    /// <param name="upper">Upper bound.</param>
    public static void Clamp(Span<double> x, double lower, double upper)
    {
        var at = 0;
        for (; at <= x.Length - Vector<double>.Count; at += Vector<double>.Count)
        {
            Vector
                .Min(
                    Vector.Max(new Vector<double>(x[at..]), new Vector<double>(lower)),
                    new Vector<double>(upper)
                )
                .CopyTo(x[at..]);
        }

        for (; at < x.Length; at++)
        {
            x[at] = Math.Min(Math.Max(x[at], lower), upper);
        }
    }
}
