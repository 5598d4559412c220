using System.Collections.Immutable;
using DeckLife.Diagnostics;

namespace DeckLife.Fitting;

/// <summary>The fit of a deck: the population that its cores come from, and how well it is known.</summary>
public sealed record DeckFit
{
    /// <summary>Number of cores that the fit rests on.</summary>
    public required int Cores { get; init; }

    /// <summary>Median surface content over the deck [kg/m³].</summary>
    public required Estimate SurfaceChloride { get; init; }

    /// <summary>Median apparent diffusion coefficient over the deck [mm²/yr].</summary>
    public required Estimate DiffusionCoefficient { get; init; }

    /// <summary>Background content [kg/m³].</summary>
    public required Estimate Background { get; init; }

    /// <summary>Standard deviation between cores of ln Cs.</summary>
    public required Estimate SdLnSurfaceChloride { get; init; }

    /// <summary>Standard deviation between cores of ln D.</summary>
    public required Estimate SdLnDiffusionCoefficient { get; init; }

    /// <summary>Correlation between cores of (ln Cs, ln D).</summary>
    public required Estimate Correlation { get; init; }

    /// <summary>Standard deviation of the laboratory's error [kg/m³].</summary>
    public required Estimate LabErrorSd { get; init; }

    /// <summary>How the deck was fitted.</summary>
    public required string Method { get; init; }

    /// <summary>Convergence of the chains, where the method has chains.</summary>
    public ConvergenceSummary? Convergence { get; init; }

    /// <summary>Draws of the population's parameters: what is known about the deck, for projections.</summary>
    public required ImmutableArray<DeckHyperDraw> Draws { get; init; }

    /// <summary>Whether all is well (<see cref="FitStatus.Fitted"/>) or the answer leans on the priors (<see cref="FitStatus.Limited"/>).</summary>
    public FitStatus Status { get; init; } = FitStatus.Fitted;

    /// <summary>Why the status is not <see cref="FitStatus.Fitted"/>.</summary>
    public string? Reason { get; init; }

    /// <summary>Exposure age that the deck's diffusion coefficient is stated at [yr].</summary>
    public double ReferenceExposureYears { get; init; }

    /// <summary>Covariance between cores of (ln Cs, ln D); its diagonal is the squares of the two standard deviations.</summary>
    public Estimate? Covariance { get; init; }

    /// <summary>Ageing exponent of the instantaneous coefficient: estimated where cores of several ages allow it, else the given one.</summary>
    public Estimate? AgeingExponent { get; init; }

    /// <summary>The laboratory's error as a share of the content, where the errors are relative.</summary>
    public Estimate? RelativeLabError { get; init; }

    /// <summary>Factor e^shift of the surface content of targeted cores on that of the others, where there are both.</summary>
    public Estimate? TargetedSurfaceFactor { get; init; }

    /// <summary>Factor e^shift of the diffusion coefficient of targeted cores on that of the others, where there are both.</summary>
    public Estimate? TargetedDiffusionFactor { get; init; }

    /// <summary>The cores as the deck fit sees them, in the order given.</summary>
    public ImmutableArray<DeckCoreEstimate> CoreEstimates { get; init; } = [];

    /// <summary>The cores taken on cracks, fitted apart; absent when there are none, or too few slices.</summary>
    public DeckFit? CrackCores { get; init; }

    /// <summary>Restricted maximum likelihood with t limits, beside the posterior; absent with its reason among the flags.</summary>
    public DeckRemlFit? Reml { get; init; }

    /// <summary>The prior distributions, in words and numbers.</summary>
    public ImmutableArray<string> Priors { get; init; } = [];

    /// <summary>How the cores were taken, and what was made of it.</summary>
    public string? Sampling { get; init; }

    /// <summary>What a reviewer should know, each with its code and numbers.</summary>
    public ImmutableArray<Diagnostic> Flags { get; init; } = [];
}
