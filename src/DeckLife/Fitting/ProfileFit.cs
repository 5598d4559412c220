using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>The fit of one core: apparent diffusion coefficient, surface content and background, or the reason why not.</summary>
public sealed record ProfileFit
{
    /// <summary>The profile that was fitted.</summary>
    public required CoreProfile Profile { get; init; }

    /// <summary>How far the estimates can be used.</summary>
    public required FitStatus Status { get; init; }

    /// <summary>Why the status is not <see cref="FitStatus.Fitted"/>.</summary>
    public string? Reason { get; init; }

    /// <summary>Number of slices used.</summary>
    public int Points { get; init; }

    /// <summary>Surface content Cs [kg/m³]; absent when refused.</summary>
    public Estimate? SurfaceChloride { get; init; }

    /// <summary>Apparent diffusion coefficient over the exposure [mm²/yr]; absent when refused.</summary>
    public Estimate? DiffusionCoefficient { get; init; }

    /// <summary>Background content C0 [kg/m³]; absent when refused.</summary>
    public Estimate? Background { get; init; }

    /// <summary>Standard deviation of the residuals [kg/m³], where degrees of freedom are left.</summary>
    public double? ResidualStandardDeviation { get; init; }

    /// <summary>Degrees of freedom: slices used less free parameters.</summary>
    public int DegreesOfFreedom { get; init; }

    /// <summary>Slices left out.</summary>
    public ImmutableArray<ExcludedSlice> Excluded { get; init; } = [];

    /// <summary>What a reviewer should know, each with its code and numbers.</summary>
    public ImmutableArray<Diagnostic> Flags { get; init; } = [];

    /// <summary>The fit with the excluded slices back in, where the skin rule left any out.</summary>
    public ProfileFit? Alternative { get; init; }
}
