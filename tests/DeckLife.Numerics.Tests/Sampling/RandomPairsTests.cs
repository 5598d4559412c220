using System.Runtime.CompilerServices;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;
using Xunit;

namespace DeckLife.Numerics.Tests.Sampling;

public class RandomPairsTests
{
    // The first numbers of a splittable stream of seed 1234567, as widely printed for this mix (from memory; the same by a line-by-line Python copy).
    [Fact]
    public void Mix_OfACounter_GivesTheKnownNumbers()
    {
        ulong[] expected =
        [
            6457827717110365317,
            3203168211198807973,
            9817491932198370423,
            4593380528125082431,
            16408922859458223821,
        ];
        Assert.Equal(
            expected,
            Enumerable
                .Range(1, 5)
                .Select(i =>
                    MixedCounterScalar.Mix(
                        unchecked(1234567 + ((ulong)i * MixedCounterScalar.Gamma))
                    )
                )
        );
    }

    [Fact]
    public void Redraw_OfACutNormal_LeavesTheCutDistribution()
    {
        var a = new double[100_000];
        var b = new double[100_000];
        RandomPairs.FillNormal(1, 2, 3, a, b);
        RandomPairs.Redraw(1, 2, 4, a, -1.2, 1.9);
        Assert.All(a, z => Assert.InRange(z, -1.2, 1.9));
        // Mean of the cut standard normal: (φ(-1.2) - φ(1.9)) / (Φ(1.9) - Φ(-1.2)).
        static double Density(double z) => Math.Exp(-0.5 * z * z) / Math.Sqrt(2 * Math.PI);
        var kept = NormalQuantile.Probability(1.9) - NormalQuantile.Probability(-1.2);
        Assert.Equal((Density(-1.2) - Density(1.9)) / kept, a.Average(), 5 / Math.Sqrt(1e5));
        Assert.Equal(
            (NormalQuantile.Probability(0.3) - NormalQuantile.Probability(-1.2)) / kept,
            a.Average(z => z <= 0.3 ? 1.0 : 0),
            5 * 0.5 / Math.Sqrt(1e5)
        );
    }

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(1000)]
    [InlineData(2048)]
    public void FillUniform_EveryWidthAndLength_SameBits(int count)
    {
        var (a, b) = Pair(LaneWidth.Scalar, 2048, false);
        foreach (var width in VectorWidth.Available)
        {
            var (c, d) = Pair(width, count, false);
            Assert.Equal(a[..count], c);
            Assert.Equal(b[..count], d);
        }

        Assert.All(a.Concat(b), u => Assert.InRange(u, 1e-17, 1 - 1e-16));
    }

    [Fact]
    public void FillNormal_EveryWidthAndLength_IsThePolarForm()
    {
        var (u, v) = Pair(LaneWidth.Scalar, 1000, false);
        foreach (var width in VectorWidth.Available)
        {
            var (a, b) = Pair(width, 1000, true);
            var (c, d) = Pair(width, 995, true);
            Assert.Equal(a[..995], c);
            Assert.Equal(b[..995], d);
            for (var i = 0; i < a.Length; i++)
            {
                var radius = Math.Sqrt(-2 * Math.Log(u[i]));
                Assert.Equal(radius * Math.Cos(2 * Math.PI * v[i]), a[i], 1e-9);
                Assert.Equal(radius * Math.Sin(2 * Math.PI * v[i]), b[i], 1e-9);
            }
        }
    }

    // Moments within five standard errors, and columns of other seeds, purposes and numbers that have nothing in common.
    [Fact]
    public void FillNormal_OfMany_HasNormalMomentsAndNoCorrelation()
    {
        const int count = 200_000;
        var columns = new List<double[]>();
        foreach (
            var (seed, purpose, index) in new[]
            {
                (1UL, 2UL, 0UL),
                (1UL, 2UL, 1UL),
                (1UL, 3UL, 0UL),
                (2UL, 2UL, 0UL),
                (1UL, 2UL, 1UL << 40),
            }
        )
        {
            var a = new double[count];
            var b = new double[count];
            RandomPairs.FillNormal(seed, purpose, index, a, b);
            columns.AddRange([a, b]);
        }

        var five = 5 / Math.Sqrt(count);
        for (var i = 0; i < columns.Count; i++)
        {
            Assert.Equal(0, columns[i].Average(), five);
            Assert.Equal(1, columns[i].Average(z => z * z), five * Math.Sqrt(2));
            Assert.Equal(3, columns[i].Average(z => z * z * z * z), five * Math.Sqrt(96));
            Assert.Equal(0, columns[i].Skip(1).Zip(columns[i], (x, y) => x * y).Average(), five);
            for (var j = 0; j < i; j++)
            {
                Assert.Equal(0, columns[i].Zip(columns[j], (x, y) => x * y).Average(), five);
            }
        }
    }

    [Fact]
    public void Source_OfTheNarrowFile_IsTheWideOnesWithTheNumberReplaced()
    {
        static string Body(string name, [CallerFilePath] string here = "") =>
            string.Join(
                '\n',
                File.ReadLines(
                        Path.Combine(
                            Path.GetDirectoryName(here)!,
                            "../../../src/DeckLife.Numerics/Sampling",
                            name
                        )
                    )
                    .Where(line => !line.TrimStart().StartsWith("///", StringComparison.Ordinal))
                    .Select(line => line.Replace("512", "256", StringComparison.Ordinal))
            );
        Assert.Equal(Body("MixedCounterLanes512.cs"), Body("MixedCounterLanes256.cs"));
    }

    private static (double[] First, double[] Second) Pair(LaneWidth width, int count, bool isNormal)
    {
        var a = new double[count];
        var b = new double[count];
        RandomPairs.Fill(7, 11, 5, a, b, isNormal, width);
        return (a, b);
    }
}
