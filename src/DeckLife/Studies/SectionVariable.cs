namespace DeckLife.Studies;

/// <summary>A quantity of a section that a study can fix or draw.</summary>
public enum SectionVariable
{
    /// <summary>Cover to the bar [mm].</summary>
    Cover,

    /// <summary>Surface chloride content Cs [kg/m³].</summary>
    SurfaceChloride,

    /// <summary>Diffusion coefficient of the concrete D at its reference age [mm²/yr].</summary>
    DiffusionCoefficient,

    /// <summary>Initial content C0 of the concrete [kg/m³].</summary>
    InitialChloride,

    /// <summary>Threshold of initiation Ct [kg/m³].</summary>
    ChlorideThreshold,

    /// <summary>Ageing exponent m of the concrete, from 0 to below 1.</summary>
    AgeingExponent,

    /// <summary>Depth of the convection zone Δx [mm].</summary>
    ConvectionDepth,

    /// <summary>Mean temperature of the concrete [°C].</summary>
    Temperature,

    /// <summary>Activation temperature b = U/R of diffusion [K].</summary>
    ActivationTemperature,

    /// <summary>Depth of old concrete taken off before the overlay [mm].</summary>
    RemovalDepth,

    /// <summary>Thickness of the overlay [mm].</summary>
    OverlayThickness,

    /// <summary>Diffusion coefficient of the overlay at its reference age [mm²/yr].</summary>
    OverlayDiffusionCoefficient,
}
