using DeckLife.Population;

namespace DeckLife.Network.Decks;

/// <summary>What is taken of decks without cores: the spread over decks of their kind.</summary>
public sealed record ExposureClass
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Surface content [kg/m³] over places and decks of the kind.</summary>
    public required UncertainValue SurfaceChloride { get; init; }

    /// <summary>Apparent diffusion coefficient [mm²/yr] at the decks' own ages, over places and decks of the kind.</summary>
    public required UncertainValue DiffusionCoefficient { get; init; }

    /// <summary>Share of each spread (variance of the logarithm) that lies within a deck; the rest is not known about the deck as a whole.</summary>
    public double WithinDeckShare { get; init; } = 0.5;

    /// <summary>Background content [kg/m³].</summary>
    public double BackgroundKgPerM3 { get; init; }

    /// <summary>Where the numbers come from.</summary>
    public required string Source { get; init; }
}
