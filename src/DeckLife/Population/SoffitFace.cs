using DeckLife.Projection;
using MathNet.Numerics;

namespace DeckLife.Population;

/// <summary>A salted underside in one draw: the slab that salt enters from both faces.</summary>
/// <param name="SectionMm">Thickness of the slab, from the surface that depths count from [mm].</param>
/// <param name="SurfaceChloride">Content held at the underside since the first salt [kg/m³].</param>
public sealed record SoffitFace(double SectionMm, double SurfaceChloride)
{
    /// <summary>The underside of a deck; nothing where it is sealed or not stated.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="score">Standard score of what is not known of its content.</param>
    public static SoffitFace? Of(Deck deck, double score)
    {
        ArgumentNullException.ThrowIfNull(deck);
        return deck.Soffit?.SurfaceChloride is { } content
            ? new(
                SurveyedSection.Of(deck).ThicknessMm,
                PointDistribution.WithinDeck(content, 0, score).Quantile(0.5)
            )
            : null;
    }

    /// <summary>Content in the slab, both faces held and the background everywhere at the start [kg/m³].</summary>
    /// <param name="depthMm">Depth x from the top [mm].</param>
    /// <param name="spreadMm">2 √s, s being ∫ D dt [mm]; 0: before the first salt.</param>
    /// <param name="backgroundKgPerM3">C0 [kg/m³].</param>
    /// <param name="topKgPerM3">Content held at the top [kg/m³].</param>
    /// <remarks>
    /// Equation, L the thickness: C = C0 + (Cs − C0) Σ [erfc((2nL + x)/2√s) − erfc((2(n+1)L − x)/2√s)]
    /// + (Cb − C0) Σ [erfc((2nL + L − x)/2√s) − erfc((2nL + L + x)/2√s)], n from 0; the first three terms of each sum, whose error is below 1e-5 of
    /// the contents while 2√s is at most L. Source: Crank, The Mathematics of Diffusion, ch. 2 and 4 (reflection at two faces).
    /// </remarks>
    public double Content(
        double depthMm,
        double spreadMm,
        double backgroundKgPerM3,
        double topKgPerM3
    )
    {
        if (!(spreadMm > 0))
        {
            return backgroundKgPerM3;
        }

        var (x, b) = (depthMm / spreadMm, SectionMm / spreadMm);
        return backgroundKgPerM3
            + (topKgPerM3 - backgroundKgPerM3)
                * (
                    SpecialFunctions.Erfc(x)
                    - SpecialFunctions.Erfc(2 * b - x)
                    + SpecialFunctions.Erfc(2 * b + x)
                )
            + (SurfaceChloride - backgroundKgPerM3)
                * (
                    SpecialFunctions.Erfc(b - x)
                    - SpecialFunctions.Erfc(b + x)
                    + SpecialFunctions.Erfc(3 * b - x)
                );
    }
}
