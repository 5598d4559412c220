using DeckLife.Numerics.Sampling;
using Xunit;

namespace DeckLife.Numerics.Tests.Sampling;

public class LatticeTests
{
    [Fact]
    public void GeneratingVector_Stored_IsWhatTheConstructionMakes() =>
        Assert.Equal(
            LatticeConstruction.Construct(32, RandomlyShiftedLattice.LogLargestCount),
            RandomlyShiftedLattice.GeneratingVector.ToArray()
        );

    // The plain O(n²) sum of the same class, for every odd z.
    [Theory]
    [InlineData(7, 0)]
    [InlineData(7, 2)]
    [InlineData(7, 4)]
    [InlineData(7, 5)]
    [InlineData(7, 6)]
    [InlineData(7, 7)]
    public void ClassSums_AgainstPlainSums_Equal(int log2, int l)
    {
        var n = 1 << log2;
        var stream = new RandomStream(9, "product");
        var product = new double[n];
        for (var k = 0; k <= n / 2; k++)
        {
            product[k] = product[(n - k) % n] = stream.NextUniform();
        }

        var sums = LatticeConstruction.ClassSums(product, log2, l);
        var modulus = 1 << (log2 - l);
        var z = 1;
        foreach (var found in sums)
        {
            var plain = 0.0;
            for (var k = 0; k < modulus; k++)
            {
                if (k % 2 == 1 || modulus == 1)
                {
                    plain +=
                        product[k << l]
                        * LatticeConstruction.Kernel((double)(k * z % modulus) / modulus);
                }
            }

            Assert.Equal(plain, found, 1e-10 * n);
            z = 5 * z % modulus;
        }
    }

    // The construction must be worth its name: its worst-case error beats the median of random vectors, at every size.
    [Theory]
    [InlineData(8)]
    [InlineData(10)]
    [InlineData(12)]
    public void WorstCaseError_OfStoredVector_BeatsRandomVectors(int log2)
    {
        const int dimensions = 10;
        var stream = new RandomStream(4, "random vectors");
        var others = new double[21];
        for (var r = 0; r < others.Length; r++)
        {
            var z = new uint[dimensions];
            for (var j = 0; j < dimensions; j++)
            {
                z[j] = (uint)((2 * stream.NextInteger(1 << 17)) + 1);
            }

            others[r] = SquaredError(z, log2);
        }

        Array.Sort(others);
        var ours = SquaredError(RandomlyShiftedLattice.GeneratingVector[..dimensions], log2);
        Assert.True(ours < others[0], $"ours {ours}, best of 21 {others[0]}, median {others[10]}");
    }

    [Fact]
    public void Fill_FirstPowerOfTwo_IsAGroupInEachCoordinate()
    {
        // A lattice of 2^m points projects onto each coordinate as the 2^m equally spaced places, shifted.
        var lattice = new RandomlyShiftedLattice(16, new RandomStream(1, "shift"));
        var values = new double[512];
        for (var d = 0; d < 16; d++)
        {
            lattice.FillCoordinate(d, 0, values);
            var sorted = values.Order().ToArray();
            for (var i = 1; i < sorted.Length; i++)
            {
                Assert.Equal(1.0 / 512, sorted[i] - sorted[i - 1], 1e-12);
            }
        }
    }

    [Fact]
    public void Fill_ByParts_SameAsAtOnce()
    {
        var lattice = new RandomlyShiftedLattice(5, new RandomStream(2, "shift"), baker: true);
        var whole = new double[64 * 5];
        lattice.Fill(0, 64, whole);
        var part = new double[5];
        for (var i = 0; i < 64; i++)
        {
            lattice.Fill(i, 1, part);
            Assert.Equal(part, whole.AsSpan(i * 5, 5).ToArray());
            Assert.Equal(part[3], lattice.At(i, 3));
        }

        Assert.All(whole, x => Assert.InRange(x, double.Epsilon, 1 - 1e-17));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void FillCoordinate_InVectors_SameBitsAsOneByOne(bool baker)
    {
        var lattice = new RandomlyShiftedLattice(32, new RandomStream(8, "shift"), baker);
        var values = new double[1003];
        foreach (var first in new[] { 0, 8, 4096, 5, 200000 })
        {
            for (var d = 0; d < 32; d++)
            {
                lattice.FillCoordinate(d, first, values);
                for (var i = 0; i < values.Length; i++)
                {
                    Assert.Equal(lattice.At(first + i, d), values[i]);
                }
            }
        }
    }

    // Integral of prod(1 + c_j (x_j - 1/2)) over the cube is 1; the root mean square over shifts must fall close to 1/n, far below 1/sqrt(n).
    [Fact]
    public void Mean_OfSmoothFunction_ConvergesLikeOneOverN()
    {
        var errors = new List<(double LogN, double LogError)>();
        for (var log2 = 6; log2 <= 13; log2++)
        {
            var square = 0.0;
            for (var r = 0; r < 16; r++)
            {
                var lattice = new RandomlyShiftedLattice(6, new RandomStream(11, "rate", (ulong)r));
                var point = new double[6];
                var sum = 0.0;
                for (var i = 0; i < 1 << log2; i++)
                {
                    lattice.Fill(i, 1, point);
                    var f = 1.0;
                    for (var j = 0; j < 6; j++)
                    {
                        f *= 1 + ((point[j] - 0.5) / (j + 1));
                    }

                    sum += f;
                }

                var error = (sum / (1 << log2)) - 1;
                square += error * error / 16;
            }

            errors.Add((log2 * Math.Log(2), 0.5 * Math.Log(square)));
        }

        var x = errors.Average(e => e.LogN);
        var y = errors.Average(e => e.LogError);
        var slope =
            errors.Sum(e => (e.LogN - x) * (e.LogError - y))
            / errors.Sum(e => (e.LogN - x) * (e.LogN - x));
        Assert.InRange(slope, -1.4, -0.8);
    }

    [Fact]
    public void LatinHypercube_EachCoordinate_OnePointAStratum()
    {
        var points = LatinHypercube.Sample(100, 3, new RandomStream(1, "hypercube"));
        for (var d = 0; d < 3; d++)
        {
            var strata = Enumerable.Range(0, 100).Select(i => (int)(points[(i * 3) + d] * 100));
            Assert.Equal(Enumerable.Range(0, 100), strata.Order());
        }
    }

    private static double SquaredError(ReadOnlySpan<uint> z, int log2)
    {
        var n = 1L << log2;
        var sum = 0.0;
        for (long k = 0; k < n; k++)
        {
            var product = 1.0;
            for (var j = 0; j < z.Length; j++)
            {
                var x = (double)(k * z[j] % n) / n;
                product *= 1 + (LatticeConstruction.Weight(j) * LatticeConstruction.Kernel(x));
            }

            sum += product;
        }

        return (sum / n) - 1;
    }
}
