namespace DeckLife.Fitting;

/// <summary>One draw of what is known about a deck's cores: the population's parameters, not a core's.</summary>
/// <param name="MeanLnSurfaceChloride">Mean over cores of ln(Cs / (kg/m³)).</param>
/// <param name="MeanLnDiffusionCoefficient">Mean over cores of ln(D / (mm²/yr)), D apparent at the deck's reference exposure age.</param>
/// <param name="SdLnSurfaceChloride">Standard deviation between cores of ln Cs.</param>
/// <param name="SdLnDiffusionCoefficient">Standard deviation between cores of ln D.</param>
/// <param name="Correlation">Correlation between cores of (ln Cs, ln D).</param>
/// <param name="BackgroundKgPerM3">Background content of the deck [kg/m³].</param>
/// <param name="LabErrorSdKgPerM3">Standard deviation of the laboratory's error [kg/m³].</param>
public readonly record struct DeckHyperDraw(
    double MeanLnSurfaceChloride,
    double MeanLnDiffusionCoefficient,
    double SdLnSurfaceChloride,
    double SdLnDiffusionCoefficient,
    double Correlation,
    double BackgroundKgPerM3,
    double LabErrorSdKgPerM3
)
{
    /// <summary>Ageing exponent of the deck's concrete (of the instantaneous coefficient); the given one where it wasn't estimated.</summary>
    public double AgeingExponent { get; init; }

    /// <summary>
    /// The laboratory's error as a share of the content, where the errors are relative; then
    /// <see cref="LabErrorSdKgPerM3"/> is that of a slice of the deck's mean content.
    /// </summary>
    public double? RelativeLabError { get; init; }
}
