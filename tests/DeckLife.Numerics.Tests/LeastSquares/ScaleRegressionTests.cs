using DeckLife.Numerics.LeastSquares;
using Xunit;

namespace DeckLife.Numerics.Tests.LeastSquares;

public class ScaleRegressionTests
{
    private static readonly double[] X = [0, 1, 2, 3, 4, 5];
    private static readonly double[] Y = [5.1, 4.2, 2.9, 2.2, 0.8, 0.3];

    // Without censoring it is least squares: y = a + b (5 - x), slope and intercept from the normal equations by hand,
    // scale² = RSS / m at the minimum of -m ln h + h² RSS / 2.
    [Fact]
    public void Minimise_AllMeasured_LeastSquares()
    {
        var (v, converged) = Fit(censorFrom: 6, scaleCount: 4);

        var mean = Y.Average();
        var slope = X.Zip(Y).Sum(p => (2.5 - p.First) * (p.Second - mean)) / 17.5;
        var intercept = mean - (2.5 * slope);
        var rss = X.Zip(Y).Sum(p => Math.Pow(p.Second - intercept - (slope * (5 - p.First)), 2));
        Assert.True(converged);
        Assert.Equal(slope, v[0] / v[2], 1e-9);
        Assert.Equal(intercept, v[1] / v[2], 1e-9);
        Assert.Equal(Math.Sqrt(rss / 4), 1 / v[2], 1e-9);
    }

    [Fact]
    public void Minimise_NegativeIntercept_HeldAtZero()
    {
        // Shifted down, the free intercept would be negative: then b = sum t y / sum t², t = 5 - x.
        var y = Y.Select(c => c - 1.0).ToArray();
        var (v, converged) = Fit(censorFrom: 6, scaleCount: 4, y);

        Assert.True(converged);
        Assert.Equal(0, v[1]);
        Assert.Equal(
            X.Zip(y).Sum(p => (5 - p.First) * p.Second) / X.Sum(x => (5 - x) * (5 - x)),
            v[0] / v[2],
            1e-9
        );
    }

    // At the minimum the gradient by each free coordinate vanishes: checked by differences of Q itself.
    [Fact]
    public void Minimise_TwoCensored_NoBetterPointAround()
    {
        var (v, converged) = Fit(censorFrom: 4, scaleCount: 2);
        Assert.True(converged);
        var least = Objective(v, 4, 2);
        for (var j = 0; j < 3; j++)
        {
            foreach (var step in new[] { -1e-3, 1e-3 })
            {
                var other = (double[])v.Clone();
                other[j] = Math.Max(0, other[j] + (step * v[j]));
                Assert.True(Objective(other, 4, 2) >= least);
            }
        }
    }

    private static double Objective(double[] v, int censorFrom, double scaleCount)
    {
        var q = -scaleCount * Math.Log(v[2]);
        for (var i = 0; i < X.Length; i++)
        {
            var u = (v[2] * Y[i]) - (v[0] * (5 - X[i])) - v[1];
            q += ResidualLoss.Value(u, i >= censorFrom, null, out _, out _);
        }

        return q;
    }

    private static (double[] V, bool Converged) Fit(
        int censorFrom,
        double scaleCount,
        double[]? y = null
    )
    {
        y ??= Y;
        var rows = new List<double>();
        for (var i = 0; i < X.Length; i++)
        {
            rows.AddRange([X[i] - 5, -1, y[i]]);
        }

        ScaleRegressionRow[] kinds =
        [
            .. X.Select(
                (_, i) => i < censorFrom ? ScaleRegressionRow.Measured : ScaleRegressionRow.Below
            ),
        ];
        double[] v = [1, 1, 1];
        var (_, converged) = new ScaleRegression(3) { ScaleCount = scaleCount }.Minimise(
            [.. rows],
            new double[6],
            kinds,
            [0, 0, 1],
            v
        );
        return (v, converged);
    }
}
