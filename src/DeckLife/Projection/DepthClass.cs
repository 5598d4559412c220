namespace DeckLife.Projection;

/// <summary>One depth of removal and the share of the area that it is for.</summary>
/// <param name="DepthMm">Depth [mm].</param>
/// <param name="Fraction">Share of the area.</param>
public readonly record struct DepthClass(double DepthMm, double Fraction);
