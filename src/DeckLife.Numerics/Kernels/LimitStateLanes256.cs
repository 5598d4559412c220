using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>The limit state of <see cref="LimitStateModel"/> on a Vector256 of points.</summary>
/// <remarks>This is the 512-bit file with the width in its names replaced (a test holds them equal); edit that one. Checked by: ConditionalEstimatorTests.</remarks>
internal static unsafe class LimitStateLanes256
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
            Vector256.Store(LaneMath256.Exp(log) / q, diffusion + i);
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
        for (var i = 0; i < count; i += Vector256<double>.Count)
        {
            var log = LogRatio(numbers, depth + i, diffusion + i, ageing + i);
            log = Vector256.FusedMultiplyAdd(
                Vector256.Load(surface + i),
                Vector256.Create(numbers.SurfaceSd),
                log
            );
            log = Vector256.FusedMultiplyAdd(
                Vector256.Load(threshold + i),
                Vector256.Create(-numbers.ThresholdSd),
                log
            );
            Vector256.Store(
                Vector256.ConditionalSelect(
                    Vector256.GreaterThanOrEqual(
                        log,
                        Vector256.Create(numbers.LogMeanThresholdOverSurface)
                    ),
                    Vector256<double>.One,
                    Vector256<double>.Zero
                ),
                result + i
            );
        }
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
