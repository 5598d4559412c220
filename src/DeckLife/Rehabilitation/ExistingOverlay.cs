using DeckLife.Quantities;

namespace DeckLife.Rehabilitation;

/// <summary>An overlay that the deck already wears at the survey.</summary>
public sealed record ExistingOverlay
{
    /// <summary>What it is, in words; absent: not stated.</summary>
    public string? Material { get; init; }

    /// <summary>Its thickness.</summary>
    public required Depth Thickness { get; init; }

    /// <summary>Its age at the survey.</summary>
    public required Age AgeAtSurvey { get; init; }

    /// <summary>Depth of old concrete that came off before it was placed; absent: not stated.</summary>
    public Depth? RemovedBefore { get; init; }
}
