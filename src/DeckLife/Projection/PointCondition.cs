namespace DeckLife.Projection;

/// <summary>Condition of the bar at one place.</summary>
public enum PointCondition
{
    /// <summary>The content at the bar has not reached the threshold.</summary>
    Passive,

    /// <summary>Corrosion goes on; nothing shows yet.</summary>
    Active,

    /// <summary>The concrete over the bar is damaged.</summary>
    Damaged,
}
