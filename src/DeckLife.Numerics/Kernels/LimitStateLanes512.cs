using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>The limit state of <see cref="LimitStateModel"/> on a Vector512 of points.</summary>
/// <remarks>LimitStateLanes256.cs is this file with the width in its names replaced (a test holds them equal). Checked by: ConditionalEstimatorTests.</remarks>
internal static unsafe class LimitStateLanes512
{
    // 1.5 · 2^52: adding it rounds to an integer and leaves that integer in the low bits.
    private const double Magic = 6755399441055744.0;

    /// <summary>Turns standard normal numbers into depths, diffusion factors Dref aref^m / (1 - m), or without that divisor, and 1 - m; in place.</summary>
    public static void Transform(
        in LimitStateNumbers numbers,
        double* depth,
        double* diffusion,
        double* ageing,
        int count
    )
    {
        for (var i = 0; i < count; i += Vector512<double>.Count)
        {
            var x = Vector512.FusedMultiplyAdd(
                Vector512.Load(depth + i),
                Vector512.Create(numbers.DepthSd),
                Vector512.Create(numbers.DepthMean)
            );
            var m = Vector512.FusedMultiplyAdd(
                Vector512.Load(ageing + i),
                Vector512.Create(numbers.AgeingSd),
                Vector512.Create(numbers.AgeingMean)
            );
            m = Vector512.Min(
                Vector512.Max(m, Vector512.Create(numbers.LeastAgeing)),
                Vector512.Create(numbers.LargestAgeing)
            );
            var q = Vector512<double>.One - m;
            var log = Vector512.FusedMultiplyAdd(
                Vector512.Load(diffusion + i),
                Vector512.Create(numbers.DiffusionSd),
                Vector512.Create(numbers.DiffusionMean)
            );
            log = Vector512.FusedMultiplyAdd(m, Vector512.Create(numbers.LogReferenceAge), log);
            Vector512.Store(Vector512.Max(x, Vector512.Create(numbers.LeastDepth)), depth + i);
            Vector512.Store(LaneMath512.Exp(log) / Divisor(numbers, m), diffusion + i);
            Vector512.Store(q, ageing + i);
        }
    }

    /// <summary>The probability, given depth, diffusion factor and 1 - m, that the content has reached the threshold, both integrated out.</summary>
    public static void Probability(
        in LimitStateNumbers numbers,
        double* depth,
        double* diffusion,
        double* ageing,
        double* result,
        int count
    )
    {
        for (var i = 0; i < count; i += Vector512<double>.Count)
        {
            Vector512.Store(
                LaneMath512.NormalCdf(
                    Vector512.FusedMultiplyAdd(
                        LogRatio(numbers, depth + i, diffusion + i, ageing + i),
                        Vector512.Create(numbers.InverseSpread),
                        Vector512.Create(numbers.Offset)
                    )
                ),
                result + i
            );
        }
    }

    /// <summary>Turns pairs of uniform numbers into pairs of standard normal ones (polar form, error below 1e-10); in place.</summary>
    /// <remarks>Source: Box &amp; Muller, Ann. Math. Statist. 29 (1958) 610.</remarks>
    public static void NormalPairs(double* first, double* second, int count)
    {
        for (var i = 0; i < count; i += Vector512<double>.Count)
        {
            var radius = Vector512.Sqrt(
                Vector512.Create(-2.0) * ShortLog(Vector512.Load(first + i))
            );
            // The angle in quarters of a turn: the nearest whole number stands in the low bits, the rest within half a quarter.
            var quarters = Vector512.Load(second + i) * Vector512.Create(4.0);
            var whole = quarters + Vector512.Create(Magic);
            var r = quarters - (whole - Vector512.Create(Magic));
            var bits = whole.AsInt64();
            var q = r * r;
            var s = Vector512.Create(0.00015820630355647733);
            s = Vector512.FusedMultiplyAdd(s, q, Vector512.Create(-0.0046812662567262455));
            s = Vector512.FusedMultiplyAdd(s, q, Vector512.Create(0.07969258272563062));
            s = Vector512.FusedMultiplyAdd(s, q, Vector512.Create(-0.64596409614679535));
            s = Vector512.FusedMultiplyAdd(s, q, Vector512.Create(1.5707963267880999));
            var c = Vector512.Create(-2.4850963357813637e-5);
            c = Vector512.FusedMultiplyAdd(c, q, Vector512.Create(0.00091916173695395725));
            c = Vector512.FusedMultiplyAdd(c, q, Vector512.Create(-0.020863468002244644));
            c = Vector512.FusedMultiplyAdd(c, q, Vector512.Create(0.25366950715370432));
            c = Vector512.FusedMultiplyAdd(c, q, Vector512.Create(-1.2337005501201592));
            c = Vector512.FusedMultiplyAdd(c, q, Vector512.Create(0.99999999999994441));
            s *= r;
            var isOdd = Vector512.LessThan(Vector512.ShiftLeft(bits, 63), Vector512<long>.Zero);
            var top = Vector512.Create(long.MinValue);
            var cosine = Vector512.ConditionalSelect(isOdd.AsDouble(), s, c).AsInt64();
            var sine = Vector512.ConditionalSelect(isOdd.AsDouble(), c, s).AsInt64();
            cosine ^= Vector512.ShiftLeft(bits + Vector512<long>.One, 62) & top;
            sine ^= Vector512.ShiftLeft(bits, 62) & top;
            Vector512.Store(radius * cosine.AsDouble(), first + i);
            Vector512.Store(radius * sine.AsDouble(), second + i);
        }
    }

    /// <summary>
    /// Whether the content has reached the threshold, 1 or 0, given all five variables as standard normal numbers; functions to 1e-10, which a count
    /// cannot tell from exact ones. The result must be none of the columns.
    /// </summary>
    public static void Indicator(
        in LimitStateNumbers numbers,
        double* depth,
        double* diffusion,
        double* ageing,
        double* surface,
        double* threshold,
        double* result,
        int count
    )
    {
        // Two loops: each chain of operations is short enough for the processor to work on several vectors at once.
        Arguments(numbers, depth, diffusion, ageing, result, count);
        for (var i = 0; i < count; i += Vector512<double>.Count)
        {
            // C >= Ct: exp(z²) erfc z >= exp(z² + ln(Ct/Cs)).
            var z = Vector512.Load(result + i);
            var needed = Vector512.FusedMultiplyAdd(
                z,
                z,
                Vector512.Create(numbers.LogMeanThresholdOverSurface)
            );
            needed = Vector512.FusedMultiplyAdd(
                Vector512.Load(threshold + i),
                Vector512.Create(numbers.ThresholdSd),
                needed
            );
            needed = Vector512.FusedMultiplyAdd(
                Vector512.Load(surface + i),
                Vector512.Create(-numbers.SurfaceSd),
                needed
            );
            Vector512.Store(
                Vector512.ConditionalSelect(
                    Vector512.GreaterThanOrEqual(ShortScaledErfc(z), ShortExp(needed)),
                    Vector512<double>.One,
                    Vector512<double>.Zero
                ),
                result + i
            );
        }
    }

    // z = x / (2 sqrt(s)), at most 26.
    private static void Arguments(
        in LimitStateNumbers numbers,
        double* depth,
        double* diffusion,
        double* ageing,
        double* result,
        int count
    )
    {
        var isPlain = !numbers.HasStart && numbers.AgeBeyond == 0;
        for (var i = 0; i < count; i += Vector512<double>.Count)
        {
            var x = Vector512.FusedMultiplyAdd(
                Vector512.Load(depth + i),
                Vector512.Create(numbers.DepthSd),
                Vector512.Create(numbers.DepthMean)
            );
            x = Vector512.Max(x, Vector512.Create(numbers.LeastDepth));
            var m = Vector512.FusedMultiplyAdd(
                Vector512.Load(ageing + i),
                Vector512.Create(numbers.AgeingSd),
                Vector512.Create(numbers.AgeingMean)
            );
            m = Vector512.Min(
                Vector512.Max(m, Vector512.Create(numbers.LeastAgeing)),
                Vector512.Create(numbers.LargestAgeing)
            );
            var q = Vector512<double>.One - m;
            var log = Vector512.FusedMultiplyAdd(
                Vector512.Load(diffusion + i),
                Vector512.Create(numbers.DiffusionSd),
                Vector512.Create(numbers.DiffusionMean)
            );
            log = Vector512.FusedMultiplyAdd(m, Vector512.Create(numbers.LogReferenceAge), log);
            // What the exponential leaves of 1/s.
            var rest = Divisor(numbers, m);
            if (isPlain)
            {
                log = Vector512.FusedMultiplyAdd(q, Vector512.Create(numbers.LogAge), log);
            }
            else
            {
                var power = ShortExp(q * Vector512.Create(numbers.LogAge));
                power = Vector512.FusedMultiplyAdd(
                    power * q,
                    Vector512.Create(numbers.AgeBeyond),
                    power
                );
                if (numbers.HasStart)
                {
                    power -= ShortExp(q * Vector512.Create(numbers.LogAgeAtStart));
                }

                rest /= power;
            }

            var z =
                x
                * Vector512.Create(0.5)
                * Vector512.Sqrt(rest)
                * ShortExp(log * Vector512.Create(-0.5));
            Vector512.Store(Vector512.Min(z, Vector512.Create(26.0)), result + i);
        }
    }

    // 1 - m, or 1 where D is an apparent coefficient.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Divisor(in LimitStateNumbers numbers, Vector512<double> m) =>
        Vector512.FusedMultiplyAdd(
            m,
            Vector512.Create(-numbers.DividingShare),
            Vector512<double>.One
        );

    // exp(x): relative error below 2e-12 on [-708, 709], clamped beyond.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> ShortExp(Vector512<double> x)
    {
        var a = Vector512.Min(Vector512.Max(x, Vector512.Create(-708.0)), Vector512.Create(709.0));
        var k = Vector512.FusedMultiplyAdd(
            a,
            Vector512.Create(1.44269504088896340736),
            Vector512.Create(Magic)
        );
        var r = Vector512.FusedMultiplyAdd(
            k - Vector512.Create(Magic),
            Vector512.Create(-0.69314718055994530942),
            a
        );
        // Even and odd powers side by side.
        var q = r * r;
        var p = Vector512.Create(2.4876164022625968e-5);
        var o = Vector512.Create(0.00019915866926782682);
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.0013888821677630363));
        o = Vector512.FusedMultiplyAdd(o, q, Vector512.Create(0.0083332660979496144));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.041666666890956999));
        o = Vector512.FusedMultiplyAdd(o, q, Vector512.Create(0.16666666891045777));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.49999999999797934));
        o = Vector512.FusedMultiplyAdd(o, q, Vector512.Create(0.99999999997978517));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(1.0));
        p = Vector512.FusedMultiplyAdd(o, r, p);
        return (p.AsInt64() + Vector512.ShiftLeft(k.AsInt64(), 52)).AsDouble();
    }

    // ln x for positive normal x: error below 2e-11 of the larger of |ln x| and |1 - x|.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> ShortLog(Vector512<double> x)
    {
        var bits = x.AsInt64();
        var exponent = Vector512.ShiftRightLogical(
            bits + Vector512.Create(0x3FF0000000000000L - 0x3FE6A09E667F3BCDL),
            52
        );
        var k =
            (exponent | Vector512.Create(0x4330000000000000L)).AsDouble()
            - Vector512.Create(4503599627370496.0 + 1023);
        var m = (
            bits - Vector512.ShiftLeft(exponent, 52) + Vector512.Create(0x3FF0000000000000L)
        ).AsDouble();
        var s = (m - Vector512<double>.One) / (m + Vector512<double>.One);
        var q = s * s;
        var p = Vector512.Create(0.23616359099145985);
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.2853505103781631));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.40000384672375187));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.66666665247487523));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(2.0000000000083595));
        return Vector512.FusedMultiplyAdd(k, Vector512.Create(0.69314718055994530942), s * p);
    }

    // exp(z²) erfc(z) for z from 0 to 26: relative error below 1e-11.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> ShortScaledErfc(Vector512<double> z)
    {
        var y = (z - Vector512.Create(3.75)) / (z + Vector512.Create(3.75));
        // Even and odd powers side by side.
        var q = y * y;
        var o = Vector512.Create(5.6548225301971874e-7);
        var p = Vector512.Create(4.1652359119640107e-7);
        o = Vector512.FusedMultiplyAdd(o, q, Vector512.Create(-6.1531673362229701e-6));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(3.8668973579308642e-6));
        o = Vector512.FusedMultiplyAdd(o, q, Vector512.Create(4.7912219811236065e-5));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(-0.00015259449517981199));
        o = Vector512.FusedMultiplyAdd(o, q, Vector512.Create(-2.5546178553308375e-5));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.0018029972069912489));
        o = Vector512.FusedMultiplyAdd(o, q, Vector512.Create(-0.0082206188776757348));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.024143218943174335));
        o = Vector512.FusedMultiplyAdd(o, q, Vector512.Create(-0.054802326806276298));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.10260431238477411));
        o = Vector512.FusedMultiplyAdd(o, q, Vector512.Create(-0.16357189553347479));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.22600806690774607));
        o = Vector512.FusedMultiplyAdd(o, q, Vector512.Create(-0.27342193149492817));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.14558972127506867));
        return Vector512.FusedMultiplyAdd(o, y, p);
    }

    // ln(C/Cs) = ln erfc(x / (2 sqrt(s))).
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> LogRatio(
        in LimitStateNumbers numbers,
        double* depth,
        double* diffusion,
        double* ageing
    )
    {
        var q = Vector512.Load(ageing);
        var power = LaneMath512.Exp(q * Vector512.Create(numbers.LogAge));
        power = Vector512.FusedMultiplyAdd(power * q, Vector512.Create(numbers.AgeBeyond), power);
        if (numbers.HasStart)
        {
            power -= LaneMath512.Exp(q * Vector512.Create(numbers.LogAgeAtStart));
        }

        var z =
            Vector512.Load(depth)
            * Vector512.Create(0.5)
            / Vector512.Sqrt(Vector512.Load(diffusion) * power);
        z = Vector512.Min(z, Vector512.Create(26.0));
        return Vector512.FusedMultiplyAdd(-z, z, LaneMath512.Log(LaneMath512.ScaledErfc(z)));
    }
}
