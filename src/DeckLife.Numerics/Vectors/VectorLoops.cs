using System.Numerics;
using System.Runtime.Intrinsics;

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

    /// <summary>result = the larger of a and b.</summary>
    /// <param name="a">a, not NaN.</param>
    /// <param name="b">b, not NaN, as many.</param>
    /// <param name="result">Receives as many values.</param>
    public static void Largest(ReadOnlySpan<double> a, ReadOnlySpan<double> b, Span<double> result)
    {
        var at = 0;
        for (; at <= a.Length - Vector<double>.Count; at += Vector<double>.Count)
        {
            Vector
                .Max(new Vector<double>(a[at..]), new Vector<double>(b[at..]))
                .CopyTo(result[at..]);
        }

        for (; at < a.Length; at++)
        {
            result[at] = Math.Max(a[at], b[at]);
        }
    }

    /// <summary>result = w0 a + w1 b + w2 c + w3 d.</summary>
    /// <param name="a">a.</param>
    /// <param name="b">b, as many.</param>
    /// <param name="c">c, as many.</param>
    /// <param name="d">d, as many.</param>
    /// <param name="weights">The four weights.</param>
    /// <param name="result">Receives as many values.</param>
    public static void WeightedSum(
        ReadOnlySpan<double> a,
        ReadOnlySpan<double> b,
        ReadOnlySpan<double> c,
        ReadOnlySpan<double> d,
        ReadOnlySpan<double> weights,
        Span<double> result
    )
    {
        double w0 = weights[0],
            w1 = weights[1],
            w2 = weights[2],
            w3 = weights[3];
        var at = 0;
        for (; at <= a.Length - Vector<double>.Count; at += Vector<double>.Count)
        {
            (
                (
                    (
                        (new Vector<double>(w0) * new Vector<double>(a[at..]))
                        + (new Vector<double>(w1) * new Vector<double>(b[at..]))
                    ) + (new Vector<double>(w2) * new Vector<double>(c[at..]))
                ) + (new Vector<double>(w3) * new Vector<double>(d[at..]))
            ).CopyTo(result[at..]);
        }

        for (; at < a.Length; at++)
        {
            result[at] = (((w0 * a[at]) + (w1 * b[at])) + (w2 * c[at])) + (w3 * d[at]);
        }
    }

    /// <summary>result = result + scale x.</summary>
    /// <param name="x">x.</param>
    /// <param name="scale">Multiplies each.</param>
    /// <param name="result">Changed in place; as many values.</param>
    public static void AddScaled(ReadOnlySpan<double> x, double scale, Span<double> result)
    {
        var at = 0;
        for (; at <= x.Length - Vector<double>.Count; at += Vector<double>.Count)
        {
            (
                new Vector<double>(result[at..])
                + (new Vector<double>(scale) * new Vector<double>(x[at..]))
            ).CopyTo(result[at..]);
        }

        for (; at < x.Length; at++)
        {
            result[at] += scale * x[at];
        }
    }

    /// <summary>The sum of all values, always added in the same order: four partial sums, then these.</summary>
    /// <param name="values">The values.</param>
    public static double Sum(ReadOnlySpan<double> values)
    {
        var sums = Vector256<double>.Zero;
        var at = 0;
        for (; at <= values.Length - 4; at += 4)
        {
            sums += Vector256.Create(values[at..]);
        }

        var rest = 0.0;
        for (; at < values.Length; at++)
        {
            rest += values[at];
        }

        return sums[0] + sums[1] + (sums[2] + sums[3]) + rest;
    }

    /// <summary>The sum of how far values lie above lower bounds, counted up to upper bounds; added in the order of <see cref="Sum"/>.</summary>
    /// <param name="values">The values.</param>
    /// <param name="lower">Lower bounds, as many.</param>
    /// <param name="upper">Upper bounds, as many, none below the lower one.</param>
    public static double SumWithin(
        ReadOnlySpan<double> values,
        ReadOnlySpan<double> lower,
        ReadOnlySpan<double> upper
    )
    {
        var sums = Vector256<double>.Zero;
        var at = 0;
        for (; at <= values.Length - 4; at += 4)
        {
            var low = Vector256.Create(lower[at..]);
            var value = Vector256.Max(Vector256.Create(values[at..]), low);
            sums += Vector256.Min(value, Vector256.Create(upper[at..])) - low;
        }

        var rest = 0.0;
        for (; at < values.Length; at++)
        {
            rest += Math.Min(Math.Max(values[at], lower[at]), upper[at]) - lower[at];
        }

        return sums[0] + sums[1] + (sums[2] + sums[3]) + rest;
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
