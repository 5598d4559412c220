using DeckLife.Diagnostics;

namespace DeckLife.Materials;

/// <summary>Overlays of a deck's strategies against the specifications that the deck states.</summary>
internal static class MixFlags
{
    /// <summary>What is beyond a limit, and what a limit can't be checked for.</summary>
    public static IEnumerable<Diagnostic> For(Deck deck)
    {
        foreach (var strategy in deck.Strategies)
        {
            foreach (var overlay in strategy.Interventions.Select(i => i.Overlay))
            {
                if (
                    overlay is null
                    || deck.Materials.FirstOrDefault(m => m.Name == overlay.Material)
                        is not { Specification: { } specification } material
                )
                {
                    continue;
                }

                foreach (
                    var finding in MixCheck.Compare(
                        specification,
                        material.WaterCementitiousRatio,
                        overlay.Thickness
                    )
                )
                {
                    if (finding.Outcome == MixOutcome.BeyondLimit)
                    {
                        yield return DiagnosticCatalogue.MixBeyondSpecification.With(
                            strategy.Name,
                            material.Name,
                            finding.Property,
                            finding.Value!.Value,
                            finding.Limit!.Value,
                            specification.Source
                        );
                    }
                    else if (finding.Outcome == MixOutcome.ValueNotStated)
                    {
                        yield return DiagnosticCatalogue.MixNotStated.With(
                            strategy.Name,
                            material.Name,
                            finding.Property,
                            specification.Source
                        );
                    }
                }
            }
        }
    }
}
