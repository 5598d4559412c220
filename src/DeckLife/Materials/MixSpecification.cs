using DeckLife.Quantities;

namespace DeckLife.Materials;

/// <summary>The limits of a specification for one overlay material, as the agency filled them in; what is absent is not checked, and said so.</summary>
public sealed record MixSpecification
{
    /// <summary>The material that it is for.</summary>
    public required string Material { get; init; }

    /// <summary>Which specification, with its section and edition.</summary>
    public required string Source { get; init; }

    /// <summary>Greatest ratio of water to cementitious material by mass.</summary>
    public double? GreatestWaterCementitiousRatio { get; init; }

    /// <summary>Least thickness.</summary>
    public Depth? LeastThickness { get; init; }

    /// <summary>Greatest thickness.</summary>
    public Depth? GreatestThickness { get; init; }
}
