namespace DeckLife.Reporting.Charts;

/// <summary>Limits around a fitted curve.</summary>
/// <param name="Name">What the limits are.</param>
/// <param name="Lower">Lower limits [kg/m³].</param>
/// <param name="Upper">Upper limits [kg/m³].</param>
internal sealed record FitBand(string Name, double[] Lower, double[] Upper);
