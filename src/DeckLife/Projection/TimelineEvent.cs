namespace DeckLife.Projection;

/// <summary>What an intervention does at one place.</summary>
public sealed record TimelineEvent
{
    /// <summary>When, from the survey [yr].</summary>
    public required double TimeYr { get; init; }

    /// <summary>Depth taken off at the place [mm].</summary>
    public required double RemovedMm { get; init; }

    /// <summary>Thickness placed at the place [mm].</summary>
    public required double PlacedMm { get; init; }

    /// <summary>What is placed, a thin protection included; absent: nothing, or concrete like the deck's in a patch.</summary>
    public string? Material { get; init; }

    /// <summary>Whether the place was damaged and is repaired.</summary>
    public required bool IsRepaired { get; init; }

    /// <summary>Whether removal exposes more than half of the bar and goes on to under it.</summary>
    public required bool IsUndercut { get; init; }

    /// <summary>Content at the bar just before [kg/m³].</summary>
    public required double ContentBeforeKgPerM3 { get; init; }

    /// <summary>Content at the bar just after [kg/m³].</summary>
    public required double ContentAfterKgPerM3 { get; init; }
}
