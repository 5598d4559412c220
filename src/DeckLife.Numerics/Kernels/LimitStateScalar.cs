using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>The limit state of <see cref="LimitStateModel"/>, one point at a time: what <see cref="LimitStateLanes512"/> does in vectors.</summary>
internal static unsafe class LimitStateScalar
{
    /// <summary>Turns standard normal numbers into depths, diffusion factors Dref aref^m / (1 - m), or without that divisor, and 1 - m; in place.</summary>
    public static void Transform(
        in LimitStateNumbers numbers,
        double* depth,
        double* diffusion,
        double* ageing,
        int count
    )
    {
        for (var i = 0; i < count; i++)
        {
            var m = Math.Clamp(
                numbers.AgeingMean + (numbers.AgeingSd * ageing[i]),
                numbers.LeastAgeing,
                numbers.LargestAgeing
            );
            depth[i] = Math.Max(
                numbers.DepthMean + (numbers.DepthSd * depth[i]),
                numbers.LeastDepth
            );
            diffusion[i] =
                Math.Exp(
                    numbers.DiffusionMean
                        + (numbers.DiffusionSd * diffusion[i])
                        + (m * numbers.LogReferenceAge)
                ) / (1 - (numbers.DividingShare * m));
            ageing[i] = 1 - m;
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
        for (var i = 0; i < count; i++)
        {
            result[i] = LaneMathScalar.NormalCdf(
                (LogRatio(numbers, depth[i], diffusion[i], ageing[i]) * numbers.InverseSpread)
                    + numbers.Offset
            );
        }
    }

    /// <summary>Turns pairs of uniform numbers into pairs of standard normal ones (polar form); in place.</summary>
    public static void NormalPairs(double* first, double* second, int count)
    {
        for (var i = 0; i < count; i++)
        {
            var radius = Math.Sqrt(-2 * Math.Log(first[i]));
            var (sine, cosine) = Math.SinCos(2 * Math.PI * second[i]);
            first[i] = radius * cosine;
            second[i] = radius * sine;
        }
    }

    /// <summary>Whether the content has reached the threshold, 1 or 0, given all five variables as standard normal numbers.</summary>
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
        for (var i = 0; i < count; i++)
        {
            var x = depth[i];
            var d = diffusion[i];
            var q = ageing[i];
            Transform(numbers, &x, &d, &q, 1);
            var log =
                LogRatio(numbers, x, d, q)
                + (numbers.SurfaceSd * surface[i])
                - (numbers.ThresholdSd * threshold[i]);
            result[i] = log >= numbers.LogMeanThresholdOverSurface ? 1 : 0;
        }
    }

    private static double LogRatio(
        in LimitStateNumbers numbers,
        double depth,
        double diffusion,
        double q
    )
    {
        var power = Math.Exp(q * numbers.LogAge) * (1 + (q * numbers.AgeBeyond));
        if (numbers.HasStart)
        {
            power -= Math.Exp(q * numbers.LogAgeAtStart);
        }

        var z = Math.Min(depth * 0.5 / Math.Sqrt(diffusion * power), 26.0);
        return Math.Log(LaneMathScalar.ScaledErfc(z)) - (z * z);
    }
}
