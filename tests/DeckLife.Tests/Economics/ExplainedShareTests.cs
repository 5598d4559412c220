using DeckLife.Decisions;
using DeckLife.Numerics.Sampling;
using Xunit;

namespace DeckLife.Tests.Economics;

public class ExplainedShareTests
{
    private const int Draws = 2000;
    private static readonly int[] Indices = [.. Enumerable.Range(0, Draws)];
    private static readonly double[] A = Normals("a");
    private static readonly double[] B = Normals("b");
    private static readonly double[] C = Normals("c");

    [Fact]
    public void Of_SumOfIndependentInputs_IsEachOnesShareOfTheVariance()
    {
        // y = 2a + b + noise of variance 1: shares 4/6, 1/6, and 5/6 together.
        var y = A.Select((a, k) => (2 * a) + B[k] + C[k]).ToArray();

        var first = ExplainedShare.Of([A], y, Indices);
        var second = ExplainedShare.Of([B], y, Indices);
        var both = ExplainedShare.Of([A, B], y, Indices);

        Assert.Equal(4.0 / 6, first.Share, 4 * first.Error);
        Assert.Equal(1.0 / 6, second.Share, 4 * second.Error);
        Assert.Equal(5.0 / 6, both.Share, 4 * both.Error);
        Assert.InRange(first.Error, 1e-3, 0.05);
    }

    [Fact]
    public void Of_ProductOfTwo_BelongsToThemTogetherOnly()
    {
        var y = A.Select((a, k) => a * B[k]).ToArray();

        Assert.InRange(ExplainedShare.Of([A], y, Indices).Share, 0, 0.03);
        Assert.InRange(ExplainedShare.Of([A, B], y, Indices).Share, 0.97, 1);
    }

    [Fact]
    public void Of_InputThatHasNothingToDoWithIt_ExplainsNothing() =>
        Assert.InRange(ExplainedShare.Of([A], C, Indices).Share, 0, 0.01);

    [Fact]
    public void Of_NothingVaries_IsZero() =>
        Assert.Equal((0, 0), ExplainedShare.Of([A], new double[Draws], Indices));

    [Fact]
    public void Of_EachDrawTakenTwice_IsNotTakenForKnowledge()
    {
        // Ten inputs of noise: a fit that saw the twin of a held-out draw would seem to explain it.
        var few = 100;
        var inputs = Enumerable
            .Range(0, 3)
            .Select(i => Normals($"noise {i}").Take(few).SelectMany(v => new[] { v, v }).ToArray())
            .ToArray();
        var y = C.Take(few).SelectMany(v => new[] { v, v }).ToArray();
        var twins = Enumerable.Range(0, few).SelectMany(k => new[] { k, k }).ToArray();

        Assert.InRange(ExplainedShare.Of(inputs, y, twins).Share, 0, 0.05);
    }

    [Fact]
    public void Of_FewDrawsTakenOften_AreStillExplained()
    {
        // Eighty draws ten times each, ten inputs that add up: a surface chosen by the eight hundred would have more terms than draws.
        const int Few = 80;
        const int Times = 10;
        double[] Often(double[] values) =>
            [.. values.Take(Few).SelectMany(v => Enumerable.Repeat(v, Times))];
        var inputs = Enumerable.Range(0, 10).Select(i => Often(Normals($"input {i}"))).ToArray();
        double[] y = [.. Enumerable.Range(0, Few * Times).Select(k => inputs.Sum(i => i[k]))];
        int[] indices = [.. Enumerable.Range(0, Few * Times).Select(k => k / Times)];

        Assert.InRange(ExplainedShare.Of(inputs, y, indices).Share, 0.95, 1);
    }

    private static double[] Normals(string name)
    {
        var values = new double[Draws];
        new RandomStream(11, name).FillNormal(values);
        return values;
    }
}
