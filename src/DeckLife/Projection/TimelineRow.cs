namespace DeckLife.Projection;

/// <summary>One line of a place's timeline.</summary>
/// <param name="TimeYr">Time from the survey [yr]; negative before it.</param>
/// <param name="ContentKgPerM3">Content at the bar [kg/m³].</param>
/// <param name="HighestKgPerM3">Highest content that the bar has seen since it lies where it lies [kg/m³]: this is what initiates.</param>
/// <param name="CoverMm">Cover [mm].</param>
/// <param name="Condition">Condition of the bar.</param>
public sealed record TimelineRow(
    double TimeYr,
    double ContentKgPerM3,
    double HighestKgPerM3,
    double CoverMm,
    PointCondition Condition
);
