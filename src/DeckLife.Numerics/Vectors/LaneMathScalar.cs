namespace DeckLife.Numerics.Vectors;

/// <summary>The special functions of <see cref="LaneMath512"/> for one double, without fused operations.</summary>
/// <remarks>Checked by: LaneMathTests.</remarks>
internal static class LaneMathScalar
{
    private const double ErfcCentre = 3.75;
    private const double ErfcFarthest = 26.6;

    /// <summary>exp(z²) erfc(z) for z from 0 to 26.6 (clamped): relative error below 4e-15.</summary>
    public static double ScaledErfc(double z)
    {
        var a = Math.Min(z, ErfcFarthest);
        var y = (a - ErfcCentre) / (a + ErfcCentre);
        // Four polynomials in y^4 side by side: the processor works on all at once.
        var square = y * y;
        var fourth = square * square;
        var p0 = -3.1515602808802333e-09;
        p0 = (p0 * fourth) + -1.8216090715734383e-07;
        p0 = (p0 * fourth) + 3.583811941635931e-06;
        p0 = (p0 * fourth) + 0.0018029624167572075;
        p0 = (p0 * fourth) + 0.10260431203219127;
        p0 = (p0 * fourth) + 0.14558972127503853;
        var p1 = -1.3518303985259703e-09;
        p1 = (p1 * fourth) + -7.420630236739435e-08;
        p1 = (p1 * fourth) + -6.1840499721783724e-06;
        p1 = (p1 * fourth) + -2.5535365151671265e-05;
        p1 = (p1 * fourth) + -0.05480232669521649;
        p1 = (p1 * fourth) + -0.27342193149542654;
        var p2 = -4.9135675385334025e-11;
        p2 = (p2 * fourth) + 2.9512494692604754e-08;
        p2 = (p2 * fourth) + 7.480878638179082e-07;
        p2 = (p2 * fourth) + -0.00015246267470780394;
        p2 = (p2 * fourth) + 0.024143223972536487;
        p2 = (p2 * fourth) + 0.2260080669166216;
        var p3 = 1.0117313333440169e-08;
        p3 = (p3 * fourth) + 6.607450919315147e-07;
        p3 = (p3 * fourth) + 4.789896485040162e-05;
        p3 = (p3 * fourth) + -0.008220621150304601;
        p3 = (p3 * fourth) + -0.1635718955239171;
        return (p0 + (p1 * y)) + ((p2 + (p3 * y)) * square);
    }

    /// <summary>erfc(x): relative error below 5e-15 for x up to 26; 0 beyond 26.6.</summary>
    public static double Erfc(double x)
    {
        var z = Math.Min(Math.Abs(x), 30.0);
        var square = z * z;
        if (square > 708)
        {
            return x < 0 ? 2 : 0;
        }

        // The rounding error of z², by Veltkamp's splitting (134217729 = 2^27 + 1).
        var c = 134217729.0 * z;
        var high = c - (c - z);
        var low = z - high;
        var lost = ((high * high) - square) + (2 * high * low) + (low * low);
        var tail = ScaledErfc(z) * Math.Exp(-square);
        tail -= tail * lost;
        return x < 0 ? 2 - tail : tail;
    }

    /// <summary>The standard normal distribution function: relative error below 6e-15 down to x = -36.</summary>
    public static double NormalCdf(double x) => 0.5 * Erfc(x * -0.70710678118654752440);

    /// <summary>The standard normal quantile of p from 1e-300 to 1 - 2^-53: error below 2e-15 of the larger of |z| and 1.</summary>
    public static double NormalQuantile(double p)
    {
        var upper = 1 - p;
        var w = -Math.Log(4 * p * upper);
        return w > 6 ? QuantileTail(p) : (p - upper) * QuantileCentre(w - 3);
    }

    private static double QuantileCentre(double t)
    {
        var p = -1.3485555694052369e-20;
        p = (p * t) + -2.3611267541476746e-19;
        p = (p * t) + 2.839314959184629e-18;
        p = (p * t) + 1.105007807969905e-17;
        p = (p * t) + -2.2886192635431333e-16;
        p = (p * t) + 4.7948847846672745e-16;
        p = (p * t) + 8.952390541084394e-15;
        p = (p * t) + -7.559512173560418e-14;
        p = (p * t) + 8.847903098302591e-15;
        p = (p * t) + 3.820810799241419e-12;
        p = (p * t) + -2.4506704212159386e-11;
        p = (p * t) + -4.4455877372289474e-11;
        p = (p * t) + 1.5709061813179087e-09;
        p = (p * t) + -7.731728914248283e-09;
        p = (p * t) + -3.350092067998774e-08;
        p = (p * t) + 6.363754512915423e-07;
        p = (p * t) + -2.4720482691269095e-06;
        p = (p * t) + -1.7983737330271173e-05;
        p = (p * t) + 0.00027585837047855335;
        p = (p * t) + -0.0011825396095249017;
        p = (p * t) + -0.008114948652276967;
        p = (p * t) + 0.34171699465347455;
        p = (p * t) + 2.2960351246249897;
        return p;
    }

    private static double QuantileTail(double p)
    {
        var least = Math.Max(Math.Min(p, 1 - p), 1e-300);
        var target = Math.Log(least + least);
        var y = Math.Sqrt(Math.Max(-target - (0.5 * Math.Log(-Math.PI * target)), 1.0));
        for (var step = 0; step < 4; step++)
        {
            var scaled = ScaledErfc(y);
            var residual = Math.Log(scaled) - (y * y) - target;
            y += residual * scaled * 0.88622692545275801365;
        }

        var z = y * 1.41421356237309504880;
        return p < 0.5 ? -z : z;
    }
}
