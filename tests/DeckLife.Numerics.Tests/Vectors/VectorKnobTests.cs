using System.Diagnostics;
using System.Globalization;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using DeckLife.Numerics.Vectors;
using Xunit;

namespace DeckLife.Numerics.Tests.Vectors;

/// <summary>Each knob that switches vectors off, set for a process of its own, takes effect there, and the results stay the same to rounding.</summary>
public class VectorKnobTests
{
    [Theory]
    [InlineData("DOTNET_EnableAVX512", LaneWidth.Four)]
    [InlineData("DOTNET_EnableAVX2", LaneWidth.Scalar)]
    [InlineData("DOTNET_EnableHWIntrinsic", LaneWidth.Scalar)]
    public void Knob_SetForAProcess_LowersItsWidth(string knob, LaneWidth widest)
    {
        var free = Child(null);
        var held = Child(knob);
        Assert.Equal(free.Width < widest ? free.Width : widest, held.Width);
        Assert.Equal(free.Contents.Length, held.Contents.Length);
        for (var i = 0; i < free.Contents.Length; i++)
        {
            Assert.Equal(free.Contents[i], held.Contents[i], 1e-11);
        }
    }

    [Fact]
    public void NoKnob_WidthIsTheMachines()
    {
        var machine =
            Vector512.IsHardwareAccelerated && Avx512F.IsSupported ? LaneWidth.Eight
            : Vector256.IsHardwareAccelerated && Fma.IsSupported ? LaneWidth.Four
            : LaneWidth.Scalar;
        Assert.True(Child(null).Width >= machine, "the child has at least what this process has");
    }

    private static (LaneWidth Width, double[] Contents) Child(string? knob)
    {
        var assembly = typeof(VectorKnobTests).Assembly.Location;
        var start = new ProcessStartInfo(
            Environment.ProcessPath is { } host
            && Path.GetFileNameWithoutExtension(host) == "dotnet"
                ? host
                : "dotnet"
        )
        {
            RedirectStandardOutput = true,
        };
        start.ArgumentList.Add("exec");
        start.ArgumentList.Add(assembly);
        start.ArgumentList.Add("width");
        foreach (
            var name in new[]
            {
                "DOTNET_EnableAVX512",
                "DOTNET_EnableAVX2",
                "DOTNET_EnableHWIntrinsic",
            }
        )
        {
            start.Environment.Remove(name);
        }

        if (knob is not null)
        {
            start.Environment[knob] = "0";
        }

        using var process = Process.Start(start)!;
        var width = Enum.Parse<LaneWidth>(process.StandardOutput.ReadLine()!);
        double[] contents =
        [
            .. process
                .StandardOutput.ReadLine()!
                .Split(' ')
                .Select(c => double.Parse(c, CultureInfo.InvariantCulture)),
        ];
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
        return (width, contents);
    }
}
