namespace DeckLife.Fitting;

/// <summary>The best linear part of an overlaid core at given diffusion coefficients.</summary>
/// <param name="Sum">Sum of squares [(kg/m³)²].</param>
/// <param name="Excess">Cs - C0 [kg/m³].</param>
/// <param name="OldExcess">Surface content of the old deck before the overlay, less C0 [kg/m³].</param>
/// <param name="Background">C0 [kg/m³].</param>
internal readonly record struct OverlaidPoint(
    double Sum,
    double Excess,
    double OldExcess,
    double Background
);
