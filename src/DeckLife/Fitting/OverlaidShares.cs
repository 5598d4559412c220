using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.Quadrature;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>What each slice of an overlaid core holds of the salt through the overlay and of the salt that lay under it.</summary>
internal sealed class OverlaidShares
{
    // Panels of eight points, each narrow against what it integrates: errors below 1e-8 of the surface content.
    private const double PanelWidth = 0.7;
    private const int MostPanels = 40;
    private const double Beyond = 6;

    private readonly ChlorideSlice[] _slices;
    private readonly double _thicknessMm;
    private readonly double _years;
    private readonly OldDeckSalt? _old;

    public OverlaidShares(
        ChlorideSlice[] slices,
        double thicknessMm,
        double years,
        OldDeckSalt? old
    ) => (_slices, _thicknessMm, _years, _old) = (slices, thicknessMm, years, old);

    /// <summary>Number of slices.</summary>
    public int Count => _slices.Length;

    /// <summary>Whether salt from before the overlay is part of the model.</summary>
    public bool HasOldSalt => _old is not null;

    /// <summary>Measured content of a slice [kg/m³].</summary>
    public double Content(int i) => _slices[i].Content.KilogramsPerCubicMetre;

    /// <summary>Shares of (Cs - C0): mean over the slice, each side of the interface by itself, since the profile has a kink there.</summary>
    public void New(double lnOverlay, double lnDeck, Span<double> share)
    {
        var media = new TwoMedia(_thicknessMm, Math.Exp(lnDeck - lnOverlay));
        var clock = Math.Exp(lnOverlay) * _years;
        for (var i = 0; i < _slices.Length; i++)
        {
            var (top, bottom) = (_slices[i].Top.Millimetres, _slices[i].Bottom.Millimetres);
            if (top >= bottom)
            {
                share[i] = media.ConstantSurface(top, clock);
                continue;
            }

            var middle = Math.Clamp(_thicknessMm, top, bottom);
            share[i] = (Part(top, middle) + Part(middle, bottom)) / (bottom - top);
        }

        double Part(double a, double b) =>
            b > a
                ? (b - a) * GaussLegendre.Eight.Mean(x => media.ConstantSurface(x, clock), a, b)
                : 0;
    }

    /// <summary>Shares of (old surface content - C0); 0 where that is no part of the model.</summary>
    public void Old(double lnOverlay, double lnDeck, Span<double> share)
    {
        share.Clear();
        if (_old is not { } old)
        {
            return;
        }

        var d = Math.Exp(lnDeck);
        var spread = new TwoMediaSpread(_thicknessMm, Math.Exp(lnDeck - lnOverlay), d * _years);
        var oldLength = 2 * Math.Sqrt(d * old.Exposure.Years);
        var end = Math.Min(
            (Beyond * oldLength) - old.Removed.Millimetres,
            _slices[^1].Bottom.Millimetres - _thicknessMm + (Beyond * 2 * Math.Sqrt(d * _years))
        );
        if (!(end > 0))
        {
            return;
        }

        var scale = Math.Min(oldLength, 2 * Math.Sqrt(d * _years));
        var panels = (int)Math.Clamp(Math.Ceiling(end / (PanelWidth * scale)), 1, MostPanels);
        for (var k = 0; k < panels; k++)
        {
            Panel(end * k / panels, end * (k + 1) / panels, spread, oldLength, share);
        }
    }

    private void Panel(
        double from,
        double to,
        TwoMediaSpread spread,
        double oldLength,
        Span<double> share
    )
    {
        var rule = GaussLegendre.Eight;
        var half = 0.5 * (to - from);
        for (var k = 0; k < rule.Nodes.Length; k++)
        {
            var eta = from + (half * (1 + rule.Nodes[k]));
            var held =
                half
                * rule.Weights[k]
                * HalfSpace.ConstantSurface(
                    eta + _old!.Removed.Millimetres,
                    0.25 * oldLength * oldLength
                );
            for (var i = 0; i < _slices.Length; i++)
            {
                var (top, bottom) = (_slices[i].Top.Millimetres, _slices[i].Bottom.Millimetres);
                // A content at a point: a slice too thin to matter.
                share[i] +=
                    held
                    * spread.SliceMean(eta, top, Math.Max(bottom, top + (1e-4 * _thicknessMm)));
            }
        }
    }
}
