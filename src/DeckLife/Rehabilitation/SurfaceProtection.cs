using DeckLife.Population;

namespace DeckLife.Rehabilitation;

/// <summary>A thin protection that can be put on a deck: no layer with a diffusion coefficient, but something that salt passes in part, for a time.</summary>
/// <remarks>Not for damp substrates or over active corrosion: what is beneath goes on as it is.</remarks>
public sealed record SurfaceProtection
{
    /// <summary>Its name in the deck's strategies.</summary>
    public required string Name { get; init; }

    /// <summary>How it works.</summary>
    public required ProtectionKind Kind { get; init; }

    /// <summary>
    /// What gets past, 0 to 1. Of a sealer: the share of the surface content that is left; of a barrier: the share of the area where it leaks, the
    /// full content standing on the concrete there.
    /// </summary>
    public required double PassingFraction { get; init; }

    /// <summary>How long it works [yr] with its spread; after that the surface is as before.</summary>
    public required UncertainValue ServiceLife { get; init; }

    /// <summary>Density [kg/m³], for the added dead load; absent: not counted.</summary>
    public double? DensityKgPerM3 { get; init; }

    /// <summary>Where the values come from.</summary>
    public required string Source { get; init; }
}
