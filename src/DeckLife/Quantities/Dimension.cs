namespace DeckLife.Quantities;

/// <summary>What a unit measures.</summary>
public enum Dimension
{
    /// <summary>Depth, cover, thickness, position; canonical mm.</summary>
    Length,

    /// <summary>Age or span of time; canonical yr.</summary>
    Time,

    /// <summary>Diffusion coefficient; canonical mm²/yr.</summary>
    Diffusion,

    /// <summary>Chloride content on any basis; canonical kg/m³ for the volume basis, a mass fraction else.</summary>
    Chloride,

    /// <summary>Electrical potential; canonical mV.</summary>
    Potential,

    /// <summary>Area; canonical m².</summary>
    Area,

    /// <summary>Volume; canonical m³.</summary>
    Volume,

    /// <summary>Mass by volume: concrete density, binder content; canonical kg/m³.</summary>
    Density,

    /// <summary>Temperature; canonical °C.</summary>
    Temperature,

    /// <summary>Load on an area; canonical kN/m².</summary>
    SurfaceLoad,
}
