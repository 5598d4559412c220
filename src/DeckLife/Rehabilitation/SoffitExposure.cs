using DeckLife.Population;

namespace DeckLife.Rehabilitation;

/// <summary>What the underside of the deck is exposed to.</summary>
public sealed record SoffitExposure
{
    /// <summary>Surface content at the underside since the deck's first salt [kg/m³], not known about the deck as a whole; absent: sealed, as over stay-in-place forms.</summary>
    public UncertainValue? SurfaceChloride { get; init; }

    /// <summary>Where that comes from.</summary>
    public required string Source { get; init; }
}
