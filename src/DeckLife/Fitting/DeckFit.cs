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

    /// <summary>What a reviewer should know, each with its code and numbers.</summary>
    public ImmutableArray<Diagnostic> Flags { get; init; } = [];
}
