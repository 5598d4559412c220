using System.Runtime.Intrinsics;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>The closed form of <see cref="ClosedFormContent"/> on a Vector512 of points.</summary>
/// <remarks>ClosedFormLanes256.cs is this file with the width in its names replaced (a test holds them equal). Checked by: ClosedFormContentTests.</remarks>
internal static unsafe class ClosedFormLanes512
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
        var logRatio = Vector512.Create(numbers.LogRatio);
        var instantaneous = Vector512.Create(numbers.IsInstantaneous ? 1.0 : 0);
        for (var i = 0; i < count; i += Vector512<double>.Count)
        {
            var quarter = Vector512.Create(0.25);
            var clock = Vector512.Load(coefficient + i) * Vector512.Create(numbers.Years);
            if (ageing != null)
            {
                var m = Vector512.Load(ageing + i);
                var power = m * logRatio;
                if (exponent != null)
                {
                    power += Vector512.Load(exponent + i);
                }

                clock *= LaneMath512.Exp(power);
                quarter = Vector512.FusedMultiplyAdd(
                    Vector512.Create(-0.25) * instantaneous,
                    m,
                    quarter
                );
            }
            else if (exponent != null)
            {
                clock *= LaneMath512.Exp(Vector512.Load(exponent + i));
            }

            // x / (2 sqrt(s)), the divisor 1 - m of an instantaneous law taken to the other side.
            var u = Vector512.Load(depth + i) * Vector512.Sqrt(quarter / clock);
            var start = Vector512.Load(initial + i);
            var content = Vector512.FusedMultiplyAdd(
                Vector512.Load(surface + i) - start,
                LaneMath512.Erfc(u),
                start
            );
            if (threshold != null)
            {
                content = Vector512.ConditionalSelect(
                    Vector512.GreaterThanOrEqual(content, Vector512.Load(threshold + i)),
                    Vector512<double>.One,
                    Vector512<double>.Zero
                );
            }

            Vector512.Store(content, result + i);
        }
    }
}
