using DeckLife.Numerics.Vectors;
using Xunit;

namespace DeckLife.Numerics.Tests.Vectors;

public class VectorLoopsTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(13)]
    public void Loops_OfAnyLength_AreTheirFormulas(int n)
    {
        var a = Enumerable.Range(0, n).Select(i => Math.Sin(i) * 3).ToArray();
        var b = Enumerable.Range(0, n).Select(i => Math.Cos(i) + 0.1).ToArray();
        var result = new double[n];
        VectorLoops.Line(a, result, 0.3, 1.7);
        Assert.Equal(a.Select(x => 0.3 + (1.7 * x)), result);
        VectorLoops.Add(a, b, result);
        Assert.Equal(a.Zip(b, (x, y) => x + y), result);
        VectorLoops.Multiply(a, b, result);
        Assert.Equal(a.Zip(b, (x, y) => x * y), result);
        VectorLoops.Largest(a, b, result);
        Assert.Equal(a.Zip(b, Math.Max), result);
        VectorLoops.WeightedSum(a, b, b, a, [0.1, -0.2, 0.7, 0.4], result);
        Assert.Equal(
            a.Zip(b, (x, y) => (((0.1 * x) + (-0.2 * y)) + (0.7 * y)) + (0.4 * x)),
            result
        );
        b.CopyTo(result, 0);
        VectorLoops.AddScaled(a, -1.3, result);
        Assert.Equal(a.Zip(b, (x, y) => y + (-1.3 * x)), result);
        Assert.Equal(a.Sum(), VectorLoops.Sum(a), 1e-13);
        var high = b.Select(y => y + 1).ToArray();
        Assert.Equal(
            Enumerable.Range(0, n).Sum(i => Math.Clamp(a[i], b[i], high[i]) - b[i]),
            VectorLoops.SumWithin(a, b, high),
            1e-13
        );
        VectorLoops.Choose(a, 0.5, -1, 2, result);
        Assert.Equal(a.Select(x => x <= 0.5 ? -1.0 : 2), result);
        VectorLoops.Clamp(a, -1, 1);
        Assert.All(a, x => Assert.InRange(x, -1, 1));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(8)]
    [InlineData(13)]
    public void ExpOfLine_EveryWidth_IsItsFormula(int n)
    {
        var x = Enumerable.Range(0, n).Select(i => Math.Sin(i) * 3).ToArray();
        foreach (var width in VectorWidth.Available)
        {
            var result = new double[n];
            VectorFunctions.ExpOfLine(x, result, 0.3, 1.7, width);
            for (var i = 0; i < n; i++)
            {
                Assert.Equal(1, result[i] / Math.Exp(0.3 + (1.7 * x[i])), 2e-15);
            }
        }
    }
}
