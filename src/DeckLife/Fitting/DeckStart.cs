using DeckLife.Numerics.MarkovChains;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Fitting;

/// <summary>Where the chains of a deck fit start: a rough fit of each core, spread out so that the chains come from different sides.</summary>
internal static class DeckStart
{
    private const int Grid = 60;

    /// <summary>Makes the start of one chain.</summary>
    /// <param name="model">The deck.</param>
    /// <param name="random">The chain's random numbers.</param>
    public static DeckChainState Make(DeckModel model, RandomStream random)
    {
        var slices = model.Slices;
        var state = new DeckChainState(slices.CoreCount, model.MeanCount)
        {
            AgeingExponent =
                model.FixedAgeingExponent
                ?? model.Priors.LargestAgeingExponent * (0.1 + (0.6 * random.NextUniform())),
        };
        var lowest = slices.Content.Min();
        state.Background =
            model.FixedBackground ?? (0.1 + (0.7 * random.NextUniform())) * Math.Min(lowest, 0.5);
        double squares = 0;
        for (var j = 0; j < slices.CoreCount; j++)
        {
            squares += RoughFit(model, j, state);
            state.LnSurface[j] += 0.2 * random.NextNormal();
            state.LnDiffusion[j] += 0.3 * random.NextNormal();
        }

        Span<double> shift = new double[slices.CoreCount];
        model.AgeShifts(state.AgeingExponent, shift);
        state.Means[0] = state.LnSurface.Average() + (0.2 * random.NextNormal());
        state.Means[1] =
            state.LnDiffusion.Average() - (shift.ToArray().Average()) + (0.3 * random.NextNormal());
        state.LnSdSurface = Math.Log(0.3) + (0.5 * random.NextNormal());
        state.LnSdDiffusion = Math.Log(0.4) + (0.5 * random.NextNormal());
        state.ArtanhCorrelation = 0.3 * random.NextNormal();
        var error = Math.Sqrt(squares / slices.SliceCount) * Math.Exp(0.3 * random.NextNormal());
        if (slices.Weights == SliceWeights.Relative)
        {
            error /= slices.Content.Average() + 1e-3;
        }
        else if (slices.Weights == SliceWeights.Given)
        {
            error = Math.Exp(0.3 * random.NextNormal());
        }

        state.Error = Math.Max(error, 1.5 * Math.Exp(model.LnSmallestError));
        return state;
    }

    // The best of a grid of ln D, Cs - C0 by linear least squares for each; detection limits count as half of themselves here only.
    private static double RoughFit(DeckModel model, int core, DeckChainState state)
    {
        var slices = model.Slices;
        var first = slices.FirstSlice[core];
        var share = new double[slices.FirstSlice[core + 1] - first];
        var best = double.PositiveInfinity;
        for (var g = 0; g < Grid; g++)
        {
            // 0.3 to 3000 mm²/yr.
            var lnDiffusion = Math.Log(0.3) + (g * Math.Log(1e4) / (Grid - 1));
            slices.Shares(core, lnDiffusion, share);
            double products = 0;
            double norm = 1e-12;
            for (var i = 0; i < share.Length; i++)
            {
                products += share[i] * (Value(slices, first + i) - state.Background);
                norm += share[i] * share[i];
            }

            var surface = Math.Clamp(state.Background + (products / norm), 0.1, 100);
            double sum = 0;
            for (var i = 0; i < share.Length; i++)
            {
                var misfit =
                    Value(slices, first + i)
                    - state.Background
                    - ((surface - state.Background) * share[i]);
                sum += misfit * misfit;
            }

            if (sum < best)
            {
                best = sum;
                state.LnSurface[core] = Math.Log(surface);
                state.LnDiffusion[core] = lnDiffusion;
            }
        }

        return best;
    }

    private static double Value(DeckSlices slices, int index) =>
        slices.IsCensored[index] ? 0.5 * slices.Content[index] : slices.Content[index];
}
