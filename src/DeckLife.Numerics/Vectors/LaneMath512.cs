using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace DeckLife.Numerics.Vectors;

/// <summary>Special functions on a Vector512 of doubles.</summary>
/// <remarks>
/// LaneMath256.cs is this file with the width in its names replaced, LaneMathScalar.cs the same for one double; a test holds the former two equal.
/// Coefficients: reference-checks/peers/speed/coefficients.py (Chebyshev interpolation in 50 digits). Every lane is computed by the
/// same operations in the same order, each correctly rounded, so the two vector widths give the same bits.
/// Checked by: LaneMathTests.
/// </remarks>
internal static class LaneMath512
{
    // 1.5 · 2^52: adding it rounds to an integer and leaves that integer in the low bits.
    private const double Magic = 6755399441055744.0;
    private const double Ln2High = 0.693147180369123816490; // 33 bits of ln 2
    private const double Ln2Low = 1.90821492927058770002e-10;
    private const double InverseLn2 = 1.44269504088896340736;
    private const double ErfcCentre = 3.75;
    private const double ErfcFarthest = 26.6;

    /// <summary>exp(x): relative error below 4e-16 on [-708, 709]; 0 below it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Exp(Vector512<double> x)
    {
        var a = Vector512.Min(Vector512.Max(x, Vector512.Create(-708.0)), Vector512.Create(709.0));
        var k = Vector512.FusedMultiplyAdd(
            a,
            Vector512.Create(InverseLn2),
            Vector512.Create(Magic)
        );
        var n = k - Vector512.Create(Magic);
        var r = Vector512.FusedMultiplyAdd(n, Vector512.Create(-Ln2High), a);
        r = Vector512.FusedMultiplyAdd(n, Vector512.Create(-Ln2Low), r);
        var p = Vector512.Create(2.5110037605963777e-08);
        p = Vector512.FusedMultiplyAdd(p, r, Vector512.Create(2.763263963904103e-07));
        p = Vector512.FusedMultiplyAdd(p, r, Vector512.Create(2.755724091857897e-06));
        p = Vector512.FusedMultiplyAdd(p, r, Vector512.Create(2.4801485482328494e-05));
        p = Vector512.FusedMultiplyAdd(p, r, Vector512.Create(0.00019841269890047113));
        p = Vector512.FusedMultiplyAdd(p, r, Vector512.Create(0.0013888888952314775));
        p = Vector512.FusedMultiplyAdd(p, r, Vector512.Create(0.008333333333319601));
        p = Vector512.FusedMultiplyAdd(p, r, Vector512.Create(0.0416666666664881));
        p = Vector512.FusedMultiplyAdd(p, r, Vector512.Create(0.1666666666666668));
        p = Vector512.FusedMultiplyAdd(p, r, Vector512.Create(0.5000000000000019));
        p = Vector512.FusedMultiplyAdd(p, r, Vector512.Create(1.0));
        p = Vector512.FusedMultiplyAdd(p, r, Vector512.Create(1.0));
        var scaled = (p.AsInt64() + Vector512.ShiftLeft(k.AsInt64(), 52)).AsDouble();
        return Vector512.ConditionalSelect(
            Vector512.LessThan(x, Vector512.Create(-708.0)),
            Vector512<double>.Zero,
            scaled
        );
    }

    /// <summary>ln x for positive normal x: error below 4e-16 of the larger of |ln x| and 1.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Log(Vector512<double> x)
    {
        // x = 2^k m with m from sqrt(1/2) to sqrt(2); ln m = 2 atanh((m - 1)/(m + 1)).
        var bits = x.AsInt64();
        var shifted = bits + Vector512.Create(0x3FF0000000000000L - 0x3FE6A09E667F3BCDL);
        var exponent = Vector512.ShiftRightLogical(shifted, 52);
        var k =
            (exponent | Vector512.Create(0x4330000000000000L)).AsDouble()
            - Vector512.Create(4503599627370496.0 + 1023);
        var m = (
            bits - Vector512.ShiftLeft(exponent, 52) + Vector512.Create(0x3FF0000000000000L)
        ).AsDouble();
        var s = (m - Vector512<double>.One) / (m + Vector512<double>.One);
        var q = s * s;
        var p = Vector512.Create(0.13262103674021808);
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.13248763083460116));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.1538716092613408));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.18181773738016305));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.2222222267692954));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.2857142856881913));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.40000000000007496));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(0.6666666666666666));
        p = Vector512.FusedMultiplyAdd(p, q, Vector512.Create(2.0));
        var low = Vector512.FusedMultiplyAdd(k, Vector512.Create(Ln2Low), s * p);
        return Vector512.FusedMultiplyAdd(k, Vector512.Create(Ln2High), low);
    }

    /// <summary>exp(z²) erfc(z) for z from 0 to 26.6 (clamped): relative error below 2e-15.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> ScaledErfc(Vector512<double> z)
    {
        var a = Vector512.Min(z, Vector512.Create(ErfcFarthest));
        var y = (a - Vector512.Create(ErfcCentre)) / (a + Vector512.Create(ErfcCentre));
        var p = Vector512.Create(-4.9135675385334025e-11);
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(-1.3518303985259703e-09));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(-3.1515602808802333e-09));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(1.0117313333440169e-08));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(2.9512494692604754e-08));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(-7.420630236739435e-08));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(-1.8216090715734383e-07));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(6.607450919315147e-07));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(7.480878638179082e-07));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(-6.1840499721783724e-06));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(3.583811941635931e-06));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(4.789896485040162e-05));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(-0.00015246267470780394));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(-2.5535365151671265e-05));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(0.0018029624167572075));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(-0.008220621150304601));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(0.024143223972536487));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(-0.05480232669521649));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(0.10260431203219127));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(-0.1635718955239171));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(0.2260080669166216));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(-0.27342193149542654));
        p = Vector512.FusedMultiplyAdd(p, y, Vector512.Create(0.14558972127503853));
        return p;
    }

    /// <summary>erfc(x): relative error below 3e-15 for x up to 26; 0 beyond 26.6.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Erfc(Vector512<double> x)
    {
        var z = Vector512.Min(Vector512.Abs(x), Vector512.Create(30.0));
        var square = z * z;
        // What rounding took from z² comes back as a factor: exp(-d) = 1 - d.
        var lost = Vector512.FusedMultiplyAdd(z, z, -square);
        var tail = ScaledErfc(z) * Exp(-square);
        tail -= tail * lost;
        return Vector512.ConditionalSelect(
            Vector512.LessThan(x, Vector512<double>.Zero),
            Vector512.Create(2.0) - tail,
            tail
        );
    }

    /// <summary>The standard normal distribution function: relative error below 4e-15 down to x = -36.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> NormalCdf(Vector512<double> x) =>
        Vector512.Create(0.5) * Erfc(x * Vector512.Create(-0.70710678118654752440));

    /// <summary>The standard normal quantile of p from 1e-300 to 1 - 2^-53: error below 2e-15 of the larger of |z| and 1.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> NormalQuantile(Vector512<double> p)
    {
        var upper = Vector512<double>.One - p;
        var w = -Log(Vector512.Create(4.0) * p * upper);
        var z = (p - upper) * QuantileCentre(w - Vector512.Create(3.0));
        return Vector512.GreaterThanAny(w, Vector512.Create(6.0)) ? QuantileTail(p, w, z) : z;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> QuantileCentre(Vector512<double> t)
    {
        var p = Vector512.Create(-1.3485555694052369e-20);
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(-2.3611267541476746e-19));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(2.839314959184629e-18));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(1.105007807969905e-17));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(-2.2886192635431333e-16));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(4.7948847846672745e-16));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(8.952390541084394e-15));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(-7.559512173560418e-14));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(8.847903098302591e-15));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(3.820810799241419e-12));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(-2.4506704212159386e-11));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(-4.4455877372289474e-11));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(1.5709061813179087e-09));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(-7.731728914248283e-09));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(-3.350092067998774e-08));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(6.363754512915423e-07));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(-2.4720482691269095e-06));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(-1.7983737330271173e-05));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(0.00027585837047855335));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(-0.0011825396095249017));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(-0.008114948652276967));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(0.34171699465347455));
        p = Vector512.FusedMultiplyAdd(p, t, Vector512.Create(2.2960351246249897));
        return p;
    }

    // Newton on ln erfc(y) = ln(2 min(p, 1 - p)), which is nearly a parabola in the tail: three steps from a one-term start.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static Vector512<double> QuantileTail(
        Vector512<double> p,
        Vector512<double> w,
        Vector512<double> centre
    )
    {
        var least = Vector512.Max(
            Vector512.Min(p, Vector512<double>.One - p),
            Vector512.Create(1e-300)
        );
        var target = Log(least + least);
        var start =
            -target
            - (
                Vector512.Create(0.5)
                * Log(Vector512.Create(Math.PI) * Vector512.Max(-target, Vector512<double>.One))
            );
        var y = Vector512.Sqrt(Vector512.Max(start, Vector512<double>.One));
        for (var step = 0; step < 4; step++)
        {
            var scaled = ScaledErfc(y);
            var residual = Log(scaled) - (y * y) - target;
            y += residual * scaled * Vector512.Create(0.88622692545275801365);
        }

        var z = y * Vector512.Create(1.41421356237309504880);
        z = Vector512.ConditionalSelect(Vector512.LessThan(p, Vector512.Create(0.5)), -z, z);
        return Vector512.ConditionalSelect(
            Vector512.GreaterThan(w, Vector512.Create(6.0)),
            z,
            centre
        );
    }
}
