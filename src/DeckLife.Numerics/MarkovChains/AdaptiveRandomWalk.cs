using DeckLife.Numerics.Sampling;

namespace DeckLife.Numerics.MarkovChains;

/// <summary>
/// A normal random-walk proposal that learns its covariance and its scale while the chain warms up, and is then frozen,
/// so that what is kept comes from one fixed Markov kernel.
/// </summary>
/// <remarks>
/// Source: Haario, Saksman and Tamminen, An adaptive Metropolis algorithm (Bernoulli 7, 2001) for the covariance;
/// Andrieu and Thoms, A tutorial on adaptive MCMC (Statistics and Computing 18, 2008), algorithm 4, for the scale.
/// </remarks>
public sealed class AdaptiveRandomWalk
{
    private readonly int _dimension;
    private readonly double[] _factor;
    private readonly double[] _mean;
    private readonly double[] _moment;
    private readonly double[] _normal;
    private readonly double _target;
    private double _logScale;
    private long _adaptations;
    private long _learnt;

    /// <summary>Makes a proposal with independent components.</summary>
    /// <param name="initialSd">First guess of the standard deviation of each component, all positive.</param>
    public AdaptiveRandomWalk(ReadOnlySpan<double> initialSd)
    {
        _dimension = initialSd.Length;
        ArgumentOutOfRangeException.ThrowIfZero(_dimension, nameof(initialSd));
        _factor = new double[_dimension * _dimension];
        _mean = new double[_dimension];
        _moment = new double[_dimension * _dimension];
        _normal = new double[_dimension];
        for (var i = 0; i < _dimension; i++)
        {
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(initialSd[i], nameof(initialSd));
            _factor[(i * _dimension) + i] = initialSd[i];
        }

        // Roberts, Gelman and Gilks 1997: 2.38/sqrt(d) and an acceptance from 0.44 (d = 1) down to 0.234 for many dimensions; those of 2, 3 and 4
        // lie in between (Gelman, Roberts and Gilks 1996, table 1: 0.35, 0.31, 0.28; from memory). They cost time, never correctness.
        _logScale = Math.Log(2.38 / Math.Sqrt(_dimension));
        _target = _dimension switch
        {
            1 => 0.44,
            2 => 0.35,
            3 => 0.31,
            _ => 0.27,
        };
    }

    /// <summary>Draws a step to be added to the state.</summary>
    /// <param name="stream">The chain's random numbers.</param>
    /// <param name="step">Receives the step; length of the dimension.</param>
    public void Propose(RandomStream stream, Span<double> step)
    {
        ArgumentNullException.ThrowIfNull(stream);
        var scale = Math.Exp(_logScale);
        for (var i = 0; i < _dimension; i++)
        {
            _normal[i] = scale * stream.NextNormal();
            double sum = 0;
            for (var k = 0; k <= i; k++)
            {
                sum += _factor[(i * _dimension) + k] * _normal[k];
            }

            step[i] = sum;
        }
    }

    /// <summary>Warm-up only: moves the scale towards the acceptance rate aimed at.</summary>
    /// <param name="acceptanceProbability">min(1, exp(log ratio)) of the last proposal.</param>
    public void AdaptScale(double acceptanceProbability)
    {
        _adaptations++;
        _logScale +=
            Math.Min(1, 5 / Math.Pow(_adaptations + 10, 0.6)) * (acceptanceProbability - _target);
    }

    /// <summary>Warm-up only: adds a state to the moments of the current window.</summary>
    /// <param name="state">The state, length of the dimension.</param>
    public void Learn(ReadOnlySpan<double> state)
    {
        _learnt++;
        Span<double> before = stackalloc double[_dimension];
        for (var i = 0; i < _dimension; i++)
        {
            before[i] = state[i] - _mean[i];
            _mean[i] += before[i] / _learnt;
        }

        for (var i = 0; i < _dimension; i++)
        {
            for (var k = 0; k <= i; k++)
            {
                _moment[(i * _dimension) + k] += before[i] * (state[k] - _mean[k]);
            }
        }
    }

    /// <summary>Warm-up only: takes the covariance of the window, if it is one, and starts the next window.</summary>
    public void EndWindow()
    {
        if (_learnt > 10 * _dimension)
        {
            TakeCovariance();
        }

        _learnt = 0;
        _adaptations = 0;
        Array.Clear(_mean);
        Array.Clear(_moment);
    }

    private void TakeCovariance()
    {
        // Shrunk towards its own diagonal: a window is short and its states are dependent.
        var factor = new double[_dimension * _dimension];
        for (var i = 0; i < _dimension; i++)
        {
            for (var k = 0; k <= i; k++)
            {
                var sum = _moment[(i * _dimension) + k] / (_learnt - 1) * (i == k ? 1 : 0.95);
                for (var m = 0; m < k; m++)
                {
                    sum -= factor[(i * _dimension) + m] * factor[(k * _dimension) + m];
                }

                if (i == k)
                {
                    if (!(sum > 0))
                    {
                        return;
                    }

                    factor[(i * _dimension) + i] = Math.Sqrt(sum);
                }
                else
                {
                    factor[(i * _dimension) + k] = sum / factor[(k * _dimension) + k];
                }
            }
        }

        factor.CopyTo(_factor, 0);
        _logScale = Math.Log(2.38 / Math.Sqrt(_dimension));
    }
}
