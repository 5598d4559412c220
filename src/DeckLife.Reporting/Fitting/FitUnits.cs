using DeckLife.Diagnostics;
using DeckLife.Quantities;

namespace DeckLife.Reporting.Fitting;

/// <summary>The units that a fit's text is printed in, with the canonical ones beside.</summary>
/// <param name="Content">Name of the unit of chloride content.</param>
/// <param name="ContentFactor">kg/m³ in one of it.</param>
/// <param name="Diffusion">Name of the unit of D.</param>
/// <param name="DiffusionFactor">mm²/yr in one of it.</param>
public sealed record FitUnits(
    string Content,
    double ContentFactor,
    string Diffusion,
    double DiffusionFactor
)
{
    /// <summary>kg/m³ and mm²/yr.</summary>
    public static FitUnits Canonical { get; } = new("kg/m3", 1, "mm2/yr", 1);

    /// <summary>lb/yd³ and in²/yr.</summary>
    public static FitUnits UsCustomary { get; } =
        new(
            "lb/yd3",
            UnitFactors.KilogramsPerCubicMetrePerPoundPerCubicYard,
            "in2/yr",
            UnitFactors.SquareMillimetresPerSquareInch
        );

    /// <summary>The same units for the messages of a fit; depths in the unit whose square D is in.</summary>
    public MessageUnits Messages =>
        (
            Diffusion == UsCustomary.Diffusion ? MessageUnits.UsCustomary : MessageUnits.Canonical
        ) with
        {
            Content = Content,
            ContentFactor = ContentFactor,
        };
}
