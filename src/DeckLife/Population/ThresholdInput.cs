using DeckLife.Quantities;

namespace DeckLife.Population;

/// <summary>The chloride threshold for corrosion initiation, with its spread and where it comes from.</summary>
public sealed record ThresholdInput
{
    /// <summary>Content at initiation [kg/m³] with its whole spread.</summary>
    public required UncertainValue Content { get; init; }

    /// <summary>Share of the spread's variance (of the logarithm) that varies within the deck, 0 to 1; the rest is ignorance.</summary>
    public required double WithinDeckShare { get; init; }

    /// <summary>How the chloride behind the threshold was extracted.</summary>
    public required ChlorideExtraction Extraction { get; init; }

    /// <summary>Where the value comes from.</summary>
    public required string Source { get; init; }
}
