using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Numerics.Sampling;
using DeckLife.Population;

namespace DeckLife.Projection;

/// <summary>The covers and diffusion coefficients that tables of sections reach over, and how fine they are.</summary>
/// <param name="CoverMm">Least and largest cover [mm].</param>
/// <param name="LnOld">Least and largest ln of the deck's own coefficient [mm²/yr].</param>
/// <param name="LnMaterials">Least and largest ln of each material's coefficient [mm²/yr], in the deck's order; equal where it is known.</param>
/// <param name="Nodes">Nodes over the cover, the deck's coefficient, and the material's.</param>
internal sealed record SectionDomain(
    (double Low, double High) CoverMm,
    (double Low, double High) LnOld,
    ImmutableArray<(double Low, double High)> LnMaterials,
    (int Cover, int Old, int Material) Nodes
)
{
    // Share of the points on each side that a table does not reach: those few are read at its edge. Halved or doubled the range grows or shrinks by 5 %.
    private const double Beyond = 1e-4;

    // Sections read of one layout, draws times points. By count: half a dozen tables of 385 nodes with two or three responses are some 6000 sections
    // to solve, and a projection asks for each point two times or more (repaired and not, before and after a work). With fewer tables don't pay.
    private const int LeastUses = 3000;

    // From here on the 21 000 sections of the finer nodes are a third of those asked for, at the most. Measured: see SectionTable.MostError.
    private const int ManyUses = 60_000;

    /// <summary>The domain of a deck; nothing where so few sections are asked for that tables don't pay.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="fit">What its cores say.</param>
    /// <param name="cover">What its cover readings say.</param>
    public static SectionDomain? Of(Deck deck, DeckFit fit, CoverSurvey cover)
    {
        var uses = (long)deck.Analysis.Draws * deck.Analysis.Points;
        return uses < LeastUses
            ? null
            : new(
                Covers(cover),
                Old(fit),
                [
                    .. deck.Materials.Select(m =>
                        Range(PointDistribution.WithinDeck(m.DiffusionCoefficient, 1, 0))
                    ),
                ],
                uses < ManyUses ? (11, 7, 5) : (14, 11, 9)
            );
    }

    private static (double, double) Covers(CoverSurvey cover)
    {
        var covers = cover.With(null, 1.1 * cover.StandardDeviationMm);
        return (Math.Max(1, covers.Quantile(Beyond)), covers.Quantile(1 - Beyond));
    }

    private static (double, double) Range(PointDistribution values) =>
        values.IsExact
            ? (Math.Log(values.Quantile(0.5)), Math.Log(values.Quantile(0.5)))
            : (
                Math.Log(Math.Max(values.Quantile(Beyond), 1e-3 * values.Quantile(0.5))),
                Math.Log(values.Quantile(1 - Beyond))
            );

    // Over all that the cores leave possible, each with its own spread over the deck.
    private static (double, double) Old(DeckFit fit)
    {
        if (fit.Draws.IsEmpty)
        {
            var error =
                (fit.DiffusionCoefficient.StandardError ?? 0) / fit.DiffusionCoefficient.Value;
            var spread = Math.Max(0, fit.SdLnDiffusionCoefficient.Value);
            return Range(
                PointDistribution.Lognormal(
                    Math.Log(fit.DiffusionCoefficient.Value),
                    Math.Sqrt(error * error + spread * spread)
                )
            );
        }

        return (Quantile(fit.Draws, Beyond), Quantile(fit.Draws, 1 - Beyond));
    }

    // Of the mixture of all draws' normals.
    private static double Quantile(ImmutableArray<DeckHyperDraw> draws, double probability)
    {
        var score = NormalQuantile.At(probability);
        double Own(DeckHyperDraw d) =>
            d.MeanLnDiffusionCoefficient + score * d.SdLnDiffusionCoefficient;
        double low = draws.Min(Own),
            high = draws.Max(Own);
        while (high - low > 1e-3)
        {
            var middle = 0.5 * (low + high);
            var share = draws.Average(d =>
                NormalQuantile.Probability(
                    (middle - d.MeanLnDiffusionCoefficient)
                        / Math.Max(d.SdLnDiffusionCoefficient, 1e-6)
                )
            );
            (low, high) = share < probability ? (middle, high) : (low, middle);
        }

        return high;
    }
}
