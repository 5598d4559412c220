using DeckLife.Population;

namespace DeckLife.Propagation;

/// <summary>The time from initiation to damage at the surface.</summary>
public sealed record PropagationInput
{
    /// <summary>The period [yr] with its spread.</summary>
    public required UncertainValue Period { get; init; }

    /// <summary>Share of the spread's variance that varies within the deck, 0 to 1; the rest is ignorance. Where not stated: 0.</summary>
    public double WithinDeckShare { get; init; }

    /// <summary>Where the value comes from.</summary>
    public required string Source { get; init; }
}
