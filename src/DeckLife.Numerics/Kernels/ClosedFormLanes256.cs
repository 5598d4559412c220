using System.Runtime.Intrinsics;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>The closed form of <see cref="ClosedFormContent"/> on a Vector256 of points.</summary>
/// <remarks>ClosedFormLanes512.cs is this file with the width in its names replaced (a test holds them equal). Checked by: ClosedFormContentTests.</remarks>
internal static unsafe class ClosedFormLanes256
{
    /// <summary>Contents of a whole number of vectors, or with a threshold whether they reach it; absent columns are null pointers.</summary>
    public static void Fill(
        double* depth,
        double* coefficient,
        double* ageing,
        double* exponent,
        double* initial,
        double* surface,
        double* threshold,
        double* result,
        in ClosedFormNumbers numbers,
        int count
    )
    {
        var logRatio = Vector256.Create(numbers.LogRatio);
        var instantaneous = Vector256.Create(numbers.IsInstantaneous ? 1.0 : 0);
        for (var i = 0; i < count; i += Vector256<double>.Count)
        {
            var quarter = Vector256.Create(0.25);
            var clock = Vector256.Load(coefficient + i) * Vector256.Create(numbers.Years);
            if (ageing != null)
            {
                var m = Vector256.Load(ageing + i);
                var power = m * logRatio;
                if (exponent != null)
                {
                    power += Vector256.Load(exponent + i);
                }

                clock *= LaneMath256.Exp(power);
                quarter = Vector256.FusedMultiplyAdd(
                    Vector256.Create(-0.25) * instantaneous,
                    m,
                    quarter
                );
            }
            else if (exponent != null)
            {
                clock *= LaneMath256.Exp(Vector256.Load(exponent + i));
            }

            // x / (2 sqrt(s)), the divisor 1 - m of an instantaneous law taken to the other side.
            var u = Vector256.Load(depth + i) * Vector256.Sqrt(quarter / clock);
            var start = Vector256.Load(initial + i);
            var content = Vector256.FusedMultiplyAdd(
                Vector256.Load(surface + i) - start,
                LaneMath256.Erfc(u),
                start
            );
            if (threshold != null)
            {
                content = Vector256.ConditionalSelect(
                    Vector256.GreaterThanOrEqual(content, Vector256.Load(threshold + i)),
                    Vector256<double>.One,
                    Vector256<double>.Zero
                );
            }

            Vector256.Store(content, result + i);
        }
    }
}
