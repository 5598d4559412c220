using DeckLife.Numerics.MarkovChains;
using DeckLife.Numerics.Sampling;
using Xunit;

namespace DeckLife.Numerics.Tests.MarkovChains;

public class ChainDiagnosticsTests
{
    [Fact]
    public void EffectiveSampleSize_OfAutoregressiveChain_MatchesTheory()
    {
        // AR(1) with coefficient φ: integrated autocorrelation time (1 + φ)/(1 - φ). 4 chains x 5000. The estimate's own
        // relative s.d. is about √(2 (2M + 1)/N) with M lags summed (Priestley 1981): 11 % at φ = 0.9, where M is near 60.
        foreach (var phi in (double[])[0, 0.5, 0.9])
        {
            double[][] chains =
            [
                .. Enumerable.Range(0, 4).Select(c => Autoregressive(phi, 5000, c)),
            ];
            var expected = 20000 * (1 - phi) / (1 + phi);
            Assert.InRange(
                ChainDiagnostics.EffectiveSampleSize(chains),
                0.7 * expected,
                1.3 * expected
            );
            Assert.InRange(
                ChainDiagnostics.BulkEffectiveSampleSize(chains),
                0.7 * expected,
                1.3 * expected
            );
            Assert.InRange(ChainDiagnostics.SplitRHat(chains), 1 - 1e-3, 1.01);
        }
    }

    [Fact]
    public void RankNormalizedRHat_OfChainsThatDisagree_IsLarge()
    {
        // Means 0 and 2, s.d. 1: the halves' means 0, 0, 2, 2 have variance 4/3, so R-hat is √(1 + 4/3) = 1.53.
        double[][] apart =
        [
            Autoregressive(0, 4000, 1),
            Array.ConvertAll(Autoregressive(0, 4000, 2), v => v + 2),
        ];
        Assert.InRange(ChainDiagnostics.SplitRHat(apart), 1.48, 1.58);
        Assert.True(ChainDiagnostics.RankNormalizedRHat(apart) > 1.3);

        // One location, other scales: the plain R-hat sees nothing, the folded one does.
        double[][] scales =
        [
            Autoregressive(0, 4000, 3),
            Array.ConvertAll(Autoregressive(0, 4000, 4), v => 4 * v),
        ];
        Assert.True(ChainDiagnostics.SplitRHat(scales) < 1.02);
        Assert.True(ChainDiagnostics.RankNormalizedRHat(scales) > 1.1);

        // A drift within a chain shows because chains are split.
        double[][] drift =
        [
            [.. Enumerable.Range(0, 1000).Select(i => i / 1000.0)],
        ];
        Assert.True(ChainDiagnostics.SplitRHat(drift) > 1.5);
    }

    [Fact]
    public void AllDiagnostics_OfAPeer_AreReproduced()
    {
        // Chain values x_i = frac(i² φ) + chain/10 smoothed with weight 0.6 on the last; reference: reference-checks/peers/deck-model/
        // chain_diagnostics.py (NumPy and SciPy, written from the equations of Vehtari et al. 2021).
        double[][] chains = [.. Enumerable.Range(0, 3).Select(Deterministic)];
        Assert.Equal(PeerSplit, ChainDiagnostics.SplitRHat(chains), 1e-10);
        Assert.Equal(PeerRank, ChainDiagnostics.RankNormalizedRHat(chains), 1e-10);
        Assert.Equal(PeerEss, ChainDiagnostics.EffectiveSampleSize(chains), 1e-7);
        Assert.Equal(PeerBulk, ChainDiagnostics.BulkEffectiveSampleSize(chains), 1e-7);
    }

    [Fact]
    public void AllDiagnostics_OfConstantChains_AreFinite()
    {
        double[][] chains = [new double[10], new double[10]];
        Assert.Equal(1, ChainDiagnostics.SplitRHat(chains));
        Assert.Equal(20, ChainDiagnostics.EffectiveSampleSize(chains));
        Assert.Throws<ArgumentException>(() =>
            ChainDiagnostics.SplitRHat([new double[10], new double[8]])
        );
    }

    private const double PeerSplit = 1.00070394597461;
    private const double PeerRank = 1.00051819907892;
    private const double PeerEss = 112.995109705525;
    private const double PeerBulk = 111.540772087775;

    private static double[] Deterministic(int chain)
    {
        var values = new double[200];
        double last = 0;
        for (var i = 0; i < values.Length; i++)
        {
            var k = i + 1.0 + (1000 * chain);
            var x = k * k * 0.6180339887498949;
            last = (0.6 * last) + (0.4 * (x - Math.Floor(x))) + (chain * 0.004);
            values[i] = last;
        }

        return values;
    }

    private static double[] Autoregressive(double phi, int length, int index)
    {
        var random = new RandomStream(11, "autoregressive", (ulong)index);
        var values = new double[length];
        var last = random.NextNormal() / Math.Sqrt(1 - (phi * phi));
        for (var i = 0; i < length; i++)
        {
            last = (phi * last) + random.NextNormal();
            values[i] = last;
        }

        return values;
    }
}
