namespace DeckLife.Studies;

/// <summary>A quantity of a section or of a deck that a study can fix or draw.</summary>
public enum StudyVariable
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

    /// <summary>Of a deck: mean cover over the deck [mm].</summary>
    CoverMean,

    /// <summary>Of a deck: standard deviation of the cover over the deck [mm].</summary>
    CoverStandardDeviation,

    /// <summary>Of a deck: median over the deck of the surface content [kg/m³].</summary>
    SurfaceChlorideMedian,

    /// <summary>Of a deck: standard deviation over the deck of the logarithm of the surface content.</summary>
    SurfaceChlorideLogDeviation,

    /// <summary>Of a deck: median over the deck of the apparent diffusion coefficient at the survey [mm²/yr].</summary>
    DiffusionCoefficientMedian,

    /// <summary>Of a deck: standard deviation over the deck of the logarithm of the diffusion coefficient.</summary>
    DiffusionCoefficientLogDeviation,

    /// <summary>Of a deck: correlation over the deck of the logarithms of surface content and diffusion coefficient.</summary>
    Correlation,

    /// <summary>Of a deck: chloride content of the deck's concrete before any salt [kg/m³].</summary>
    Background,

    /// <summary>Of a deck: mean over the deck of the threshold of initiation [kg/m³].</summary>
    ThresholdMean,

    /// <summary>Of a deck: factor on the period from initiation to damage, or on the corrosion rate where the deck's model starts from one.</summary>
    PropagationFactor,

    /// <summary>Of a deck: factor on the diffusion coefficient of the strategy's overlay.</summary>
    OverlayDiffusionFactor,

    /// <summary>Of a deck: rate at which corrosion goes on under a new overlay, relative to before.</summary>
    CorrosionRateUnderOverlay,

    /// <summary>Of a deck: shift of the normal score of every share: what the model's form gets wrong.</summary>
    ModelDiscrepancy,

    /// <summary>Of a deck: real discount rate a year, as a fraction.</summary>
    DiscountRate,

    /// <summary>Of a deck: factor on all prices but those of renewal and of what comes at the limit.</summary>
    PriceFactor,

    /// <summary>Of a deck: factor on the prices of renewal and of what comes at the limit.</summary>
    RenewalPriceFactor,

    /// <summary>Of a deck: which of the projection's own draws, that have learned from the deck's surveys, the rest starts from.</summary>
    SurveyedState,
}
