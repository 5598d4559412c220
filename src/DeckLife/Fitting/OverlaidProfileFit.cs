using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Profiles;
using DeckLife.Quantities;

namespace DeckLife.Fitting;

/// <summary>The fit of a core through an overlay into the old deck: one surface content, one diffusion coefficient a layer.</summary>
public sealed record OverlaidProfileFit
{
    /// <summary>The core; its exposure age counts from the overlay's placement.</summary>
    public required CoreProfile Profile { get; init; }

    /// <summary>Exposure before the overlay was placed [yr]; 0 where not told, or where the core is older than the overlay.</summary>
    public double YearsBeforeOverlay { get; init; }

    /// <summary>Thickness of the overlay.</summary>
    public required Depth OverlayThickness { get; init; }

    /// <summary>How far the estimates can be used.</summary>
    public required FitStatus Status { get; init; }

    /// <summary>Why the status is not <see cref="FitStatus.Fitted"/>.</summary>
    public string? Reason { get; init; }

    /// <summary>Surface content of the overlay [kg/m³]; absent when refused.</summary>
    public Estimate? SurfaceChloride { get; init; }

    /// <summary>Apparent diffusion coefficient of the overlay [mm²/yr]; absent when refused.</summary>
    public Estimate? OverlayDiffusion { get; init; }

    /// <summary>Apparent diffusion coefficient of the deck under it [mm²/yr]; absent when refused.</summary>
    public Estimate? DeckDiffusion { get; init; }

    /// <summary>
    /// Surface content of the deck before the overlay, as the salt left under it shows it [kg/m³]; absent when refused or where the deck was taken
    /// as clean.
    /// </summary>
    public Estimate? OldSurfaceChloride { get; init; }

    /// <summary>Number of slices.</summary>
    public int Points { get; init; }

    /// <summary>The slices with the fitted contents; empty when refused.</summary>
    public ImmutableArray<FittedSlice> Slices { get; init; } = [];

    /// <summary>Content of both layers at the overlay's placement [kg/m³]; absent when refused.</summary>
    public Estimate? Background { get; init; }

    /// <summary>Standard deviation of the residuals [kg/m³].</summary>
    public double? ResidualStandardDeviation { get; init; }

    /// <summary>Slices used less free parameters.</summary>
    public int DegreesOfFreedom { get; init; }

    /// <summary>What a reviewer should know, each with its code and numbers.</summary>
    public ImmutableArray<Diagnostic> Flags { get; init; } = [];
}
