using DeckLife.Numerics.MarkovChains;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Fitting;

/// <summary>Draws from the posterior of a deck, kept chain by chain, with their convergence.</summary>
internal sealed class DeckPosterior
{
    // Columns: means, ln s.d. of ln Cs, ln s.d. of ln D, artanh correlation, background, ln error, ageing exponent, then (ln Cs, ln D) of the cores.
    private readonly double[][][] _draws;
    private readonly DeckModel _model;

    private DeckPosterior(DeckModel model, double[][][] draws)
    {
        _model = model;
        _draws = draws;
        DrawsPerChain = draws[0][0].Length;
    }

    /// <summary>Number of draws kept of each chain.</summary>
    public int DrawsPerChain { get; }

    /// <summary>Number of chains.</summary>
    public int Chains => _draws.Length;

    private int Spread => _model.MeanCount;

    private int FirstCore => Spread + 6;

    /// <summary>Runs the chains; the result depends on the seed and the counts, never on threads.</summary>
    /// <param name="model">The deck.</param>
    /// <param name="seed">Seed of the chains.</param>
    /// <param name="chains">Number of chains.</param>
    /// <param name="warmUp">Sweeps that tune a chain.</param>
    /// <param name="draws">Draws to keep of each chain.</param>
    /// <param name="thinning">Sweeps from one draw to the next.</param>
    /// <param name="threads">Most chains at a time.</param>
    public static DeckPosterior Run(
        DeckModel model,
        ulong seed,
        int chains,
        int warmUp,
        int draws,
        int thinning,
        int threads
    )
    {
        var all = FixedOrderParallel.Map(
            chains,
            c => RunChain(model, seed, c, warmUp, draws, thinning),
            Math.Max(1, threads)
        );
        return new DeckPosterior(model, all);
    }

    /// <summary>Convergence of everything that was estimated: the worst.</summary>
    /// <param name="threads">Most columns at a time.</param>
    public ConvergenceSummary Convergence(int threads)
    {
        var columns = FixedOrderParallel.Map(
            _draws[0].Length,
            column =>
            {
                double[][] chains = [.. _draws.Select(d => d[column])];
                return IsHeld(column)
                    ? (RHat: 1, Bulk: double.PositiveInfinity, Tail: double.PositiveInfinity)
                    : (
                        RHat: ChainDiagnostics.RankNormalizedRHat(chains),
                        Bulk: ChainDiagnostics.BulkEffectiveSampleSize(chains),
                        Tail: ChainDiagnostics.TailEffectiveSampleSize(chains)
                    );
            },
            Math.Max(1, threads)
        );
        return new ConvergenceSummary(
            Math.Max(1, columns.Max(c => c.RHat)),
            columns.Min(c => c.Bulk)
        )
        {
            TailEffectiveSampleSize = columns.Min(c => c.Tail),
            Chains = Chains,
            DrawsPerChain = DrawsPerChain,
        };
    }

    private bool IsHeld(int column) =>
        (column == Spread + 3 && _model.FixedBackground is not null)
        || (column == Spread + 5 && _model.FixedAgeingExponent is not null);

    /// <summary>One draw of the deck's parameters: of the whole area, where targeted cores stand for a share of it.</summary>
    /// <param name="index">Number of the draw; the chains take turns.</param>
    public DeckHyperDraw Hyper(int index) => Hyper(index, _model.TargetedAreaShare);

    /// <summary>One draw of the parameters of the cores taken at random.</summary>
    /// <param name="index">Number of the draw; the chains take turns.</param>
    public DeckHyperDraw Untargeted(int index) => Hyper(index, 0);

    private DeckHyperDraw Hyper(int index, double share)
    {
        var chain = _draws[index % Chains];
        var i = index / Chains;
        var meanSurface = chain[0][i];
        var meanDiffusion = chain[1][i];
        var sdSurface = Math.Exp(chain[Spread][i]);
        var sdDiffusion = Math.Exp(chain[Spread + 1][i]);
        var correlation = Math.Tanh(chain[Spread + 2][i]);
        if (_model.IsTargeted is not null)
        {
            // A mixture of two normals with one covariance: mean and covariance of the whole.
            var surface = chain[2][i];
            var diffusion = chain[3][i];
            var between = share * (1 - share);
            var covariance =
                (correlation * sdSurface * sdDiffusion) + (between * surface * diffusion);
            meanSurface += share * surface;
            meanDiffusion += share * diffusion;
            sdSurface = Math.Sqrt((sdSurface * sdSurface) + (between * surface * surface));
            sdDiffusion = Math.Sqrt(
                (sdDiffusion * sdDiffusion) + (between * diffusion * diffusion)
            );
            correlation = Math.Clamp(covariance / (sdSurface * sdDiffusion), -1, 1);
        }

        var error = Math.Exp(chain[Spread + 4][i]);
        return new DeckHyperDraw(
            meanSurface,
            meanDiffusion,
            sdSurface,
            sdDiffusion,
            correlation,
            chain[Spread + 3][i],
            _model.TypicalError(error)
        )
        {
            AgeingExponent = chain[Spread + 5][i],
            RelativeLabError = _model.Slices.Weights == SliceWeights.Relative ? error : null,
        };
    }

    /// <summary>All draws of one column, the chains taking turns.</summary>
    private double[] Column(int column)
    {
        var values = new double[Chains * DrawsPerChain];
        for (var i = 0; i < values.Length; i++)
        {
            values[i] = _draws[i % Chains][column][i / Chains];
        }

        return values;
    }

    /// <summary>Draws of ln Cs of one core.</summary>
    public double[] LnSurface(int core) => Column(FirstCore + (2 * core));

    /// <summary>Draws of ln D of one core, at its own age.</summary>
    public double[] LnDiffusion(int core) => Column(FirstCore + (2 * core) + 1);

    /// <summary>Draws of the shift of targeted cores in ln Cs (0) or ln D (1).</summary>
    public double[] TargetedShift(int component) => Column(2 + component);

    /// <summary>Draws of the ageing exponent.</summary>
    public double[] AgeingExponent() => Column(Spread + 5);

    private static double[][] RunChain(
        DeckModel model,
        ulong seed,
        int chain,
        int warmUp,
        int draws,
        int thinning
    )
    {
        var random = new RandomStream(seed, "deck fit", (ulong)chain);
        var walker = new DeckChain(model, random, DeckStart.Make(model, random));
        walker.WarmUp(warmUp);
        var spread = model.MeanCount;
        var columns = new double[spread + 6 + (2 * model.Slices.CoreCount)][];
        for (var c = 0; c < columns.Length; c++)
        {
            columns[c] = new double[draws];
        }

        for (var i = 0; i < draws; i++)
        {
            for (var k = 0; k < thinning; k++)
            {
                walker.Sweep();
            }

            var state = walker.State;
            for (var c = 0; c < spread; c++)
            {
                columns[c][i] = state.Means[c];
            }

            columns[spread][i] = state.LnSdSurface;
            columns[spread + 1][i] = state.LnSdDiffusion;
            columns[spread + 2][i] = state.ArtanhCorrelation;
            columns[spread + 3][i] = state.Background;
            columns[spread + 4][i] = Math.Log(state.Error);
            columns[spread + 5][i] = state.AgeingExponent;
            for (var j = 0; j < model.Slices.CoreCount; j++)
            {
                columns[spread + 6 + (2 * j)][i] = state.LnSurface[j];
                columns[spread + 7 + (2 * j)][i] = state.LnDiffusion[j];
            }
        }

        return columns;
    }
}
