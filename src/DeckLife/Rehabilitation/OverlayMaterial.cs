using DeckLife.Materials;
using DeckLife.Population;
using DeckLife.Quantities;

namespace DeckLife.Rehabilitation;

/// <summary>A material that can be placed on a deck, with what is known about its resistance to chloride.</summary>
public sealed record OverlayMaterial
{
    /// <summary>Its name in the deck's strategies.</summary>
    public required string Name { get; init; }

    /// <summary>Instantaneous diffusion coefficient at <see cref="ReferenceAge"/> [mm²/yr] with its spread.</summary>
    public required UncertainValue DiffusionCoefficient { get; init; }

    /// <summary>Share of the spread's variance that varies within one placement, 0 to 1; the rest is ignorance. Where not stated: 0.</summary>
    public double WithinDeckShare { get; init; }

    /// <summary>Ageing exponent m of D(t) = Dref (tref/t)^m; 0 for no ageing.</summary>
    public double AgeingExponent { get; init; }

    /// <summary>Age at which <see cref="DiffusionCoefficient"/> holds.</summary>
    public required Age ReferenceAge { get; init; }

    /// <summary>Age of the material when it is first exposed to salt.</summary>
    public required Age AgeAtExposure { get; init; }

    /// <summary>Age after which D stays constant; absent: ageing never fades.</summary>
    public Age? ConstantAfter { get; init; }

    /// <summary>Chloride in the new material [kg/m³].</summary>
    public ChlorideContent InitialChloride { get; init; }

    /// <summary>Its own life by bond, cracking and wear [yr] with its spread; absent: not limited.</summary>
    public UncertainValue? ServiceLife { get; init; }

    /// <summary>Share of the area where it is cracked from the start, 0 to 1.</summary>
    public double CrackedFraction { get; init; }

    /// <summary>Diffusion coefficient where it is cracked, relative to where it is not; at least 1.</summary>
    public double CrackedDiffusionFactor { get; init; } = 1;

    /// <summary>Least thickness of its specification; absent: none stated.</summary>
    public Depth? LeastThickness { get; init; }

    /// <summary>Density [kg/m³], for the added dead load.</summary>
    public double? DensityKgPerM3 { get; init; }

    /// <summary>Water by cementitious material, by mass; absent: not stated.</summary>
    public double? WaterCementitiousRatio { get; init; }

    /// <summary>The limits of the agency's specification; absent: none is checked.</summary>
    public MixSpecification? Specification { get; init; }

    /// <summary>Where the values come from.</summary>
    public required string Source { get; init; }
}
