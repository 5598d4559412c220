namespace DeckLife.Projection;

/// <summary>The deck's condition at one time: fractions of the area with their bands.</summary>
/// <param name="TimeYr">Time from the survey [yr].</param>
/// <param name="Damaged">Damaged and not repaired at that time.</param>
/// <param name="DamagedOrPatched">Damaged, or patched since the last full-width overlay.</param>
/// <param name="Initiated">Corrosion initiated.</param>
public sealed record CurvePoint(
    double TimeYr,
    PercentileBand Damaged,
    PercentileBand DamagedOrPatched,
    PercentileBand Initiated
);
