namespace DeckLife.Rehabilitation;

/// <summary>How deep removal has to go at a bar.</summary>
/// <remarks>
/// Where more than half of a bar is exposed, concrete is taken out to 3/4 in clear under it, so that the new material can
/// grip it. Source: common practice of North American repair specifications; the local one decides.
/// </remarks>
public static class BarRule
{
    /// <summary>Clear depth under an undercut bar [mm]: 3/4 in.</summary>
    public const double ClearUnderBarMm = 19.05;

    /// <summary>Whether removal to a depth exposes more than half of a bar.</summary>
    /// <param name="removalMm">Depth of removal [mm].</param>
    /// <param name="coverMm">Cover over the bar [mm].</param>
    /// <param name="barDiameterMm">Diameter of the bar [mm].</param>
    public static bool IsUndercut(double removalMm, double coverMm, double barDiameterMm) =>
        removalMm > coverMm + 0.5 * barDiameterMm;

    /// <summary>Depth of removal at an undercut bar [mm].</summary>
    /// <param name="plannedMm">Planned depth [mm].</param>
    /// <param name="coverMm">Cover over the bar [mm].</param>
    /// <param name="barDiameterMm">Diameter of the bar [mm].</param>
    public static double UndercutDepthMm(double plannedMm, double coverMm, double barDiameterMm) =>
        Math.Max(plannedMm, coverMm + barDiameterMm + ClearUnderBarMm);
}
