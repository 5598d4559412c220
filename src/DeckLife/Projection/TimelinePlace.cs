using DeckLife.Fitting;
using DeckLife.Population;
using DeckLife.Quantities;

namespace DeckLife.Projection;

/// <summary>One place of a deck with everything about it known.</summary>
public sealed record TimelinePlace
{
    /// <summary>Cover over the bar at the survey, from the surface that the cores' depths count from.</summary>
    public required Depth Cover { get; init; }

    /// <summary>Surface content.</summary>
    public required ChlorideContent SurfaceChloride { get; init; }

    /// <summary>Apparent diffusion coefficient at the survey.</summary>
    public required DiffusionCoefficient Diffusion { get; init; }

    /// <summary>Background content.</summary>
    public ChlorideContent Background { get; init; }

    /// <summary>Threshold at the bar.</summary>
    public required ChlorideContent Threshold { get; init; }

    /// <summary>Time from initiation to damage at the rate of the untouched deck.</summary>
    public required Age Propagation { get; init; }

    /// <summary>The place in the middle of the deck: median covers, contents, threshold and period.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="fit">What its cores say.</param>
    /// <exception cref="ProjectionRefusedException">The deck can't be projected.</exception>
    public static TimelinePlace Middle(Deck deck, DeckFit fit)
    {
        ArgumentNullException.ThrowIfNull(deck);
        ArgumentNullException.ThrowIfNull(fit);
        var middle = DeckProjector.Centre(deck, fit).Population;
        var cover = middle.Cover.Quantile(0.5);
        var driver = middle.PropagationYr.Quantile(0.5);
        return new()
        {
            Cover = Depth.FromMillimetres(cover),
            SurfaceChloride = ChlorideContent.FromKilogramsPerCubicMetre(
                Math.Exp(middle.MeanLnSurfaceChloride)
            ),
            Diffusion = DiffusionCoefficient.FromSquareMillimetresPerYear(
                Math.Exp(middle.MeanLnDiffusionCoefficient)
            ),
            Background = ChlorideContent.FromKilogramsPerCubicMetre(middle.BackgroundKgPerM3),
            Threshold = ChlorideContent.FromKilogramsPerCubicMetre(middle.Threshold.Quantile(0.5)),
            Propagation = Age.FromYears(middle.PropagationOf?.Invoke(driver, cover) ?? driver),
        };
    }
}
