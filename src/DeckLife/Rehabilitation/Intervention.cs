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
}
