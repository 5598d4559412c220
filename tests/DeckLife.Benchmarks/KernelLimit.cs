using System.Runtime.Intrinsics;
using DeckLife.Numerics.Kernels;

namespace DeckLife.Benchmarks;

/// <summary>The bare kernel, and the machine's peak beside it.</summary>
internal static unsafe class KernelLimit
{
    /// <summary>Seconds of one call of the 512-bit stepping, and how many nodes times steps it did for its 16 samples.</summary>
    public static (double Seconds, int NodeSteps) Stepping()
    {
        var plan = new SectionPlan([4, 8, 8, 8, 4, 4], [0, 0, 1, 1, 1, 1], 2);
        const int steps = 20;
        var memory = new AlignedArray();
        var at = memory.Ensure(1 << 15);
        new Span<double>(at, 1 << 15).Fill(1);
        var cells = at;
        var clocks = cells + 256;
        var factors = clocks + (steps * 2 * 16);
        var surface = factors + 64;
        var content = surface + 16;
        var jumps = content + (40 * 16);
        var history = jumps + 256;
        var scratch = history + (32 * 16);
        const int calls = 256;
        var seconds = CpuClock.Seconds(() =>
        {
            for (var i = 0; i < calls; i++)
            {
                LayeredCore512.Advance(
                    plan,
                    cells,
                    clocks,
                    steps,
                    factors,
                    surface,
                    false,
                    content,
                    jumps,
                    history,
                    scratch
                );
            }
        });
        return (seconds / calls, plan.Nodes * steps);
    }

    /// <summary>Seconds a fused multiply-add of a 512-bit vector, eight independent chains.</summary>
    public static double PeakSeconds()
    {
        const int count = 1_000_000;
        var sink = 0.0;
        return CpuClock.Seconds(() => sink += Chains(count)) / (8.0 * count);
    }

    private static double Chains(int count)
    {
        var a = Vector512.Create(1.0000001);
        var b = Vector512.Create(1e-9);
        var x0 = Vector512<double>.One;
        var x1 = x0;
        var x2 = x0;
        var x3 = x0;
        var x4 = x0;
        var x5 = x0;
        var x6 = x0;
        var x7 = x0;
        for (var i = 0; i < count; i++)
        {
            x0 = Vector512.FusedMultiplyAdd(x0, a, b);
            x1 = Vector512.FusedMultiplyAdd(x1, a, b);
            x2 = Vector512.FusedMultiplyAdd(x2, a, b);
            x3 = Vector512.FusedMultiplyAdd(x3, a, b);
            x4 = Vector512.FusedMultiplyAdd(x4, a, b);
            x5 = Vector512.FusedMultiplyAdd(x5, a, b);
            x6 = Vector512.FusedMultiplyAdd(x6, a, b);
            x7 = Vector512.FusedMultiplyAdd(x7, a, b);
        }

        return Vector512.Sum(x0 + x1 + x2 + x3 + x4 + x5 + x6 + x7);
    }
}
