using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>The limit state of <see cref="LimitStateModel"/> on a Vector512 of points.</summary>
/// <remarks>LimitStateLanes256.cs is this file with the width in its names replaced (a test holds them equal). Checked by: ConditionalEstimatorTests.</remarks>
internal static unsafe class LimitStateLanes512
{
    /// <summary>Turns standard normal numbers into depths, diffusion factors Dref aref^m / (1 - m), and 1 - m; in place.</summary>
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
            Vector512.Store(LaneMath512.Exp(log) / q, diffusion + i);
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

    /// <summary>Whether the content has reached the threshold, 1 or 0, given all five variables; the last two as standard normal numbers.</summary>
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
        for (var i = 0; i < count; i += Vector512<double>.Count)
        {
            var log = LogRatio(numbers, depth + i, diffusion + i, ageing + i);
            log = Vector512.FusedMultiplyAdd(
                Vector512.Load(surface + i),
                Vector512.Create(numbers.SurfaceSd),
                log
            );
            log = Vector512.FusedMultiplyAdd(
                Vector512.Load(threshold + i),
                Vector512.Create(-numbers.ThresholdSd),
                log
            );
            Vector512.Store(
                Vector512.ConditionalSelect(
                    Vector512.GreaterThanOrEqual(
                        log,
                        Vector512.Create(numbers.LogMeanThresholdOverSurface)
                    ),
                    Vector512<double>.One,
                    Vector512<double>.Zero
                ),
                result + i
            );
        }
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
