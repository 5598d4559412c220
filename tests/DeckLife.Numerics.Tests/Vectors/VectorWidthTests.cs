using System.Runtime.Intrinsics;
using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Vectors;
using Xunit;

namespace DeckLife.Numerics.Tests.Vectors;

public class VectorWidthTests
{
    // Run with the knobs set, this shows that they take effect; reference-checks/peers/speed/run.sh prints the width under each.
    [Fact]
    public void InUse_UnderTheKnobs_IsLowered()
    {
        var without512 = Environment.GetEnvironmentVariable("DOTNET_EnableAVX512") == "0";
        var without256 = Environment.GetEnvironmentVariable("DOTNET_EnableAVX2") == "0";
        var expected =
            without256 ? LaneWidth.Scalar
            : without512 || !Vector512.IsHardwareAccelerated
                ? (Vector256.IsHardwareAccelerated ? LaneWidth.Four : LaneWidth.Scalar)
            : LaneWidth.Eight;
        Assert.Equal(expected, VectorWidth.InUse);
    }

    [Fact]
    public void Available_EndsWithTheWidthInUse()
    {
        Assert.Equal(LaneWidth.Scalar, VectorWidth.Available[0]);
        Assert.Equal(VectorWidth.InUse, VectorWidth.Available[^1]);
    }

    [Fact]
    public void Solver_WiderThanTheMachine_IsRefused()
    {
        if (VectorWidth.InUse == LaneWidth.Eight)
        {
            return; // skipped: there is no wider one
        }

        Assert.Throws<ArgumentOutOfRangeException>(() =>
            new BatchedOverlaySolver(new SectionSolverOptions { Width = LaneWidth.Eight })
        );
    }
}
