namespace DeckLife.Studies;

/// <summary>What is fixed about the section of a study.</summary>
public sealed record SectionSettings
{
    /// <summary>The ageing law of the concrete.</summary>
    public SectionAgeing Ageing { get; init; }

    /// <summary>Age at which the diffusion coefficient of the concrete holds [yr].</summary>
    public double ReferenceAgeYr { get; init; } = 28 / 365.25;

    /// <summary>Temperature at which the diffusion coefficients hold [°C].</summary>
    public double ReferenceTemperatureC { get; init; } = 20;

    /// <summary>Age at which old concrete is removed and an overlay placed [yr]; absent: never.</summary>
    public double? OverlayAgeYr { get; init; }

    /// <summary>Total thickness of the slab before any removal [mm]; needed with an overlay.</summary>
    public double SlabThicknessMm { get; init; } = 200;

    /// <summary>Ageing exponent of the overlay (instantaneous law).</summary>
    public double OverlayAgeingExponent { get; init; }

    /// <summary>Age of the overlay at which its diffusion coefficient holds [yr], and at which it is first salted.</summary>
    public double OverlayReferenceAgeYr { get; init; } = 28 / 365.25;

    /// <summary>Chloride content of the overlay when placed [kg/m³].</summary>
    public double OverlayInitialChloride { get; init; }
}
