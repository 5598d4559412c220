using DeckLife.Numerics.Diffusion;
using DeckLife.Profiles;

namespace DeckLife.Tests.Fitting;

/// <summary>
/// The best that any method can do on the cores of a simulated deck, on average: the mean of ln D given one core's slices where the population of
/// (ln Cs, ln D), the background and the laboratory's error are known exactly, by a sum over a grid of 61 x 81 points.
/// </summary>
internal sealed class DeckOracle
{
    private const int Surfaces = 61;
    private const int Diffusions = 81;
    private const double Reach = 4;

    private readonly SimulatedDeck _deck;
    private readonly double[] _lnDiffusion = new double[Diffusions];
    private readonly double[] _logPrior = new double[Surfaces * Diffusions];
    private readonly double[][] _means = new double[Surfaces * Diffusions][];

    public DeckOracle(SimulatedDeck deck)
    {
        _deck = deck;
        var rest = 1 - (deck.Correlation * deck.Correlation);
        for (var j = 0; j < Diffusions; j++)
        {
            var b = Reach * ((2.0 * j / (Diffusions - 1)) - 1);
            _lnDiffusion[j] = deck.MeanLnDiffusion + (deck.SdLnDiffusion * b);
            var length = 2 * Math.Sqrt(Math.Exp(_lnDiffusion[j]) * deck.Years);
            double[] share =
            [
                .. Enumerable
                    .Range(0, deck.Slices)
                    .Select(i => 6.35 + (12.7 * i))
                    .Select(top => SliceMean.Value(top, top + 12.7, length)),
            ];
            for (var k = 0; k < Surfaces; k++)
            {
                var a = Reach * ((2.0 * k / (Surfaces - 1)) - 1);
                var surface = Math.Exp(deck.MeanLnSurface + (deck.SdLnSurface * a));
                var at = (j * Surfaces) + k;
                _logPrior[at] = -0.5 * ((a * a) - (2 * deck.Correlation * a * b) + (b * b)) / rest;
                _means[at] =
                [
                    .. share.Select(s => deck.Background + ((surface - deck.Background) * s)),
                ];
            }
        }
    }

    /// <summary>Posterior mean of ln D of one core.</summary>
    public double LnDiffusion(CoreProfile core)
    {
        double[] contents = [.. core.Slices.Select(s => s.Content.KilogramsPerCubicMetre)];
        var logs = new double[_means.Length];
        for (var at = 0; at < logs.Length; at++)
        {
            var log = _logPrior[at];
            for (var i = 0; i < contents.Length; i++)
            {
                var mean = _means[at][i];
                var variance =
                    (_deck.Error * _deck.Error)
                    + (_deck.RelativeError * _deck.RelativeError * mean * mean);
                log -= 0.5 * ((Math.Pow(contents[i] - mean, 2) / variance) + Math.Log(variance));
            }

            logs[at] = log;
        }

        var most = logs.Max();
        var (sum, moment) = (0.0, 0.0);
        for (var at = 0; at < logs.Length; at++)
        {
            var weight = Math.Exp(logs[at] - most);
            sum += weight;
            moment += weight * _lnDiffusion[at / Surfaces];
        }

        return moment / sum;
    }
}
