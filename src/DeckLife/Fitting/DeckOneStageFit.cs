using System.Collections.Immutable;

namespace DeckLife.Fitting;

/// <summary>The deck's cores as one nonlinear mixed model, by maximum likelihood of its linearised form.</summary>
public sealed record DeckOneStageFit
{
    /// <summary>Mean of ln(Cs / (kg/m³)), with its standard error.</summary>
    public required Estimate MeanLnSurfaceChloride { get; init; }

    /// <summary>Mean of ln(D / (mm²/yr)), with its standard error.</summary>
    public required Estimate MeanLnDiffusionCoefficient { get; init; }

    /// <summary>Background [kg/m³], not bounded, with its standard error.</summary>
    public required Estimate Background { get; init; }

    /// <summary>Standard deviation between cores of ln Cs.</summary>
    public required double SdLnSurfaceChloride { get; init; }

    /// <summary>Standard deviation between cores of ln D.</summary>
    public required double SdLnDiffusionCoefficient { get; init; }

    /// <summary>Correlation between cores; 0 where a standard deviation is 0.</summary>
    public required double Correlation { get; init; }

    /// <summary>Standard deviation of the laboratory's error [kg/m³].</summary>
    public required double LabErrorSdKgPerM3 { get; init; }

    /// <summary>Log-likelihood of the linearised model, all constants in.</summary>
    public required double LogLikelihood { get; init; }

    /// <summary>ln(D / (mm²/yr)) of each core, drawn towards the mean.</summary>
    public required ImmutableArray<double> LnDiffusionOfCores { get; init; }
}
