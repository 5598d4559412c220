using DeckLife.Numerics.Interpolation;
using Xunit;

namespace DeckLife.Numerics.Tests.Interpolation;

public class SplineTableTests
{
    private const float Single = 3e-6f;

    [Theory]
    [InlineData(4, 5, 6, 1)]
    [InlineData(7, 4, 9, 25)]
    [InlineData(5, 1, 4, 16)]
    [InlineData(1, 6, 1, 50)]
    [InlineData(1, 1, 1, 3)]
    public void Read_CubicsInEachVariable_AreReproducedEverywhere(int n0, int n1, int n2, int row)
    {
        // A spline without a knot at the second node holds every cubic: de Boor, A Practical Guide to Splines, ch. IV.
        static double Cubic(double x, int j) =>
            0.3 + Math.Sin(j) - 0.2 * x + 0.05 * x * x * (1 + Math.Cos(j)) - 0.004 * x * x * x;
        static double At(int n, double x, int j) => n == 1 ? 1 : Cubic(x, j);
        var table = Table(
            (n0, n1, n2),
            row,
            (x, y, z, j) => At(n0, x, j) * At(n1, y, j + 1) * At(n2, z, j + 2)
        );
        var result = new float[table.Room];
        foreach (var share in new[] { 0, 0.11, 0.5, 0.773, 1 })
        {
            var (x, y, z) = (share * (n0 - 1), (1 - share) * (n1 - 1), share * share * (n2 - 1));
            table.Read(x, y, z, result);
            for (var j = 0; j < row; j++)
            {
                var expected = At(n0, x, j) * At(n1, y, j + 1) * At(n2, z, j + 2);
                Assert.Equal(expected, result[j], Single * Math.Max(1, Math.Abs(expected)));
            }
        }
    }

    [Fact]
    public void Read_SmoothFunction_HalfTheDistanceASixteenthOfTheError()
    {
        double Largest(int nodes)
        {
            var h = 3.0 / (nodes - 1);
            var table = Table((nodes, 1, 1), 1, (x, _, _, _) => Math.Sin(3 * x * h));
            var result = new float[table.Room];
            var largest = 0.0;
            for (var x = 0.0; x <= 3; x += 0.013)
            {
                table.Read(x / h, 0, 0, result);
                largest = Math.Max(largest, Math.Abs(result[0] - Math.Sin(3 * x)));
            }

            return largest;
        }

        Assert.InRange(Largest(9) / Largest(17), 10, 30);
    }

    [Theory]
    [InlineData(2, 4, 4, 1)]
    [InlineData(4, 4, 4, 0)]
    public void SplineTable_ShapesThatDoNotFit_AreRefused(int n0, int n1, int n2, int row) =>
        Assert.ThrowsAny<ArgumentException>(() =>
            new SplineTable([n0, n1, n2], row, new double[n0 * n1 * n2 * row])
        );

    private static SplineTable Table(
        (int, int, int) nodes,
        int row,
        Func<double, double, double, int, double> value
    )
    {
        var (n0, n1, n2) = nodes;
        var values = new double[n0 * n1 * n2 * row];
        var at = 0;
        for (var i = 0; i < n0; i++)
        {
            for (var k = 0; k < n1; k++)
            {
                for (var l = 0; l < n2; l++)
                {
                    for (var j = 0; j < row; j++)
                    {
                        values[at++] = value(i, k, l, j);
                    }
                }
            }
        }

        return new([n0, n1, n2], row, values);
    }
}
