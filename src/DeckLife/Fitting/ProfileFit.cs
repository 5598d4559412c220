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

    /// <summary>Degrees of freedom: slices used whose content was measured (not those below detection) less free parameters.</summary>
    public int DegreesOfFreedom { get; init; }

    /// <summary>The choices that the fit was made with.</summary>
    public ProfileFitOptions Options { get; init; } = new();

    /// <summary>Covariance of (Cs, ln D, C0), 3 × 3 by rows; empty when refused. The row of a held or bounded C0 is 0.</summary>
    public ImmutableArray<double> Covariance { get; init; } = [];

    /// <summary>Correlation of the estimates of Cs and ln D.</summary>
    public double? Correlation { get; init; }

    /// <summary>Coefficient of determination. It says little: read it beside the limits and the residuals only.</summary>
    public double? RSquared { get; init; }

    /// <summary>The interval that D was sought in, lower end [mm²/yr].</summary>
    public double SearchLow { get; init; }

    /// <summary>The interval that D was sought in, upper end [mm²/yr].</summary>
    public double SearchHigh { get; init; }

    /// <summary>What the errors mean, and how the limits were got, in words.</summary>
    public string? Method { get; init; }

    /// <summary>The slices used, with the fitted contents; empty when refused.</summary>
    public ImmutableArray<FittedSlice> Slices { get; init; } = [];

    /// <summary>The fit without each slice in turn.</summary>
    public ImmutableArray<SliceInfluence> Influence { get; init; } = [];

    /// <summary>Slices left out.</summary>
    public ImmutableArray<ExcludedSlice> Excluded { get; init; } = [];

    /// <summary>What a reviewer should know, each with its code and numbers.</summary>
    public ImmutableArray<Diagnostic> Flags { get; init; } = [];

    /// <summary>The fit with the excluded slices back in, where the skin rule left any out.</summary>
    public ProfileFit? Alternative { get; init; }

    /// <summary>Of a fit with constant weights, the one with errors in proportion to the content; absent where it was not asked for or does not exist.</summary>
    public ProfileFit? OtherWeights { get; init; }
}
