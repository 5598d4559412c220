namespace DeckLife.Population;

/// <summary>How the points of a deck differ from each other, in one draw of what is not known.</summary>
public sealed record DeckPopulation
{
    /// <summary>Least cover that a point is given [mm]: a bar can't lie at the surface.</summary>
    public double CoverFloorMm { get; init; } = 1;

    /// <summary>Cover over the top bars [mm].</summary>
    public required PointDistribution Cover { get; init; }

    /// <summary>Mean over the deck of ln(Cs / (kg/m³)).</summary>
    public required double MeanLnSurfaceChloride { get; init; }

    /// <summary>Standard deviation over the deck of ln Cs.</summary>
    public required double SdLnSurfaceChloride { get; init; }

    /// <summary>Mean over the deck of ln(D / (mm²/yr)), D apparent at the survey.</summary>
    public required double MeanLnDiffusionCoefficient { get; init; }

    /// <summary>Standard deviation over the deck of ln D.</summary>
    public required double SdLnDiffusionCoefficient { get; init; }

    /// <summary>Correlation over the deck of (ln Cs, ln D).</summary>
    public double Correlation { get; init; }

    /// <summary>Background content [kg/m³].</summary>
    public double BackgroundKgPerM3 { get; init; }

    /// <summary>The salted underside; absent: sealed, and too far from the top bars for the salt from above to feel.</summary>
    public SoffitFace? Soffit { get; init; }

    /// <summary>Threshold for initiation [kg/m³].</summary>
    public required PointDistribution Threshold { get; init; }

    /// <summary>Time from initiation to damage [yr]; where <see cref="PropagationOf"/> is given, what that starts from.</summary>
    public required PointDistribution PropagationYr { get; init; }

    /// <summary>Time from initiation to damage [yr] from the value of <see cref="PropagationYr"/> and the cover [mm] of a point; absent: the value itself.</summary>
    public Func<double, double, double>? PropagationOf { get; init; }
}
