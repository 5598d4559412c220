namespace DeckLife.Studies;

/// <summary>What a study computes of its section.</summary>
public enum StudyOutputKind
{
    /// <summary>Chloride content at the bar at an age [kg/m³].</summary>
    ContentAtBar,

    /// <summary>Time to initiation [yr], or not within the horizon.</summary>
    TimeToInitiation,

    /// <summary>Whether corrosion has started by an age (1 or 0).</summary>
    InitiatedBy,
}
