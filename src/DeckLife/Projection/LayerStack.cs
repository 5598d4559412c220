using DeckLife.Population;

namespace DeckLife.Projection;

/// <summary>What lies on a deck, for its weight: layers of known density over the deck's concrete, mean over the points.</summary>
internal sealed class LayerStack
{
    private readonly double[][] layersMm;
    private readonly List<double> densities = [];
    private readonly double deckDensity;
    private readonly double overlayAboveMm;
    private double protectionKgPerM2;
    private bool isKnown;

    /// <summary>Starts with the deck of the survey.</summary>
    public LayerStack(Deck deck, AreaPoints points)
    {
        deckDensity = deck.ConcreteDensityKgPerM3 ?? 0;
        isKnown = deckDensity > 0;
        overlayAboveMm = SurveyedSection.Of(deck).AboveMm;
        layersMm = new double[points.Count][];
        for (var i = 0; i < layersMm.Length; i++)
        {
            layersMm[i] = [];
        }
    }

    /// <summary>Load added since the survey [kg/m²], mean over the points; 0 where a density is not known.</summary>
    public double AddedKgPerM2 { get; private set; }

    /// <summary>Takes in an intervention, repairs left out: they are filled to the same grade.</summary>
    public void Apply(WorkAtPoints work)
    {
        var step = work.Step;
        var density = step.Material?.DensityKgPerM3;
        isKnown &= step.Material is null || density is not null;
        densities.Add(density ?? 0);
        var added = 0.0;
        for (var i = 0; i < layersMm.Length; i++)
        {
            var left = work.DepthMm[i];
            var rest = layersMm[i];
            for (var layer = rest.Length - 1; layer >= 0; layer--)
            {
                var off = Math.Min(left, rest[layer]);
                rest[layer] -= off;
                left -= off;
                added -= off * densities[layer];
            }

            added += work.LayerMm * (density ?? 0) - left * deckDensity;
            layersMm[i] = [.. rest, work.LayerMm];
        }

        var above =
            densities.Count == 1 && step.ChangesSection
                ? Math.Min(overlayAboveMm, step.LeastDepthMm) * deckDensity
                : 0;
        total += added / layersMm.Length - above;
        if (step.ChangesSection)
        {
            protectionKgPerM2 = step.Protection?.DensityKgPerM3 * step.ProtectionThicknessMm ?? 0;
        }

        AddedKgPerM2 = isKnown ? (total + protectionKgPerM2) / 1000 : 0;
    }

    private double total;
}
