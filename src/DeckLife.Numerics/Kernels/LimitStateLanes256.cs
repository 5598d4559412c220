using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>The limit state of <see cref="LimitStateModel"/> on a Vector256 of points.</summary>
/// <remarks>LimitStateLanes256.cs is this file with the width in its names replaced (a test holds them equal). Checked by: ConditionalEstimatorTests.</remarks>
internal static unsafe class LimitStateLanes256
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
        for (var i = 0; i < count; i += Vector256<double>.Count)
        {
            var x = Vector256.FusedMultiplyAdd(
                Vector256.Load(depth + i),
                Vector256.Create(numbers.DepthSd),
                Vector256.Create(numbers.DepthMean)
            );
            var m = Vector256.FusedMultiplyAdd(
                Vector256.Load(ageing + i),
                Vector256.Create(numbers.AgeingSd),
                Vector256.Create(numbers.AgeingMean)
            );
            m = Vector256.Min(
                Vector256.Max(m, Vector256.Create(numbers.LeastAgeing)),
                Vector256.Create(numbers.LargestAgeing)
            );
            var q = Vector256<double>.One - m;
            var log = Vector256.FusedMultiplyAdd(
                Vector256.Load(diffusion + i),
                Vector256.Create(numbers.DiffusionSd),
                Vector256.Create(numbers.DiffusionMean)
            );
            log = Vector256.FusedMultiplyAdd(m, Vector256.Create(numbers.LogReferenceAge), log);
            Vector256.Store(Vector256.Max(x, Vector256.Create(numbers.LeastDepth)), depth + i);
            Vector256.Store(LaneMath256.Exp(log) / Divisor(numbers, m), diffusion + i);
            Vector256.Store(q, ageing + i);
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
        for (var i = 0; i < count; i += Vector256<double>.Count)
        {
            Vector256.Store(
                LaneMath256.NormalCdf(
                    Vector256.FusedMultiplyAdd(
                        LogRatio(numbers, depth + i, diffusion + i, ageing + i),
                        Vector256.Create(numbers.InverseSpread),
                        Vector256.Create(numbers.Offset)
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
        for (var i = 0; i < count; i += Vector256<double>.Count)
        {
            var radius = Vector256.Sqrt(
                Vector256.Create(-2.0) * ShortLog(Vector256.Load(first + i))
            );
            // The angle in quarters of a turn: the nearest whole number stands in the low bits, the rest within half a quarter.
            var quarters = Vector256.Load(second + i) * Vector256.Create(4.0);
            var whole = quarters + Vector256.Create(Magic);
            var r = quarters - (whole - Vector256.Create(Magic));
            var bits = whole.AsInt64();
            var q = r * r;
            var s = Vector256.Create(0.00015820630355647733);
            s = Vector256.FusedMultiplyAdd(s, q, Vector256.Create(-0.0046812662567262455));
            s = Vector256.FusedMultiplyAdd(s, q, Vector256.Create(0.07969258272563062));
            s = Vector256.FusedMultiplyAdd(s, q, Vector256.Create(-0.64596409614679535));
            s = Vector256.FusedMultiplyAdd(s, q, Vector256.Create(1.5707963267880999));
            var c = Vector256.Create(-2.4850963357813637e-5);
            c = Vector256.FusedMultiplyAdd(c, q, Vector256.Create(0.00091916173695395725));
            c = Vector256.FusedMultiplyAdd(c, q, Vector256.Create(-0.020863468002244644));
            c = Vector256.FusedMultiplyAdd(c, q, Vector256.Create(0.25366950715370432));
            c = Vector256.FusedMultiplyAdd(c, q, Vector256.Create(-1.2337005501201592));
            c = Vector256.FusedMultiplyAdd(c, q, Vector256.Create(0.99999999999994441));
            s *= r;
            var isOdd = Vector256.LessThan(Vector256.ShiftLeft(bits, 63), Vector256<long>.Zero);
            var top = Vector256.Create(long.MinValue);
            var cosine = Vector256.ConditionalSelect(isOdd.AsDouble(), s, c).AsInt64();
            var sine = Vector256.ConditionalSelect(isOdd.AsDouble(), c, s).AsInt64();
            cosine ^= Vector256.ShiftLeft(bits + Vector256<long>.One, 62) & top;
            sine ^= Vector256.ShiftLeft(bits, 62) & top;
            Vector256.Store(radius * cosine.AsDouble(), first + i);
            Vector256.Store(radius * sine.AsDouble(), second + i);
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
        for (var i = 0; i < count; i += Vector256<double>.Count)
        {
            // C >= Ct: exp(z²) erfc z >= exp(z² + ln(Ct/Cs)).
            var z = Vector256.Load(result + i);
            var needed = Vector256.FusedMultiplyAdd(
                z,
                z,
                Vector256.Create(numbers.LogMeanThresholdOverSurface)
            );
            needed = Vector256.FusedMultiplyAdd(
                Vector256.Load(threshold + i),
                Vector256.Create(numbers.ThresholdSd),
                needed
            );
            needed = Vector256.FusedMultiplyAdd(
                Vector256.Load(surface + i),
                Vector256.Create(-numbers.SurfaceSd),
                needed
            );
            Vector256.Store(
                Vector256.ConditionalSelect(
                    Vector256.GreaterThanOrEqual(ShortScaledErfc(z), ShortExp(needed)),
                    Vector256<double>.One,
                    Vector256<double>.Zero
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
        for (var i = 0; i < count; i += Vector256<double>.Count)
        {
            var x = Vector256.FusedMultiplyAdd(
                Vector256.Load(depth + i),
                Vector256.Create(numbers.DepthSd),
                Vector256.Create(numbers.DepthMean)
            );
            x = Vector256.Max(x, Vector256.Create(numbers.LeastDepth));
            var m = Vector256.FusedMultiplyAdd(
                Vector256.Load(ageing + i),
                Vector256.Create(numbers.AgeingSd),
                Vector256.Create(numbers.AgeingMean)
            );
            m = Vector256.Min(
                Vector256.Max(m, Vector256.Create(numbers.LeastAgeing)),
                Vector256.Create(numbers.LargestAgeing)
            );
            var q = Vector256<double>.One - m;
            var log = Vector256.FusedMultiplyAdd(
                Vector256.Load(diffusion + i),
                Vector256.Create(numbers.DiffusionSd),
                Vector256.Create(numbers.DiffusionMean)
            );
            log = Vector256.FusedMultiplyAdd(m, Vector256.Create(numbers.LogReferenceAge), log);
            // What the exponential leaves of 1/s.
            var rest = Divisor(numbers, m);
            if (isPlain)
            {
                log = Vector256.FusedMultiplyAdd(q, Vector256.Create(numbers.LogAge), log);
            }
            else
            {
                var power = ShortExp(q * Vector256.Create(numbers.LogAge));
                power = Vector256.FusedMultiplyAdd(
                    power * q,
                    Vector256.Create(numbers.AgeBeyond),
                    power
                );
                if (numbers.HasStart)
                {
                    power -= ShortExp(q * Vector256.Create(numbers.LogAgeAtStart));
                }

                rest /= power;
            }

            var z =
                x
                * Vector256.Create(0.5)
                * Vector256.Sqrt(rest)
                * ShortExp(log * Vector256.Create(-0.5));
            Vector256.Store(Vector256.Min(z, Vector256.Create(26.0)), result + i);
        }
    }

    // 1 - m, or 1 where D is an apparent coefficient.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Divisor(in LimitStateNumbers numbers, Vector256<double> m) =>
        Vector256.FusedMultiplyAdd(
            m,
            Vector256.Create(-numbers.DividingShare),
            Vector256<double>.One
        );

    // exp(x): relative error below 2e-12 on [-708, 709], clamped beyond.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> ShortExp(Vector256<double> x)
    {
        var a = Vector256.Min(Vector256.Max(x, Vector256.Create(-708.0)), Vector256.Create(709.0));
        var k = Vector256.FusedMultiplyAdd(
            a,
            Vector256.Create(1.44269504088896340736),
            Vector256.Create(Magic)
        );
        var r = Vector256.FusedMultiplyAdd(
            k - Vector256.Create(Magic),
            Vector256.Create(-0.69314718055994530942),
            a
        );
        // Even and odd powers side by side.
        var q = r * r;
        var p = Vector256.Create(2.4876164022625968e-5);
        var o = Vector256.Create(0.00019915866926782682);
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(0.0013888821677630363));
        o = Vector256.FusedMultiplyAdd(o, q, Vector256.Create(0.0083332660979496144));
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(0.041666666890956999));
        o = Vector256.FusedMultiplyAdd(o, q, Vector256.Create(0.16666666891045777));
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(0.49999999999797934));
        o = Vector256.FusedMultiplyAdd(o, q, Vector256.Create(0.99999999997978517));
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(1.0));
        p = Vector256.FusedMultiplyAdd(o, r, p);
        return (p.AsInt64() + Vector256.ShiftLeft(k.AsInt64(), 52)).AsDouble();
    }

    // ln x for positive normal x: error below 2e-11 of the larger of |ln x| and |1 - x|.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> ShortLog(Vector256<double> x)
    {
        var bits = x.AsInt64();
        var exponent = Vector256.ShiftRightLogical(
            bits + Vector256.Create(0x3FF0000000000000L - 0x3FE6A09E667F3BCDL),
            52
        );
        var k =
            (exponent | Vector256.Create(0x4330000000000000L)).AsDouble()
            - Vector256.Create(4503599627370496.0 + 1023);
        var m = (
            bits - Vector256.ShiftLeft(exponent, 52) + Vector256.Create(0x3FF0000000000000L)
        ).AsDouble();
        var s = (m - Vector256<double>.One) / (m + Vector256<double>.One);
        var q = s * s;
        var p = Vector256.Create(0.23616359099145985);
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(0.2853505103781631));
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(0.40000384672375187));
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(0.66666665247487523));
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(2.0000000000083595));
        return Vector256.FusedMultiplyAdd(k, Vector256.Create(0.69314718055994530942), s * p);
    }

    // exp(z²) erfc(z) for z from 0 to 26: relative error below 1e-11.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> ShortScaledErfc(Vector256<double> z)
    {
        var y = (z - Vector256.Create(3.75)) / (z + Vector256.Create(3.75));
        // Even and odd powers side by side.
        var q = y * y;
        var o = Vector256.Create(5.6548225301971874e-7);
        var p = Vector256.Create(4.1652359119640107e-7);
        o = Vector256.FusedMultiplyAdd(o, q, Vector256.Create(-6.1531673362229701e-6));
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(3.8668973579308642e-6));
        o = Vector256.FusedMultiplyAdd(o, q, Vector256.Create(4.7912219811236065e-5));
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(-0.00015259449517981199));
        o = Vector256.FusedMultiplyAdd(o, q, Vector256.Create(-2.5546178553308375e-5));
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(0.0018029972069912489));
        o = Vector256.FusedMultiplyAdd(o, q, Vector256.Create(-0.0082206188776757348));
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(0.024143218943174335));
        o = Vector256.FusedMultiplyAdd(o, q, Vector256.Create(-0.054802326806276298));
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(0.10260431238477411));
        o = Vector256.FusedMultiplyAdd(o, q, Vector256.Create(-0.16357189553347479));
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(0.22600806690774607));
        o = Vector256.FusedMultiplyAdd(o, q, Vector256.Create(-0.27342193149492817));
        p = Vector256.FusedMultiplyAdd(p, q, Vector256.Create(0.14558972127506867));
        return Vector256.FusedMultiplyAdd(o, y, p);
    }

    // ln(C/Cs) = ln erfc(x / (2 sqrt(s))).
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> LogRatio(
        in LimitStateNumbers numbers,
        double* depth,
        double* diffusion,
        double* ageing
    )
    {
        var q = Vector256.Load(ageing);
        var power = LaneMath256.Exp(q * Vector256.Create(numbers.LogAge));
        power = Vector256.FusedMultiplyAdd(power * q, Vector256.Create(numbers.AgeBeyond), power);
        if (numbers.HasStart)
        {
            power -= LaneMath256.Exp(q * Vector256.Create(numbers.LogAgeAtStart));
        }

        var z =
            Vector256.Load(depth)
            * Vector256.Create(0.5)
            / Vector256.Sqrt(Vector256.Load(diffusion) * power);
        z = Vector256.Min(z, Vector256.Create(26.0));
        return Vector256.FusedMultiplyAdd(-z, z, LaneMath256.Log(LaneMath256.ScaledErfc(z)));
    }
}
