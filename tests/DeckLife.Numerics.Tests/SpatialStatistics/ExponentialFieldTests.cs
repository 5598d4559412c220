using DeckLife.Numerics.LinearMixed;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.SpatialStatistics;
using Xunit;

namespace DeckLife.Numerics.Tests.SpatialStatistics;

public class ExponentialFieldTests
{
    private const double Length = 3;
    private const double Nugget = 0.3;

    [Fact]
    public void Estimate_SimulatedFields_LimitsHoldTheTruthAboutAsOftenAsTheySay()
    {
        const int Fields = 60;
        var held = 0;
        var logs = 0.0;
        for (var f = 0; f < Fields; f++)
        {
            var (x, y, v) = Simulate(100, (ulong)f, Length, Nugget);

            var fit = ExponentialField.Estimate(x, y, v, 1)!;

            held += (fit.Lower95 ?? 0) <= Length && Length <= (fit.Upper95 ?? 1e9) ? 1 : 0;
            logs += Math.Log(fit.Length / Length) / Fields;
        }

        // Binomial of 60 at 0.95: three standard errors are 8.4 points.
        Assert.InRange(100.0 * held / Fields, 86, 100);
        Assert.InRange(logs, -0.35, 0.35);
    }

    [Fact]
    public void Estimate_IndependentReadings_SeldomShowACorrelation()
    {
        var shown = 0;
        for (var f = 0; f < 40; f++)
        {
            var (x, y, v) = Simulate(60, 1000 + (ulong)f, Length, 1);

            shown += ExponentialField.Estimate(x, y, v, 1)!.IsShown ? 1 : 0;
        }

        // Length and nugget together: between the 5 % of one parameter and the 15 % of two.
        Assert.InRange(shown, 0, 9);
    }

    [Fact]
    public void Estimate_MoreReadingsThanABlock_FindsTheSameField()
    {
        var (x, y, v) = Simulate(600, 5, Length, Nugget);

        var fit = ExponentialField.Estimate(x, y, v)!;

        Assert.True(fit.Lower95 < Length && Length < fit.Upper95);
        Assert.InRange(fit.Length, 0.6 * Length, 1.7 * Length);
        Assert.InRange(fit.NuggetShare, 0.15, 0.5);
        Assert.Equal(fit, ExponentialField.Estimate(x, y, v, 1));
        Assert.Equal(fit, ExponentialField.Estimate(x, y, v, 8));
    }

    [Fact]
    public void Estimate_ReadingsScaledAndMoved_LengthStays()
    {
        var (x, y, v) = Simulate(80, 9, Length, Nugget);

        var fit = ExponentialField.Estimate(x, y, v)!;
        var moved = ExponentialField.Estimate(
            [.. x.Select(p => (10 * p) + 7)],
            [.. y.Select(p => (10 * p) - 4)],
            [.. v.Select(r => (-3 * r) + 100)]
        )!;

        Assert.Equal(10 * fit.Length, moved.Length, 1e-6 * moved.Length);
        Assert.Equal(fit.NuggetShare, moved.NuggetShare, 1e-6);
        Assert.Equal(9 * fit.Variance, moved.Variance, 1e-6 * moved.Variance);
        Assert.Equal(fit.LikelihoodRatio, moved.LikelihoodRatio, 1e-5);
    }

    [Fact]
    public void Estimate_NothingToEstimateFrom_IsNothing()
    {
        var (x, y, v) = Simulate(40, 3, Length, Nugget);

        Assert.Null(ExponentialField.Estimate(x[..20], y[..20], v[..20]));
        Assert.Null(ExponentialField.Estimate(x, y, new double[40]));
        Assert.Null(ExponentialField.Estimate(new double[40], new double[40], v));
        Assert.Throws<ArgumentException>(() =>
            ExponentialField.Estimate(x, y, [.. v.Select(_ => double.NaN)])
        );
        Assert.Throws<ArgumentException>(() => ExponentialField.Estimate(x[..30], y, v));
    }

    [Fact]
    public void Estimate_TwoReadingsAtEachPlace_TheirDifferenceIsTheNugget()
    {
        var (x, y, v) = Simulate(70, 4, 6, 0);
        var stream = new RandomStream(12, "second readings");
        double[] second = [.. v.Select(r => r + (0.5 * stream.NextNormal()))];

        var fit = ExponentialField.Estimate([.. x, .. x], [.. y, .. y], [.. v, .. second])!;

        // The pairs differ with variance 0.25: half of it is one reading's nugget.
        Assert.InRange(fit.NuggetShare * fit.Variance, 0.08, 0.18);
    }

    private static (double[] X, double[] Y, double[] V) Simulate(
        int n,
        ulong index,
        double length,
        double nugget
    )
    {
        var stream = new RandomStream(77, "simulated field", index);
        double[] x = new double[n],
            y = new double[n],
            v = new double[n];
        for (var i = 0; i < n; i++)
        {
            x[i] = 40 * stream.NextUniform();
            y[i] = 12 * stream.NextUniform();
        }

        var matrix = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var d = Math.Sqrt(
                    ((x[i] - x[j]) * (x[i] - x[j])) + ((y[i] - y[j]) * (y[i] - y[j]))
                );
                matrix[(i * n) + j] = i == j ? 1 + 1e-10 : (1 - nugget) * Math.Exp(-d / length);
            }
        }

        Assert.True(SymmetricMatrix.Factor(matrix, n));
        var z = new double[n];
        stream.FillNormal(z);
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                v[i] += matrix[(i * n) + j] * z[j];
            }
        }

        return (x, y, v);
    }
}
