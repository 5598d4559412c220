using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.LeastSquares;
using DeckLife.Numerics.Quadrature;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>Least squares of an overlaid core in (ln D of the overlay, ln D of the deck), the linear part (Cs - C0, C0) solved exactly.</summary>
internal sealed class OverlaidModel : ILeastSquaresModel
{
    private readonly ChlorideSlice[] _slices;
    private readonly double _thicknessMm;
    private readonly double _years;
    private readonly double? _held;
    private readonly double[] _share;

    public OverlaidModel(ChlorideSlice[] slices, double thicknessMm, double years, double? held)
    {
        (_slices, _thicknessMm, _years, _held) = (slices, thicknessMm, years, held);
        _share = new double[slices.Length];
    }

    /// <inheritdoc/>
    public int Residuals => _slices.Length;

    /// <inheritdoc/>
    public int Parameters => 2;

    /// <summary>The best linear part and its sum of squares.</summary>
    public (double Sum, double Excess, double Background) At(double lnOverlay, double lnDeck)
    {
        Shares(lnOverlay, lnDeck, _share);
        var (excess, background) = Linear(_share);
        var sum = 0.0;
        for (var i = 0; i < _share.Length; i++)
        {
            var r = background + (excess * _share[i]) - Content(i);
            sum += r * r;
        }

        return (sum, excess, background);
    }

    /// <inheritdoc/>
    public void Evaluate(
        ReadOnlySpan<double> parameters,
        Span<double> residuals,
        Span<double> jacobian
    )
    {
        const double step = 1e-5;
        Projected(parameters[0], parameters[1], residuals);
        if (jacobian.IsEmpty)
        {
            return;
        }

        var above = new double[Residuals];
        var below = new double[Residuals];
        for (var j = 0; j < 2; j++)
        {
            var (a, b) = j == 0 ? (step, 0.0) : (0.0, step);
            Projected(parameters[0] + a, parameters[1] + b, above);
            Projected(parameters[0] - a, parameters[1] - b, below);
            for (var i = 0; i < Residuals; i++)
            {
                jacobian[(2 * i) + j] = (above[i] - below[i]) / (2 * step);
            }
        }
    }

    /// <summary>Derivatives of the slices' contents by (Cs, ln D overlay, ln D deck, C0), by rows.</summary>
    public double[] Derivatives(double lnOverlay, double lnDeck, double excess)
    {
        const double step = 1e-5;
        var n = Residuals;
        var at = new double[n];
        Shares(lnOverlay, lnDeck, at);
        var pairs = new[] { (step, 0.0), (0.0, step) };
        var rows = new double[4 * n];
        for (var j = 0; j < 2; j++)
        {
            var above = new double[n];
            var below = new double[n];
            Shares(lnOverlay + pairs[j].Item1, lnDeck + pairs[j].Item2, above);
            Shares(lnOverlay - pairs[j].Item1, lnDeck - pairs[j].Item2, below);
            for (var i = 0; i < n; i++)
            {
                rows[(4 * i) + 1 + j] = excess * (above[i] - below[i]) / (2 * step);
            }
        }

        for (var i = 0; i < n; i++)
        {
            rows[4 * i] = at[i];
            rows[(4 * i) + 3] = 1 - at[i];
        }

        return rows;
    }

    private void Projected(double lnOverlay, double lnDeck, Span<double> residuals)
    {
        var share = new double[Residuals];
        Shares(lnOverlay, lnDeck, share);
        var (excess, background) = Linear(share);
        for (var i = 0; i < share.Length; i++)
        {
            residuals[i] = background + (excess * share[i]) - Content(i);
        }
    }

    // Mean over the slice, each side of the interface by itself: the profile has a kink there. Where the coefficients leave the range of
    // numbers the shares are not finite, which makes the search step back.
    private void Shares(double lnOverlay, double lnDeck, double[] share)
    {
        var ratio = Math.Exp(lnDeck - lnOverlay);
        if (!(ratio > 0 && double.IsFinite(ratio)))
        {
            Array.Fill(share, double.NaN);
            return;
        }

        var media = new TwoMedia(_thicknessMm, ratio);
        var clock = Math.Exp(lnOverlay) * _years;
        for (var i = 0; i < share.Length; i++)
        {
            var (top, bottom) = (_slices[i].Top.Millimetres, _slices[i].Bottom.Millimetres);
            if (top >= bottom)
            {
                share[i] = media.ConstantSurface(top, clock);
                continue;
            }

            var middle = Math.Clamp(_thicknessMm, top, bottom);
            var sum = 0.0;
            foreach (var (a, b) in new[] { (top, middle), (middle, bottom) })
            {
                if (b > a)
                {
                    sum +=
                        (b - a)
                        * GaussLegendre.Eight.Mean(x => media.ConstantSurface(x, clock), a, b);
                }
            }

            share[i] = sum / (bottom - top);
        }
    }

    private (double Excess, double Background) Linear(double[] share)
    {
        var n = share.Length;
        var (meanShare, meanContent) = _held is { } held
            ? (0, held)
            : (share.Average(), Enumerable.Range(0, n).Average(Content));
        double Slope(double s, double c)
        {
            var (ss, sy) = (0.0, 0.0);
            for (var i = 0; i < n; i++)
            {
                ss += (share[i] - s) * (share[i] - s);
                sy += (share[i] - s) * (Content(i) - c);
            }

            return ss > 0 ? Math.Max(0, sy / ss) : 0;
        }

        var excess = Slope(meanShare, meanContent);
        if (_held is { } fixedContent)
        {
            return (excess, fixedContent);
        }

        var background = meanContent - (excess * meanShare);
        return background >= 0 ? (excess, background) : (Slope(0, 0), 0);
    }

    private double Content(int i) => _slices[i].Content.KilogramsPerCubicMetre;
}
