using DeckLife.Numerics.LeastSquares;
using Xunit;

namespace DeckLife.Numerics.Tests.LeastSquares;

public class LevenbergMarquardtTests
{
    // Rosenbrock as residuals (10 (y - x²), 1 - x): the minimum is (1, 1), where both vanish.
    [Fact]
    public void Minimise_RosenbrocksValley_One()
    {
        var result = new LevenbergMarquardt().Minimise(new Valley(), [-1.2, 1]);

        Assert.Equal(LeastSquaresStatus.Converged, result.Status);
        Assert.Equal(1, result.Parameters[0], 1e-12);
        Assert.Equal(1, result.Parameters[1], 1e-12);
        Assert.NotNull(result.MissingReason);
        Assert.Empty(result.StandardErrors);
    }

    // A straight line: slope 2, intercept 1 and their errors by the textbook formulas on residuals ±0.1.
    [Fact]
    public void Minimise_StraightLine_TextbookErrors()
    {
        var result = new LevenbergMarquardt().Minimise(new Line(), [0, 0]);

        double[] x = [0, 1, 2, 3];
        double[] y = [1.1, 2.9, 4.9, 7.1];
        var slope = x.Zip(y).Sum(p => (p.First - 1.5) * (p.Second - y.Average())) / 5;
        var intercept = y.Average() - (1.5 * slope);
        var variance = x.Zip(y).Sum(p => Math.Pow(p.Second - intercept - (slope * p.First), 2)) / 2;
        Assert.Equal(intercept, result.Parameters[0], 1e-10);
        Assert.Equal(slope, result.Parameters[1], 1e-10);
        Assert.Equal(Math.Sqrt(variance / 5), result.StandardErrors[1], 1e-10);
        Assert.Equal(Math.Sqrt(variance * (0.25 + (2.25 / 5))), result.StandardErrors[0], 1e-10);
    }

    [Fact]
    public void Minimise_StartNotFinite_StatusNotException() =>
        Assert.Equal(
            LeastSquaresStatus.NotFinite,
            new LevenbergMarquardt().Minimise(new Line(), [double.NaN, 0]).Status
        );

    private sealed class Valley : ILeastSquaresModel
    {
        public int Residuals => 2;

        public int Parameters => 2;

        public void Evaluate(ReadOnlySpan<double> p, Span<double> r, Span<double> j)
        {
            r[0] = 10 * (p[1] - (p[0] * p[0]));
            r[1] = 1 - p[0];
            if (!j.IsEmpty)
            {
                (j[0], j[1], j[2], j[3]) = (-20 * p[0], 10, -1, 0);
            }
        }
    }

    private sealed class Line : ILeastSquaresModel
    {
        private static readonly double[] Y = [1.1, 2.9, 4.9, 7.1];

        public int Residuals => 4;

        public int Parameters => 2;

        public void Evaluate(ReadOnlySpan<double> p, Span<double> r, Span<double> j)
        {
            for (var i = 0; i < 4; i++)
            {
                r[i] = p[0] + (p[1] * i) - Y[i];
                if (!j.IsEmpty)
                {
                    (j[2 * i], j[(2 * i) + 1]) = (1, i);
                }
            }
        }
    }
}
