using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Sampling;
using Xunit;

namespace DeckLife.Numerics.Tests.Distributions;

public class GaussianCopulaTests
{
    // Three correlations that no three variables can have.
    private static readonly double[,] Contradiction =
    {
        { 1, 0.9, -0.9 },
        { 0.9, 1, 0.9 },
        { -0.9, 0.9, 1 },
    };

    [Fact]
    public void FromScoreCorrelation_Contradiction_IsRefusedUnlessToldToRepair()
    {
        Assert.Throws<ArgumentException>(() => GaussianCopula.FromScoreCorrelation(Contradiction));
        var copula = GaussianCopula.FromScoreCorrelation(Contradiction, repair: true);
        Assert.True(copula.WasRepaired);
        // By symmetry the nearest valid matrix has (a, -a, a) with smallest eigenvalue 1 - 2a = 0.
        Assert.Equal(0.5, copula.Correlation(0, 1), 1e-6);
        Assert.Equal(-0.5, copula.Correlation(0, 2), 1e-6);
    }

    [Fact]
    public void FromScoreCorrelation_NoCorrelationMatrix_IsRefused()
    {
        Assert.Throws<ArgumentException>(() =>
            GaussianCopula.FromScoreCorrelation(
                new double[,]
                {
                    { 1, 0.2 },
                    { 0.3, 1 },
                }
            )
        );
        Assert.Throws<ArgumentException>(() =>
            GaussianCopula.FromScoreCorrelation(
                new double[,]
                {
                    { 1, double.NaN },
                    { double.NaN, 1 },
                }
            )
        );
        Assert.Throws<ArgumentException>(() =>
            GaussianCopula.FromScoreCorrelation(
                new double[,]
                {
                    { 2, 0 },
                    { 0, 1 },
                }
            )
        );
    }

    [Fact]
    public void FromRankCorrelation_SampleRanks_HaveIt()
    {
        const int N = 20_000;
        const double Rank = 0.6;
        var vector = new RandomVector(
            [
                LognormalDistribution.FromMeanAndStandardDeviation(30, 18),
                GammaDistribution.FromMeanAndStandardDeviation(8, 4),
            ],
            GaussianCopula.FromRankCorrelation(
                new double[,]
                {
                    { 1, Rank },
                    { Rank, 1 },
                }
            )
        );
        var columns = new double[2][];
        for (var d = 0; d < 2; d++)
        {
            columns[d] = new double[N];
            new RandomStream(5, "ranks", (ulong)d).FillNormal(columns[d]);
        }

        vector.ToValues(N, columns);
        var ranks = columns.Select(Ranks).ToArray();
        var mean = (N - 1) / 2.0;
        var covariance = Enumerable
            .Range(0, N)
            .Average(i => (ranks[0][i] - mean) * (ranks[1][i] - mean));
        // Standard error of a rank correlation near 0.6 with 20000 pairs: 0.005.
        Assert.Equal(Rank, covariance / (((double)N * N - 1) / 12), 0.02);
    }

    [Fact]
    public void ToScores_AfterToValues_GivesTheScoresBack()
    {
        var vector = new RandomVector(
            [
                new NormalDistribution(50, 10),
                BetaDistribution.FromShapes(2, 3),
                GumbelDistribution.FromLocationAndScale(1, 2),
            ],
            GaussianCopula.FromScoreCorrelation(
                new double[,]
                {
                    { 1, 0.4, -0.2 },
                    { 0.4, 1, 0.3 },
                    { -0.2, 0.3, 1 },
                }
            )
        );
        double[] u = [0.7, -1.3, 2.1];
        var x = new double[3];
        var back = new double[3];
        vector.ToValues(u, x);
        vector.ToScores(x, back);
        for (var i = 0; i < 3; i++)
        {
            Assert.Equal(u[i], back[i], 1e-10);
        }

        double[][] columns =
        [
            [u[0]],
            [u[1]],
            [u[2]],
        ];
        vector.ToValues(1, columns);
        Assert.Equal(x[2], columns[2][0], 1e-12);
    }

    private static double[] Ranks(double[] values)
    {
        var order = Enumerable.Range(0, values.Length).OrderBy(i => values[i]).ToArray();
        var ranks = new double[values.Length];
        for (var r = 0; r < order.Length; r++)
        {
            ranks[order[r]] = r;
        }

        return ranks;
    }

    // Draws of every kind of variable have their distribution: the share below each tenth, within five standard errors; cut ones stay within.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Draw_OfEveryKind_HasItsDistribution(bool isDependent)
    {
        Distribution[] margins =
        [
            new NormalDistribution(3, 2),
            new TruncatedDistribution(new NormalDistribution(50, 10), 30, 90),
            LognormalDistribution.FromMeanAndStandardDeviation(0.05, 0.025),
            new TruncatedDistribution(
                LognormalDistribution.FromMeanAndStandardDeviation(5, 2),
                double.NegativeInfinity,
                6
            ),
            new TruncatedDistribution(new NormalDistribution(0, 1), 1.5, 4),
            GumbelDistribution.FromMeanAndStandardDeviation(12, 3),
            BetaDistribution.FromMeanAndStandardDeviation(0.6, 0.15, 0, 1),
        ];
        var correlation = new double[margins.Length, margins.Length];
        for (var i = 0; i < margins.Length; i++)
        {
            correlation[i, i] = 1;
        }

        correlation[0, 2] = correlation[2, 0] = 0.5;
        var vector = new RandomVector(
            margins,
            isDependent ? GaussianCopula.FromScoreCorrelation(correlation) : null
        );
        const int sets = 20;
        var columns = margins.Select(_ => new double[RandomVector.DrawnAtOnce]).ToArray();
        var below = new int[margins.Length, 9];
        for (var set = 0; set < sets; set++)
        {
            vector.Draw(1, 2, (ulong)set, RandomVector.DrawnAtOnce, columns);
            for (var d = 0; d < margins.Length; d++)
            {
                Assert.All(columns[d], x => Assert.InRange(x, margins[d].Lower, margins[d].Upper));
                for (var tenth = 1; tenth < 10; tenth++)
                {
                    var bound = margins[d].Quantile(tenth / 10.0);
                    below[d, tenth - 1] += columns[d].Count(x => x <= bound);
                }
            }
        }

        const double n = sets * RandomVector.DrawnAtOnce;
        for (var d = 0; d < margins.Length; d++)
        {
            for (var tenth = 1; tenth < 10; tenth++)
            {
                var p = tenth / 10.0;
                Assert.Equal(p, below[d, tenth - 1] / n, 5 * Math.Sqrt(p * (1 - p) / n));
            }
        }

        // A shorter set is the beginning of the whole one.
        var fewer = margins.Select(_ => new double[RandomVector.DrawnAtOnce]).ToArray();
        vector.Draw(1, 2, sets - 1, 100, fewer);
        for (var d = 0; d < margins.Length; d++)
        {
            Assert.Equal(columns[d][..100], fewer[d][..100]);
        }
    }

    // What a study computes from scores must be of the very draws that it writes out.
    [Theory]
    [InlineData(false, 2048)]
    [InlineData(false, 77)]
    [InlineData(true, 77)]
    public void DrawScores_TurnedIntoValues_AreTheDraws(bool isCorrelated, int count)
    {
        Distribution[] margins =
        [
            new NormalDistribution(60, 8),
            LognormalDistribution.FromMeanAndStandardDeviation(20, 6),
            isCorrelated
                ? new NormalDistribution(0.5, 0.1)
                : new TruncatedDistribution(new NormalDistribution(0.5, 0.1), 0.3, 0.9),
        ];
        var vector = new RandomVector(
            margins,
            isCorrelated
                ? GaussianCopula.FromRankCorrelation(
                    new double[,]
                    {
                        { 1, 0.5, 0 },
                        { 0.5, 1, -0.3 },
                        { 0, -0.3, 1 },
                    },
                    false
                )
                : null
        );
        double[][] Columns() => [.. margins.Select(_ => new double[RandomVector.DrawnAtOnce])];
        var (values, scores) = (Columns(), Columns());
        vector.Draw(5, 6, 7, count, values);
        vector.DrawScores(5, 6, 7, count, scores);
        var second = scores[1].ToArray();
        vector.FromScores(count, scores);
        for (var i = 0; i < count; i++)
        {
            Assert.Equal(values.Select(c => c[i]), scores.Select(c => c[i]));
            Assert.Equal(
                margins[1].FromStandardNormal(second[i]),
                values[1][i],
                1e-12 * values[1][i]
            );
        }
    }

    [Fact]
    public void DrawScores_WhereAValueIsNoClosedFormOfItsScore_IsRefused()
    {
        var vector = new RandomVector([
            new NormalDistribution(0, 1),
            new UniformDistribution(0, 1),
        ]);
        Assert.False(vector.IsOfScores);
        Assert.Throws<InvalidOperationException>(() =>
            vector.DrawScores(1, 2, 3, 1, [new double[1], new double[1]])
        );
    }
}
