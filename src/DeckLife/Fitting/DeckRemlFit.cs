namespace DeckLife.Fitting;

/// <summary>The population of a deck's cores by restricted maximum likelihood, in two stages: cores first, then the deck.</summary>
/// <remarks>
/// With few cores the covariance is often at its edge (a standard deviation of 0, a correlation of ±1) and the limits know nothing of it;
/// so it stands beside the posterior, never in its place.
/// </remarks>
public sealed record DeckRemlFit
{
    /// <summary>Median surface content over the deck [kg/m³], with t limits.</summary>
    public required Estimate SurfaceChloride { get; init; }

    /// <summary>Median apparent diffusion coefficient over the deck [mm²/yr], with t limits.</summary>
    public required Estimate DiffusionCoefficient { get; init; }

    /// <summary>Standard deviation between cores of ln Cs.</summary>
    public required double SdLnSurfaceChloride { get; init; }

    /// <summary>Standard deviation between cores of ln D.</summary>
    public required double SdLnDiffusionCoefficient { get; init; }

    /// <summary>Correlation between cores.</summary>
    public required double Correlation { get; init; }

    /// <summary>Background of the first stage [kg/m³].</summary>
    public required double BackgroundKgPerM3 { get; init; }

    /// <summary>Standard deviation of the laboratory's error of the first stage [kg/m³].</summary>
    public required double LabErrorSdKgPerM3 { get; init; }

    /// <summary>Restricted log-likelihood of the second stage, all constants in.</summary>
    public required double LogLikelihood { get; init; }

    /// <summary>Whether the covariance lies at its edge, so that its estimate says little.</summary>
    public required bool IsSingular { get; init; }

    /// <summary>Degrees of freedom of the t limits.</summary>
    public required int DegreesOfFreedom { get; init; }
}
