using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace DeckLife.Numerics.Vectors;

/// <summary>Special functions of whole spans, by the widest vectors of the machine.</summary>
/// <remarks>
/// Every element is computed by itself, so the result does not depend on where it stands in the span. Inputs and outputs may be the same span.
/// Accuracy: Exp 4e-16 relative on [-708, 709] (0 below, exp(709) above); Log 4e-16 of max(|ln x|, 1) for positive normal x; Erfc 5e-15 relative
/// to x = 26 (0 beyond 26.6); NormalCdf 6e-15 relative to x = -36; NormalQuantile 2e-15 of max(|z|, 1) for p from 1e-300.
/// Checked by: LaneMathTests, and kernels/special-functions of the reference checks.
/// </remarks>
public static class VectorFunctions
{
    private const int ExpCode = 0;
    private const int LogCode = 1;
    private const int ErfcCode = 2;
    private const int CdfCode = 3;
    private const int QuantileCode = 4;

    /// <summary>exp(x).</summary>
    /// <param name="x">Arguments.</param>
    /// <param name="result">Receives as many values.</param>
    public static void Exp(ReadOnlySpan<double> x, Span<double> result) =>
        Apply(ExpCode, x, result, VectorWidth.InUse);

    /// <summary>ln x.</summary>
    /// <param name="x">Arguments, positive and normal (at least 2.3e-308).</param>
    /// <param name="result">Receives as many values.</param>
    public static void Log(ReadOnlySpan<double> x, Span<double> result) =>
        Apply(LogCode, x, result, VectorWidth.InUse);

    /// <summary>The complementary error function.</summary>
    /// <param name="x">Arguments.</param>
    /// <param name="result">Receives as many values.</param>
    public static void Erfc(ReadOnlySpan<double> x, Span<double> result) =>
        Apply(ErfcCode, x, result, VectorWidth.InUse);

    /// <summary>The standard normal distribution function.</summary>
    /// <param name="x">Arguments.</param>
    /// <param name="result">Receives as many values.</param>
    public static void NormalCdf(ReadOnlySpan<double> x, Span<double> result) =>
        Apply(CdfCode, x, result, VectorWidth.InUse);

    /// <summary>The standard normal quantile.</summary>
    /// <param name="probability">Probabilities, strictly between 0 and 1.</param>
    /// <param name="result">Receives as many values.</param>
    public static void NormalQuantile(ReadOnlySpan<double> probability, Span<double> result) =>
        Apply(QuantileCode, probability, result, VectorWidth.InUse);

    /// <summary>exp(origin + slope x).</summary>
    /// <param name="x">Arguments.</param>
    /// <param name="result">Receives as many values; may be the same span.</param>
    /// <param name="origin">Added to each.</param>
    /// <param name="slope">Multiplies each.</param>
    public static void ExpOfLine(
        ReadOnlySpan<double> x,
        Span<double> result,
        double origin,
        double slope
    ) => ExpOfLine(x, result, origin, slope, VectorWidth.InUse);

    internal static void ExpOfLine(
        ReadOnlySpan<double> x,
        Span<double> result,
        double origin,
        double slope,
        LaneWidth width
    )
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(result.Length, x.Length);
        if (width == LaneWidth.Scalar)
        {
            VectorLoops.Line(x, result, origin, slope);
            ApplyScalar(ExpCode, result[..x.Length], result);
            return;
        }

        var whole = x.Length - (x.Length % (int)width);
        ExpOfLineWhole(x[..whole], result[..whole], origin, slope, width);
        if (whole < x.Length)
        {
            Span<double> padded = stackalloc double[8];
            x[whole..].CopyTo(padded);
            ExpOfLineWhole(padded[..(int)width], padded[..(int)width], origin, slope, width);
            padded[..(x.Length - whole)].CopyTo(result[whole..]);
        }
    }

    private static void ExpOfLineWhole(
        ReadOnlySpan<double> x,
        Span<double> result,
        double origin,
        double slope,
        LaneWidth width
    )
    {
        if (width == LaneWidth.Eight)
        {
            var source = MemoryMarshal.Cast<double, Vector512<double>>(x);
            var target = MemoryMarshal.Cast<double, Vector512<double>>(result);
            for (var i = 0; i < source.Length; i++)
            {
                target[i] = LaneMath512.Exp(
                    Vector512.FusedMultiplyAdd(
                        source[i],
                        Vector512.Create(slope),
                        Vector512.Create(origin)
                    )
                );
            }
        }
        else
        {
            var source = MemoryMarshal.Cast<double, Vector256<double>>(x);
            var target = MemoryMarshal.Cast<double, Vector256<double>>(result);
            for (var i = 0; i < source.Length; i++)
            {
                target[i] = LaneMath256.Exp(
                    Vector256.FusedMultiplyAdd(
                        source[i],
                        Vector256.Create(slope),
                        Vector256.Create(origin)
                    )
                );
            }
        }
    }

    internal static void Apply(
        int code,
        ReadOnlySpan<double> x,
        Span<double> result,
        LaneWidth width
    )
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(result.Length, x.Length);
        result = result[..x.Length];
        if (width == LaneWidth.Scalar || x.Length == 0)
        {
            ApplyScalar(code, x, result);
            return;
        }

        var lanes = (int)width;
        var whole = x.Length - (x.Length % lanes);
        ApplyWhole(code, x[..whole], result[..whole], width);
        if (whole < x.Length)
        {
            // The rest in a padded vector, so that each element is computed alike wherever it stands.
            Span<double> padded = stackalloc double[8];
            padded.Fill(0.5);
            x[whole..].CopyTo(padded);
            ApplyWhole(code, padded[..lanes], padded[..lanes], width);
            padded[..(x.Length - whole)].CopyTo(result[whole..]);
        }
    }

    private static void ApplyWhole(
        int code,
        ReadOnlySpan<double> x,
        Span<double> result,
        LaneWidth width
    )
    {
        if (width == LaneWidth.Eight)
        {
            var source = MemoryMarshal.Cast<double, Vector512<double>>(x);
            var target = MemoryMarshal.Cast<double, Vector512<double>>(result);
            switch (code)
            {
                case ExpCode:
                    for (var i = 0; i < source.Length; i++)
                    {
                        target[i] = LaneMath512.Exp(source[i]);
                    }

                    break;
                case LogCode:
                    for (var i = 0; i < source.Length; i++)
                    {
                        target[i] = LaneMath512.Log(source[i]);
                    }

                    break;
                case ErfcCode:
                    for (var i = 0; i < source.Length; i++)
                    {
                        target[i] = LaneMath512.Erfc(source[i]);
                    }

                    break;
                case CdfCode:
                    for (var i = 0; i < source.Length; i++)
                    {
                        target[i] = LaneMath512.NormalCdf(source[i]);
                    }

                    break;
                default:
                    for (var i = 0; i < source.Length; i++)
                    {
                        target[i] = LaneMath512.NormalQuantile(source[i]);
                    }

                    break;
            }
        }
        else
        {
            var source = MemoryMarshal.Cast<double, Vector256<double>>(x);
            var target = MemoryMarshal.Cast<double, Vector256<double>>(result);
            switch (code)
            {
                case ExpCode:
                    for (var i = 0; i < source.Length; i++)
                    {
                        target[i] = LaneMath256.Exp(source[i]);
                    }

                    break;
                case LogCode:
                    for (var i = 0; i < source.Length; i++)
                    {
                        target[i] = LaneMath256.Log(source[i]);
                    }

                    break;
                case ErfcCode:
                    for (var i = 0; i < source.Length; i++)
                    {
                        target[i] = LaneMath256.Erfc(source[i]);
                    }

                    break;
                case CdfCode:
                    for (var i = 0; i < source.Length; i++)
                    {
                        target[i] = LaneMath256.NormalCdf(source[i]);
                    }

                    break;
                default:
                    for (var i = 0; i < source.Length; i++)
                    {
                        target[i] = LaneMath256.NormalQuantile(source[i]);
                    }

                    break;
            }
        }
    }

    private static void ApplyScalar(int code, ReadOnlySpan<double> x, Span<double> result)
    {
        for (var i = 0; i < x.Length; i++)
        {
            result[i] = code switch
            {
                ExpCode => x[i] < -708 ? 0 : Math.Exp(Math.Min(x[i], 709)),
                LogCode => Math.Log(x[i]),
                ErfcCode => LaneMathScalar.Erfc(x[i]),
                CdfCode => LaneMathScalar.NormalCdf(x[i]),
                _ => LaneMathScalar.NormalQuantile(x[i]),
            };
        }
    }
}
