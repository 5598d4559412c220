namespace DeckLife.Studies;

/// <summary>What a study computes of its section or deck.</summary>
public enum StudyOutputKind
{
    /// <summary>Chloride content at the bar at an age [kg/m³].</summary>
    ContentAtBar,

    /// <summary>Time to initiation [yr], or not within the horizon.</summary>
    TimeToInitiation,

    /// <summary>Whether corrosion has started by an age (1 or 0).</summary>
    InitiatedBy,

    /// <summary>Of a deck: share of the area damaged and not repaired at a time from the survey.</summary>
    DamagedShare,

    /// <summary>Of a deck: share of the area initiated at a time from the survey.</summary>
    InitiatedShare,

    /// <summary>Of a deck: time from the survey to the end of the strategy's life [yr], or not within the horizon.</summary>
    YearOfLimit,

    /// <summary>Of a deck: present value of what the strategy costs over the horizon.</summary>
    PresentValue,
}
