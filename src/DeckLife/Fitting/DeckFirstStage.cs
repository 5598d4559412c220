namespace DeckLife.Fitting;

/// <summary>
/// The cores of a deck with one background and one error, but nothing assumed on how cores differ: maximum likelihood of each (ln Cs, ln D), and
/// the covariance of all of them, which the common background ties together.
/// </summary>
/// <remarks>
/// Method: Gauss-Newton steps, damped (Levenberg and Marquardt), on a matrix whose only ties between cores run through the background.
/// Below detection the slope and curvature of ln Φ take the place of those of the squares.
/// </remarks>
internal sealed class DeckFirstStage
{
    private const int MostSteps = 300;
    private readonly DeckSlices _slices;
    private readonly bool _backgroundIsFixed;

    // Per core: information [ss, sd, dd], its tie to the background [s, d], and the gradient [s, d].
    private readonly double[] _information;
    private readonly double[] _tie;
    private readonly double[] _gradient;
    private double _backgroundInformation;
    private double _backgroundGradient;

    private DeckFirstStage(DeckModel model, DeckChainState start)
    {
        _slices = model.Slices;
        _backgroundIsFixed = model.FixedBackground is not null;
        LnSurface = (double[])start.LnSurface.Clone();
        LnDiffusion = (double[])start.LnDiffusion.Clone();
        Background = start.Background;
        Error = start.Error;
        _information = new double[3 * _slices.CoreCount];
        _tie = new double[2 * _slices.CoreCount];
        _gradient = new double[2 * _slices.CoreCount];
    }

    /// <summary>ln Cs of the cores.</summary>
    public double[] LnSurface { get; private set; }

    /// <summary>ln D of the cores, at their own ages.</summary>
    public double[] LnDiffusion { get; private set; }

    /// <summary>The background [kg/m³].</summary>
    public double Background { get; private set; }

    /// <summary>Whether the background lies at 0 and takes no part in the covariance.</summary>
    public bool BackgroundIsAtBound { get; private set; }

    /// <summary>The deck's error: standard deviation [kg/m³] or factor; residual degrees of freedom counted.</summary>
    public double Error { get; private set; }

    /// <summary>Why there is no result; null when there is one.</summary>
    public string? Problem { get; private set; }

    /// <summary>Fits; the result is good when <see cref="Problem"/> is null.</summary>
    /// <param name="model">The deck; errors constant or given.</param>
    /// <param name="start">A rough start.</param>
    public static DeckFirstStage Fit(DeckModel model, DeckChainState start)
    {
        var stage = new DeckFirstStage(model, start);
        stage.Solve();
        return stage;
    }

    /// <summary>Covariance of (ln Cs, ln D) of all cores, (2 J)² values row by row.</summary>
    public double[] Covariance()
    {
        var cores = _slices.CoreCount;
        var size = 2 * cores;
        Accumulate(LnSurface, LnDiffusion, Background);
        var covariance = new double[size * size];
        var carried = new double[size];
        var left = _backgroundInformation;
        for (var j = 0; j < cores; j++)
        {
            var (a, b, c) = InverseOfCore(j, 0);
            covariance[(2 * j * size) + (2 * j)] = a;
            covariance[(2 * j * size) + (2 * j) + 1] = b;
            covariance[(((2 * j) + 1) * size) + (2 * j)] = b;
            covariance[(((2 * j) + 1) * size) + (2 * j) + 1] = c;
            carried[2 * j] = (a * _tie[2 * j]) + (b * _tie[(2 * j) + 1]);
            carried[(2 * j) + 1] = (b * _tie[2 * j]) + (c * _tie[(2 * j) + 1]);
            left -= (_tie[2 * j] * carried[2 * j]) + (_tie[(2 * j) + 1] * carried[(2 * j) + 1]);
        }

        if (!_backgroundIsFixed && !BackgroundIsAtBound)
        {
            for (var i = 0; i < size; i++)
            {
                for (var k = 0; k < size; k++)
                {
                    covariance[(i * size) + k] += carried[i] * carried[k] / left;
                }
            }
        }

        return covariance;
    }

    private void Solve()
    {
        // The error and the rest in turn; without non-detects the second round changes nothing but the error.
        for (var round = 0; round < 50; round++)
        {
            if (!Descend())
            {
                Problem = "the first stage did not converge";
                return;
            }

            var before = Error;
            if (!UpdateError())
            {
                return;
            }

            if (Math.Abs(Error - before) < 1e-10 * before)
            {
                break;
            }
        }

        for (var j = 0; j < _slices.CoreCount; j++)
        {
            if (LnDiffusion[j] < Math.Log(0.1) || LnDiffusion[j] > Math.Log(1e4))
            {
                Problem = "a core alone does not determine its diffusion coefficient";
            }
        }
    }

    private bool Descend()
    {
        var damping = 1e-3;
        var value = Accumulate(LnSurface, LnDiffusion, Background);
        for (var step = 0; step < MostSteps; step++)
        {
            var (surface, diffusion, background, change) = Propose(damping);
            var found = LogLikelihood(surface, diffusion, background);
            if (found >= value)
            {
                LnSurface = surface;
                LnDiffusion = diffusion;
                Background = background;
                value = Accumulate(surface, diffusion, background);
                damping = Math.Max(1e-12, damping / 5);
                if (change < 1e-11)
                {
                    return true;
                }
            }
            else if (change < 1e-12)
            {
                return true;
            }
            else
            {
                damping *= 4;
            }
        }

        return false;
    }

    private (double[] Surface, double[] Diffusion, double Background, double Change) Propose(
        double damping
    )
    {
        var cores = _slices.CoreCount;
        // At the bound the background stays while the slope would take it further down.
        BackgroundIsAtBound = !_backgroundIsFixed && Background <= 0 && _backgroundGradient <= 0;
        double moved = 0;
        if (!_backgroundIsFixed && !BackgroundIsAtBound)
        {
            var left = _backgroundInformation * (1 + damping);
            var right = _backgroundGradient;
            for (var j = 0; j < cores; j++)
            {
                var (a, b, c) = InverseOfCore(j, damping);
                var s = (a * _tie[2 * j]) + (b * _tie[(2 * j) + 1]);
                var d = (b * _tie[2 * j]) + (c * _tie[(2 * j) + 1]);
                left -= (_tie[2 * j] * s) + (_tie[(2 * j) + 1] * d);
                right -= (_gradient[2 * j] * s) + (_gradient[(2 * j) + 1] * d);
            }

            moved = Math.Max(right / left, -Background);
        }

        var surface = new double[cores];
        var diffusion = new double[cores];
        var change = Math.Abs(moved);
        for (var j = 0; j < cores; j++)
        {
            var (a, b, c) = InverseOfCore(j, damping);
            var first = _gradient[2 * j] - (_tie[2 * j] * moved);
            var second = _gradient[(2 * j) + 1] - (_tie[(2 * j) + 1] * moved);
            var s = Math.Clamp((a * first) + (b * second), -2, 2);
            var d = Math.Clamp((b * first) + (c * second), -2, 2);
            surface[j] = Math.Clamp(LnSurface[j] + s, -20, 20);
            diffusion[j] = Math.Clamp(LnDiffusion[j] + d, -20, 20);
            change = Math.Max(change, Math.Max(Math.Abs(s), Math.Abs(d)));
        }

        return (surface, diffusion, Background + moved, change);
    }

    private (double A, double B, double C) InverseOfCore(int core, double damping)
    {
        var ss = (_information[3 * core] * (1 + damping)) + 1e-300;
        var sd = _information[(3 * core) + 1];
        var dd = (_information[(3 * core) + 2] * (1 + damping)) + 1e-300;
        var determinant = (ss * dd) - (sd * sd);
        determinant = Math.Max(determinant, 1e-14 * ss * dd);
        return (dd / determinant, -sd / determinant, ss / determinant);
    }

    // Gradient and information of the log likelihood; returns the log likelihood.
    private double Accumulate(double[] surface, double[] diffusion, double background)
    {
        Array.Clear(_information);
        Array.Clear(_tie);
        Array.Clear(_gradient);
        _backgroundInformation = 0;
        _backgroundGradient = 0;
        double log = 0;
        for (var j = 0; j < _slices.CoreCount; j++)
        {
            var cs = Math.Exp(surface[j]);
            for (var i = _slices.FirstSlice[j]; i < _slices.FirstSlice[j + 1]; i++)
            {
                var share = _slices.Share(j, i, diffusion[j], out var slope);
                var byS = cs * share;
                var byD = (cs - background) * slope;
                var byB = 1 - share;
                var (value, gradient, weight) = Slice(i, background + ((cs - background) * share));
                log += value;
                _gradient[2 * j] += gradient * byS;
                _gradient[(2 * j) + 1] += gradient * byD;
                _backgroundGradient += gradient * byB;
                _information[3 * j] += weight * byS * byS;
                _information[(3 * j) + 1] += weight * byS * byD;
                _information[(3 * j) + 2] += weight * byD * byD;
                _tie[2 * j] += weight * byS * byB;
                _tie[(2 * j) + 1] += weight * byD * byB;
                _backgroundInformation += weight * byB * byB;
            }
        }

        return log;
    }

    private double LogLikelihood(double[] surface, double[] diffusion, double background)
    {
        double log = 0;
        for (var j = 0; j < _slices.CoreCount; j++)
        {
            var cs = Math.Exp(surface[j]);
            for (var i = _slices.FirstSlice[j]; i < _slices.FirstSlice[j + 1]; i++)
            {
                var share = _slices.Share(j, i, diffusion[j], out _);
                log += Slice(i, background + ((cs - background) * share)).Value;
            }
        }

        return log;
    }

    // Log likelihood of one slice at a mean, its slope and minus its curvature in the mean.
    private (double Value, double Slope, double Weight) Slice(int index, double mean)
    {
        var sd = Error * _slices.ErrorFactor[index];
        var z = (_slices.Content[index] - mean) / sd;
        if (!_slices.IsCensored[index])
        {
            return (-0.5 * z * z, z / sd, 1 / (sd * sd));
        }

        var slope = CensoredNormal.Slope(z);
        return (
            CensoredNormal.LogProbabilityBelow(z),
            -slope / sd,
            Math.Max(0, slope * (slope + z)) / (sd * sd)
        );
    }

    private bool UpdateError()
    {
        double squares = 0;
        double count = 0;
        for (var j = 0; j < _slices.CoreCount; j++)
        {
            for (var i = _slices.FirstSlice[j]; i < _slices.FirstSlice[j + 1]; i++)
            {
                var share = _slices.Share(j, i, LnDiffusion[j], out _);
                var mean = Background + ((Math.Exp(LnSurface[j]) - Background) * share);
                var scaled = (_slices.Content[i] - mean) / _slices.ErrorFactor[i];
                if (_slices.IsCensored[i])
                {
                    // From the slope of ln Φ in ln σ.
                    var z = scaled / Error;
                    count += CensoredNormal.Slope(z) * z;
                }
                else
                {
                    squares += scaled * scaled;
                    count++;
                }
            }
        }

        count -= (2 * _slices.CoreCount) + (_backgroundIsFixed || BackgroundIsAtBound ? 0 : 1);
        if (!(count > 0.5) || !(squares > 1e-20))
        {
            Problem = "no degrees of freedom are left for the error";
            return false;
        }

        Error = Math.Sqrt(squares / count);
        return true;
    }
}
