using System.Collections.Immutable;
using DeckLife.Projection;
using MathNet.Numerics;

namespace DeckLife.Population;

/// <summary>A salted underside in one draw: the slab that salt enters from both faces.</summary>
/// <param name="SectionMm">Thickness of the slab, from the surface that depths count from [mm].</param>
/// <param name="SurfaceChloride">Content held at the underside since the first salt [kg/m³].</param>
public sealed record SoffitFace(double SectionMm, double SurfaceChloride)
{
    /// <summary>
    /// The images of both sums: erfc(([Sections] L + [Covers] x)/2√s) with a sign, times the rise of the top's content or of the underside's.
    /// </summary>
    internal static ImmutableArray<(
        int Sections,
        int Covers,
        int Sign,
        bool IsTop
    )> Images { get; } =
    [
        (0, 1, 1, true),
        (2, -1, -1, true),
        (2, 1, 1, true),
        (1, -1, 1, false),
        (1, 1, -1, false),
        (3, -1, 1, false),
    ];

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
    /// + (Cb − C0) Σ [erfc((2nL + L − x)/2√s) − erfc((2nL + L + x)/2√s)], n from 0; the first three terms of each sum. What is left out is at most
    /// 2.3e-5 of the contents while 2√s is at most L, 7e-4 up to 1.25 L, 5e-3 up to 1.5 L and 3.4e-2 up to 2 L, at the face opposite the salted one (in
    /// the middle of the slab 1e-6, 8e-5, 1e-3 and 1.2e-2); computed with 400 terms. Source: Crank, The Mathematics of Diffusion, ch. 2 and 4 (reflection at two faces).
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
        var content = backgroundKgPerM3;
        foreach (var (sections, covers, sign, isTop) in Images)
        {
            content +=
                sign
                * ((isTop ? topKgPerM3 : SurfaceChloride) - backgroundKgPerM3)
                * SpecialFunctions.Erfc(sections * b + covers * x);
        }

        return content;
    }
}
