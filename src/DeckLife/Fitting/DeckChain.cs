using DeckLife.Numerics.MarkovChains;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Fitting;

/// <summary>
/// One Markov chain on the posterior of a deck: Metropolis steps for each core, exact or slice-sampled draws of the deck's own parameters
/// given the cores, and moves that carry the cores along with the deck's parameters.
/// </summary>
/// <remarks>
/// Cores that are well known make the first kind of draw of the deck's parameters quick and the second slow; little known cores the
/// other way round. Both in turn are quick everywhere: Yu and Meng, To center or not to center: that is not the question - an
/// ancillarity-sufficiency interweaving strategy (Journal of Computational and Graphical Statistics 20, 2011).
/// Checked by DeckFitterTests and by the calibration study.
/// </remarks>
internal sealed partial class DeckChain
{
    // A logarithm of a standard deviation below -60 is 0 in every sum: the walks stop there.
    private const double Far = 60;

    private readonly DeckModel _model;
    private readonly DeckSlices _slices;
    private readonly RandomStream _random;
    private readonly int _cores;
    private readonly double[] _share;
    private readonly double[] _proposedShare;
    private readonly double[] _log;
    private readonly double[] _proposedLog;
    private readonly double[] _proposedSurface;
    private readonly double[] _proposedDiffusion;
    private readonly double[] _ageShift;
    private readonly double[] _proposedAgeShift;
    private readonly double[] _slopeSurface;
    private readonly double[] _slopeDiffusion;
    private readonly AdaptiveRandomWalk[] _coreWalk;
    private readonly AdaptiveRandomWalk _backgroundWalk;
    private readonly AdaptiveRandomWalk _meanWalk;
    private readonly AdaptiveRandomWalk _sdSurfaceWalk;
    private readonly AdaptiveRandomWalk _sdDiffusionWalk;
    private readonly AdaptiveRandomWalk _correlationWalk;
    private readonly AdaptiveRandomWalk _ageingWalk;
    private readonly BackgroundSlopes _backgroundSlopes;
    private readonly int _measured;
    private double _correlation;
    private double _inverseSdSurface;
    private double _inverseSdDiffusion;
    private bool _warming = true;

    /// <summary>Starts a chain.</summary>
    /// <param name="model">The deck.</param>
    /// <param name="random">The chain's random numbers.</param>
    /// <param name="start">Where it starts; the chain takes it over.</param>
    public DeckChain(DeckModel model, RandomStream random, DeckChainState start)
    {
        _model = model;
        _slices = model.Slices;
        _random = random;
        _cores = _slices.CoreCount;
        State = start;
        _share = new double[_slices.SliceCount];
        _proposedShare = new double[_slices.SliceCount];
        _log = new double[_cores];
        _proposedLog = new double[_cores];
        _proposedSurface = new double[_cores];
        _proposedDiffusion = new double[_cores];
        _ageShift = new double[_cores];
        _proposedAgeShift = new double[_cores];
        _slopeSurface = new double[_cores];
        _slopeDiffusion = new double[_cores];
        _coreWalk = new AdaptiveRandomWalk[_cores];
        for (var j = 0; j < _cores; j++)
        {
            _coreWalk[j] = new AdaptiveRandomWalk([0.1, 0.1]);
            _slices.TabulatedShares(j, start.LnDiffusion[j], ShareOf(_share, j));
            _measured += _slices.Measured(j);
        }

        var wide = new double[model.MeanCount];
        Array.Fill(wide, 0.1);
        _backgroundWalk = new AdaptiveRandomWalk([0.05]);
        _meanWalk = new AdaptiveRandomWalk(wide);
        _sdSurfaceWalk = new AdaptiveRandomWalk([0.1]);
        _sdDiffusionWalk = new AdaptiveRandomWalk([0.1]);
        _correlationWalk = new AdaptiveRandomWalk([0.3]);
        _ageingWalk = new AdaptiveRandomWalk([0.05]);
        _backgroundSlopes = new BackgroundSlopes(_cores);
        model.AgeShifts(start.AgeingExponent, _ageShift);
        TakeSpread();
        RefreshLogs();
    }

    /// <summary>Where the chain stands.</summary>
    public DeckChainState State { get; }

    /// <summary>Tunes the proposals; what it passes through is not kept.</summary>
    /// <param name="sweeps">Number of sweeps.</param>
    public void WarmUp(int sweeps)
    {
        // Windows that double: early ones are short and far from the target, the last is half of all.
        for (int done = 0, window = Math.Max(20, sweeps / 16); done < sweeps; window *= 2)
        {
            var length = sweeps - done < 3 * window ? sweeps - done : window;
            for (var i = 0; i < length; i++)
            {
                Sweep();
                Learn();
            }

            done += length;
            EndWindow();
        }

        // The last window's covariance gets its own scale, then everything is frozen.
        for (var i = 0; i < Math.Max(50, sweeps / 10); i++)
        {
            Sweep();
        }

        _warming = false;
    }

    /// <summary>Moves every parameter.</summary>
    public void Sweep()
    {
        for (var j = 0; j < _cores; j++)
        {
            MoveCore(j);
            MoveCore(j);
            MoveCoreWithinPopulation(j);
        }

        MoveError();
        if (_model.FixedBackground is null)
        {
            DrawBackground();
            MoveBackgroundWithCores();
        }

        DrawMeans();
        DrawSpread();
        MoveMeansWithCores();
        MoveSdSurfaceWithCores();
        MoveSdDiffusionWithCores();
        MoveCorrelationWithCores();
        if (_model.FixedAgeingExponent is null)
        {
            DrawAgeing();
            MoveAgeingWithCores();
        }
    }

    private Span<double> ShareOf(double[] all, int core) =>
        all.AsSpan(
            _slices.FirstSlice[core],
            _slices.FirstSlice[core + 1] - _slices.FirstSlice[core]
        );

    private double MeanSurface(int core) =>
        State.Means[0] + (_model.IsTargeted is null ? 0 : State.Means[2] * _model.IsTargeted[core]);

    private double MeanDiffusion(int core) =>
        State.Means[1]
        + _ageShift[core]
        + (_model.IsTargeted is null ? 0 : State.Means[3] * _model.IsTargeted[core]);

    private double CoreLog(
        int core,
        double lnSurface,
        double background,
        ReadOnlySpan<double> share
    ) =>
        _slices.LogLikelihood(
            core,
            Math.Exp(lnSurface),
            background,
            State.Error,
            _model.Priors.SmallestLabErrorKgPerM3,
            share
        );

    private void RefreshLogs()
    {
        for (var j = 0; j < _cores; j++)
        {
            _log[j] = CoreLog(j, State.LnSurface[j], State.Background, ShareOf(_share, j));
        }
    }

    // What the density of a core about the deck's means needs of the spread; to be called whenever that has moved.
    private void TakeSpread()
    {
        _correlation = Math.Tanh(State.ArtanhCorrelation);
        _inverseSdSurface = Math.Exp(-State.LnSdSurface);
        _inverseSdDiffusion = Math.Exp(-State.LnSdDiffusion);
    }

    // Log density of a core about the deck's means, the part that depends on the core.
    private double CorePopulation(int core, double lnSurface, double lnDiffusion)
    {
        var u = (lnSurface - MeanSurface(core)) * _inverseSdSurface;
        var v = (lnDiffusion - MeanDiffusion(core)) * _inverseSdDiffusion;
        return -0.5
            * ((u * u) - (2 * _correlation * u * v) + (v * v))
            / (1 - (_correlation * _correlation));
    }

    private bool Accept(double logRatio, AdaptiveRandomWalk walk)
    {
        var probability = logRatio >= 0 ? 1 : Math.Exp(logRatio);
        // A proposal outside what doubles hold has no ratio and is turned down.
        if (double.IsNaN(probability))
        {
            probability = 0;
        }

        if (_warming)
        {
            walk.AdaptScale(probability);
        }

        return _random.NextUniform() < probability;
    }

    private void MoveCore(int core)
    {
        Span<double> step = stackalloc double[2];
        _coreWalk[core].Propose(_random, step);
        var surface = State.LnSurface[core] + step[0];
        var diffusion = State.LnDiffusion[core] + step[1];
        var ratio = double.NegativeInfinity;
        var log = 0.0;
        var share = ShareOf(_proposedShare, core);
        if (Math.Abs(surface) < Far && Math.Abs(diffusion) < Far)
        {
            _slices.TabulatedShares(core, diffusion, share);
            log = CoreLog(core, surface, State.Background, share);
            ratio =
                log
                - _log[core]
                + CorePopulation(core, surface, diffusion)
                - CorePopulation(core, State.LnSurface[core], State.LnDiffusion[core]);
        }

        if (Accept(ratio, _coreWalk[core]))
        {
            State.LnSurface[core] = surface;
            State.LnDiffusion[core] = diffusion;
            share.CopyTo(ShareOf(_share, core));
            _log[core] = log;
        }
    }

    // A step that leaves the population's density as it is (Cotter, Roberts, Stuart and White, Statistical Science 28, 2013: preconditioned
    // Crank-Nicolson); the likelihood alone decides. It keeps cores moving where they hardly differ and steps of their own size would fail.
    private void MoveCoreWithinPopulation(int core)
    {
        var reach = _random.NextUniform() < 0.5 ? 1 : 0.4;
        var keep = Math.Sqrt(1 - (reach * reach));
        var a = _random.NextNormal();
        var b =
            (_correlation * a)
            + (Math.Sqrt(1 - (_correlation * _correlation)) * _random.NextNormal());
        var meanSurface = MeanSurface(core);
        var meanDiffusion = MeanDiffusion(core);
        var surface =
            meanSurface
            + (keep * (State.LnSurface[core] - meanSurface))
            + (reach * a / _inverseSdSurface);
        var diffusion =
            meanDiffusion
            + (keep * (State.LnDiffusion[core] - meanDiffusion))
            + (reach * b / _inverseSdDiffusion);
        if (!(Math.Abs(surface) < Far && Math.Abs(diffusion) < Far))
        {
            return;
        }

        var share = ShareOf(_proposedShare, core);
        _slices.TabulatedShares(core, diffusion, share);
        var log = CoreLog(core, surface, State.Background, share);
        if (Math.Log(_random.NextUniform()) < log - _log[core])
        {
            State.LnSurface[core] = surface;
            State.LnDiffusion[core] = diffusion;
            share.CopyTo(ShareOf(_share, core));
            _log[core] = log;
        }
    }

    private void MoveError()
    {
        // Where the error is not relative the measured slices enter by one sum of squares, which the error only scales.
        var relative = _slices.Weights == SliceWeights.Relative;
        double squares = 0;
        for (var j = 0; j < _cores && !relative; j++)
        {
            squares += _slices.MeasuredSquares(
                j,
                Math.Exp(State.LnSurface[j]),
                State.Background,
                ShareOf(_share, j)
            );
        }

        double Density(double lnError)
        {
            var log = _model.LogPriorOfLnError(lnError);
            if (double.IsNegativeInfinity(log))
            {
                return log;
            }

            State.Error = Math.Exp(lnError);
            if (!relative)
            {
                log -= (_measured * lnError) + (0.5 * squares / (State.Error * State.Error));
            }

            return log + OverCores(State.Background, censoredOnly: !relative);
        }

        var current = Math.Log(State.Error);
        var next = UnivariateSlice.Next(_random, Density, current, 0.3, _model.LnSmallestError);
        State.Error = Math.Exp(next);
        RefreshLogs();
    }

    // Sum over the cores of their log likelihoods, or of what detection limits add to them.
    private double OverCores(double background, bool censoredOnly)
    {
        double log = 0;
        for (var j = 0; j < _cores; j++)
        {
            if (!censoredOnly)
            {
                log += CoreLog(j, State.LnSurface[j], background, ShareOf(_share, j));
            }
            else if (_slices.HasCensored[j])
            {
                log += _slices.CensoredLog(
                    j,
                    Math.Exp(State.LnSurface[j]),
                    background,
                    State.Error,
                    ShareOf(_share, j)
                );
            }
        }

        return log;
    }

    private void DrawBackground()
    {
        // Where the error is not relative the measured slices make a parabola of the background.
        var relative = _slices.Weights == SliceWeights.Relative;
        var (constant, linear, square) = (0.0, 0.0, 0.0);
        for (var j = 0; j < _cores && !relative; j++)
        {
            var own = _slices.SquaresOfBackground(
                j,
                Math.Exp(State.LnSurface[j]),
                ShareOf(_share, j)
            );
            constant += own.Constant;
            linear += own.Linear;
            square += own.Square;
        }

        var half = 0.5 / (State.Error * State.Error);
        double Density(double background) =>
            background < 0
                ? double.NegativeInfinity
                : _model.LogPriorOfBackground(background)
                    - (half * (constant + (background * (linear + (background * square)))))
                    + OverCores(background, censoredOnly: !relative);

        State.Background = UnivariateSlice.Next(_random, Density, State.Background, 0.05, 0);
        RefreshLogs();
    }

    // A step of the background along the valley of the likelihood: each core moves by its own slope, learnt while warming up. The map has
    // determinant 1 and is its own inverse's form, so the plain ratio of densities decides.
    private void MoveBackgroundWithCores()
    {
        Span<double> step = stackalloc double[1];
        _backgroundWalk.Propose(_random, step);
        var background = Math.Abs(State.Background + step[0]);
        var moved = background - State.Background;
        var ratio =
            _model.LogPriorOfBackground(background) - _model.LogPriorOfBackground(State.Background);
        for (var j = 0; j < _cores; j++)
        {
            _proposedSurface[j] = State.LnSurface[j] + (_slopeSurface[j] * moved);
            _proposedDiffusion[j] = State.LnDiffusion[j] + (_slopeDiffusion[j] * moved);
            ratio +=
                CorePopulation(j, _proposedSurface[j], _proposedDiffusion[j])
                - CorePopulation(j, State.LnSurface[j], State.LnDiffusion[j]);
        }

        ratio += LikelihoodRatioOfProposal(background);
        if (Accept(ratio, _backgroundWalk))
        {
            State.Background = background;
            TakeProposedCores();
        }
    }

    // Log likelihood of the proposed cores less that of the present ones.
    private double LikelihoodRatioOfProposal(double background)
    {
        double ratio = 0;
        for (var j = 0; j < _cores; j++)
        {
            if (!(Math.Abs(_proposedSurface[j]) < Far && Math.Abs(_proposedDiffusion[j]) < Far))
            {
                return double.NegativeInfinity;
            }

            var share = ShareOf(_proposedShare, j);
            if (_proposedDiffusion[j] == State.LnDiffusion[j])
            {
                ShareOf(_share, j).CopyTo(share);
            }
            else
            {
                _slices.TabulatedShares(j, _proposedDiffusion[j], share);
            }

            _proposedLog[j] = CoreLog(j, _proposedSurface[j], background, share);
            ratio += _proposedLog[j] - _log[j];
        }

        return ratio;
    }

    private void TakeProposedCores()
    {
        _proposedSurface.CopyTo(State.LnSurface, 0);
        _proposedDiffusion.CopyTo(State.LnDiffusion, 0);
        _proposedShare.CopyTo(_share, 0);
        _proposedLog.CopyTo(_log, 0);
    }

    private void Learn()
    {
        Span<double> core = stackalloc double[2];
        for (var j = 0; j < _cores; j++)
        {
            core[0] = State.LnSurface[j];
            core[1] = State.LnDiffusion[j];
            _coreWalk[j].Learn(core);
        }

        _meanWalk.Learn(State.Means);
        _sdSurfaceWalk.Learn([Math.Exp(State.LnSdSurface)]);
        _sdDiffusionWalk.Learn([Math.Exp(State.LnSdDiffusion)]);
        _correlationWalk.Learn([State.ArtanhCorrelation]);
        _ageingWalk.Learn([State.AgeingExponent]);
        _backgroundWalk.Learn([State.Background]);
        _backgroundSlopes.Learn(State);
    }

    private void EndWindow()
    {
        foreach (var walk in _coreWalk)
        {
            walk.EndWindow();
        }

        _meanWalk.EndWindow();
        _sdSurfaceWalk.EndWindow();
        _sdDiffusionWalk.EndWindow();
        _correlationWalk.EndWindow();
        _ageingWalk.EndWindow();
        _backgroundWalk.EndWindow();
        _backgroundSlopes.Take(_slopeSurface, _slopeDiffusion);
    }
}
