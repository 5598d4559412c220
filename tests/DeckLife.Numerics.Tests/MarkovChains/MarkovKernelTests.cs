using DeckLife.Numerics.MarkovChains;
using DeckLife.Numerics.Sampling;
using Xunit;

namespace DeckLife.Numerics.Tests.MarkovChains;

public class MarkovKernelTests
{
    [Fact]
    public void Next_OnGammaDensity_HasItsMoments()
    {
        // Gamma(shape 3, rate 2): mean 1.5, variance 0.75. 60 000 draws of low autocorrelation: s.e. of the mean about 0.005.
        var random = new RandomStream(3, "slice", 0);
        double value = 1;
        double sum = 0;
        double squares = 0;
        const int Count = 60000;
        for (var i = 0; i < Count; i++)
        {
            value = UnivariateSlice.Next(
                random,
                x => x <= 0 ? double.NegativeInfinity : (2 * Math.Log(x)) - (2 * x),
                value,
                1,
                0
            );
            sum += value;
            squares += value * value;
        }

        var mean = sum / Count;
        Assert.InRange(mean, 1.5 - 0.03, 1.5 + 0.03);
        Assert.InRange((squares / Count) - (mean * mean), 0.75 - 0.05, 0.75 + 0.05);
    }

    [Fact]
    public void AdaptiveRandomWalk_OnCorrelatedNormal_FindsItsCovariance()
    {
        // Standard deviations 1 and 0.01, correlation 0.95; started from a proposal of 1 in both.
        var random = new RandomStream(4, "walk", 0);
        var walk = new AdaptiveRandomWalk([1, 1]);
        double[] state = [0, 0];
        static double Log(double[] s)
        {
            var v = s[1] / 0.01;
            return -0.5 * ((s[0] * s[0]) - (1.9 * s[0] * v) + (v * v)) / (1 - (0.95 * 0.95));
        }

        double[] sums = new double[5];
        var kept = 0;
        var accepted = 0;
        Span<double> step = stackalloc double[2];
        for (var i = 0; i < 60000; i++)
        {
            walk.Propose(random, step);
            double[] next = [state[0] + step[0], state[1] + step[1]];
            var probability = Math.Min(1, Math.Exp(Log(next) - Log(state)));
            var warming = i < 10000;
            if (warming)
            {
                walk.AdaptScale(probability);
            }

            if (random.NextUniform() < probability)
            {
                state = next;
                accepted += warming ? 0 : 1;
            }

            if (warming)
            {
                walk.Learn(state);
                if (i is 1000 or 3000 or 8000)
                {
                    walk.EndWindow();
                }
            }
            else
            {
                kept++;
                sums[0] += state[0];
                sums[1] += state[1];
                sums[2] += state[0] * state[0];
                sums[3] += state[1] * state[1];
                sums[4] += state[0] * state[1];
            }
        }

        // About 50 000/8 independent draws: 3 % on a second moment is two of its standard errors.
        Assert.InRange(sums[2] / kept, 0.92, 1.08);
        Assert.InRange(sums[3] / kept, 0.92e-4, 1.08e-4);
        Assert.InRange(sums[4] / kept, 0.92 * 0.0095, 1.08 * 0.0095);
        Assert.InRange((double)accepted / kept, 0.2, 0.5);
    }
}
