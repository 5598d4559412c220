namespace DeckLife.Propagation;

/// <summary>What the concrete over a bar and the rust around it are, for models of cover cracking.</summary>
/// <remarks>The values where not stated are those used with Liu and Weyers (1998), from memory: state the deck's own.</remarks>
public sealed record CrackingConcrete
{
    /// <summary>Tensile strength ft [MPa].</summary>
    public double TensileStrengthMpa { get; init; } = 3.3;

    /// <summary>Young's modulus Ec [GPa].</summary>
    public double YoungsModulusGpa { get; init; } = 27;

    /// <summary>Creep coefficient φ; the effective modulus is Ec/(1 + φ).</summary>
    public double CreepCoefficient { get; init; } = 2.0;

    /// <summary>Poisson's ratio ν.</summary>
    public double PoissonsRatio { get; init; } = 0.18;

    /// <summary>Thickness of the porous zone around the bar d0 [µm].</summary>
    public double PorousZoneUm { get; init; } = 12.5;

    /// <summary>Density of the rust [kg/m³].</summary>
    public double RustDensityKgPerM3 { get; init; } = 3600;

    /// <summary>Density of the steel [kg/m³].</summary>
    public double SteelDensityKgPerM3 { get; init; } = 7850;

    /// <summary>Mass of steel in a mass of rust α: 0.523 for Fe(OH)3, 0.622 for Fe(OH)2.</summary>
    public double SteelInRust { get; init; } = 0.57;

    /// <summary>Effective modulus [MPa].</summary>
    internal double EffectiveModulusMpa => 1000 * YoungsModulusGpa / (1 + CreepCoefficient);
}
