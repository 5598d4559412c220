using System.Runtime.CompilerServices;
using DeckLife.Numerics.Kernels;
using Xunit;

namespace DeckLife.Numerics.Tests.Kernels;

public class LayeredCoreTests
{
    [Fact]
    public void Source_OfTheNarrowFile_IsTheWideOnesWithTheNumberReplaced()
    {
        static string Body(string name, [CallerFilePath] string here = "")
        {
            var path = Path.Combine(
                Path.GetDirectoryName(here)!,
                "../../../src/DeckLife.Numerics/Kernels",
                name
            );
            return string.Join(
                '\n',
                File.ReadLines(path)
                    .Where(line => !line.TrimStart().StartsWith("///", StringComparison.Ordinal))
                    .Select(line =>
                        line.Replace("Vector512", "Vector256", StringComparison.Ordinal)
                            .Replace("LayeredCore512", "LayeredCore256", StringComparison.Ordinal)
                    )
            );
        }

        Assert.Equal(Body("LayeredCore512.cs"), Body("LayeredCore256.cs"));
    }

    // A slab with both ends out of play and one uniform content stays as it is: every row of the mass and stiffness sums to what it must.
    [Fact]
    public void Advance_UniformContentSealed_StaysUniform()
    {
        var plan = new SectionPlan([6, 8, 4, 10], [0, 0, 1, 1], 1);
        double[] cells = [3, 0.5, 2, 7];
        var clocks = new double[2 * 12];
        for (var i = 0; i < clocks.Length; i++)
        {
            clocks[i] = 0.1 * (i + 1) * (i + 1);
        }

        var content = new double[plan.Nodes + 1];
        Array.Fill(content, 1.75);
        var history = new double[12];
        LayeredCoreScalar.Advance(
            plan,
            cells,
            clocks,
            12,
            new double[12],
            new double[12],
            true,
            content,
            new double[4],
            history,
            new double[(3 * content.Length) + 4]
        );
        Assert.All(content, c => Assert.Equal(1.75, c, 1e-13));
        Assert.All(history, c => Assert.Equal(1.75, c, 1e-13));
    }

    // Order of accuracy: halving cells and steps together divides the error by four or more. Smooth start: the first cosine of a sealed
    // slab of one material decays as exp(-(π/L)² s).
    [Fact]
    public void Advance_SmoothStart_SecondOrderOrBetter()
    {
        double Error(int cells, int steps)
        {
            const double length = 100;
            var plan = new SectionPlan([cells, cells], [0, 0], 0);
            var h = length / (2 * cells);
            var content = new double[plan.Nodes + 1];
            for (var i = 0; i <= plan.Nodes; i++)
            {
                content[i] = 1 + Math.Cos(Math.PI * i / plan.Nodes);
            }

            var clocks = new double[steps];
            Array.Fill(clocks, SteppingConstants.Gamma * 600 / steps);
            var history = new double[steps];
            LayeredCoreScalar.Advance(
                plan,
                [h, h],
                clocks,
                steps,
                new double[steps],
                new double[steps],
                true,
                content,
                new double[2],
                history,
                new double[(3 * content.Length) + 2]
            );
            var exact = 1 + Math.Exp(-Math.PI * Math.PI * 600 / (length * length));
            return Math.Abs(content[0] - exact);
        }

        var order = Math.Log2(Error(8, 8) / Error(16, 16));
        Assert.InRange(order, 1.8, 4.5);
    }
}
