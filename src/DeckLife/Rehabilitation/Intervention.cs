using DeckLife.Quantities;

namespace DeckLife.Rehabilitation;

/// <summary>One dated action on the deck; time counts from the survey.</summary>
public sealed record Intervention
{
    /// <summary>When, from the survey date.</summary>
    public required Age At { get; init; }

    /// <summary>What comes off; absent: nothing.</summary>
    public RemovalRule? Removal { get; init; }

    /// <summary>What goes on; absent: nothing.</summary>
    public OverlayPlacement? Overlay { get; init; }

    /// <summary>A thin protection that goes on last; absent: none.</summary>
    public ProtectionPlacement? Protection { get; init; }

    /// <summary>Whether it waits for the overlay in place to reach the end of its own life; <see cref="At"/> is then the earliest date.</summary>
    public bool WhenOverlayEnds { get; init; }

    /// <summary>Whether damaged places are repaired; absent: they are, unless nothing is removed and nothing but a sealer goes on.</summary>
    public bool? RepairsDamage { get; init; }
}
