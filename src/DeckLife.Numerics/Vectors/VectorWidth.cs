using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace DeckLife.Numerics.Vectors;

/// <summary>Which vectors the batched kernels use on this machine, in this process.</summary>
/// <remarks>
/// The environment variables DOTNET_EnableAVX512=0 and DOTNET_EnableAVX2=0 (which also takes the 256-bit vectors and the fused
/// multiply-add away), set before the process starts, lower it. Checked by: VectorWidthTests.
/// </remarks>
public static class VectorWidth
{
    /// <summary>The width in use.</summary>
    public static LaneWidth InUse { get; } = Widest();

    /// <summary>The widths that this process can run, narrowest first.</summary>
    public static IReadOnlyList<LaneWidth> Available { get; } =
    [.. Enum.GetValues<LaneWidth>().Where(width => width <= InUse)];

    /// <summary>The width in words, for reports.</summary>
    public static string Description =>
        InUse switch
        {
            LaneWidth.Eight => "512-bit vectors (8 doubles)",
            LaneWidth.Four => "256-bit vectors (4 doubles)",
            _ => "no vectors (1 double)",
        };

    // A machine without the fused multiply-add would pay for it in software: it takes the scalar path.
    private static LaneWidth Widest()
    {
        if (Vector512.IsHardwareAccelerated && Avx512F.IsSupported)
        {
            return LaneWidth.Eight;
        }

        return Vector256.IsHardwareAccelerated && Fma.IsSupported
            ? LaneWidth.Four
            : LaneWidth.Scalar;
    }
}
