namespace DeckLife.Numerics.SpatialStatistics;

/// <summary>What readings at places say about the field that they were taken from.</summary>
/// <param name="Length">Correlation length ℓ of ρ(d) = (1 − ν) exp(−d/ℓ), in the unit of the positions.</param>
/// <param name="Lower95">Lower end of the profile-likelihood limits of ℓ; absent: the readings set none.</param>
/// <param name="Upper95">Upper end; absent: the readings set none.</param>
/// <param name="NuggetShare">Share ν of the variance that goes with no neighbour, 0 to 1: error of the reading and what varies within the least distance.</param>
/// <param name="Variance">Variance of a reading, nugget included.</param>
/// <param name="Mean">Mean of the field, each reading weighed by what its neighbours don't tell already.</param>
/// <param name="MeanStandardError">Standard error of that mean.</param>
/// <param name="LikelihoodRatio">Twice the gain in log-likelihood over readings that are independent of each other.</param>
public sealed record ExponentialFieldEstimate(
    double Length,
    double? Lower95,
    double? Upper95,
    double NuggetShare,
    double Variance,
    double Mean,
    double MeanStandardError,
    double LikelihoodRatio
)
{
    /// <summary>95 % point of χ² with one degree of freedom.</summary>
    public const double Cut = 3.841458820694124;

    /// <summary>Whether the readings show that neighbours go together: independence lies outside the 95 % limits.</summary>
    public bool IsShown => LikelihoodRatio > Cut;
}
