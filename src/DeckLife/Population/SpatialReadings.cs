using DeckLife.Surveys;

namespace DeckLife.Population;

/// <summary>How many independent readings a survey is worth, its readings being alike where they are close.</summary>
/// <remarks>Correlation of two readings a distance d apart: (1 − ν) exp(−d/ℓ), with ℓ the correlation length and ν the nugget's share.</remarks>
public static class SpatialReadings
{
    /// <summary>Number of independent readings that tell as much about the mean.</summary>
    /// <param name="x">Position along the deck [m].</param>
    /// <param name="y">Position across the deck [m].</param>
    /// <param name="lengthM">Correlation length ℓ [m]; 0: independent.</param>
    /// <param name="nuggetShare">Share of the variance that goes with no neighbour, 0 to 1.</param>
    /// <remarks>Equation: n² / ΣΣρ(d_ij). Source: Griffith, Annals of the Association of American Geographers 95 (2005) (memory).</remarks>
    public static double EffectiveNumber(
        double[] x,
        double[] y,
        double lengthM,
        double nuggetShare = 0
    )
    {
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(y);
        var n = x.Length;
        if (n == 0 || lengthM <= 0)
        {
            return n;
        }

        return (double)n
            * n
            / (n * nuggetShare + (1 - nuggetShare) * n * n * MeanCorrelation(x, y, x, y, lengthM));
    }

    /// <summary>Number of independent places on an area, with ρ(d) = exp(−d/ℓ).</summary>
    /// <param name="areaM2">Area [m²].</param>
    /// <param name="lengthM">Correlation length ℓ [m].</param>
    /// <remarks>Equation: area over the integral of ρ over the plane, 2πℓ²; at least 1.</remarks>
    public static double EffectiveNumber(double areaM2, double lengthM) =>
        Math.Max(1, areaM2 / (2 * Math.PI * lengthM * lengthM));

    /// <summary>Number of independent readings that tell as much about the mean of this deck, which is what the readings were spread over.</summary>
    /// <param name="x">Position along the deck [m].</param>
    /// <param name="y">Position across the deck [m].</param>
    /// <param name="lengthM">Correlation length ℓ [m], positive.</param>
    /// <param name="nuggetShare">Share of the variance that goes with no neighbour, 0 to 1.</param>
    /// <param name="plan">The deck in plan.</param>
    /// <returns>At most the number of readings.</returns>
    /// <remarks>
    /// Equation: σ² over the variance of (mean of the readings − mean of the plan); the latter on a grid of 200 places. Readings in one corner are
    /// worth few; readings spread evenly over the deck are worth at least their number, however long ℓ, and are counted as that.
    /// Source: extension variance of geostatistics (Matheron 1963; Cressie, Statistics for Spatial Data, 1993; memory).
    /// </remarks>
    public static double EffectiveNumber(
        double[] x,
        double[] y,
        double lengthM,
        double nuggetShare,
        DeckPlan plan
    )
    {
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(y);
        var (gridX, gridY) = plan.Grid(200, 0.01).Centres();
        var smooth =
            MeanCorrelation(x, y, x, y, lengthM)
            - 2 * MeanCorrelation(x, y, gridX, gridY, lengthM)
            + MeanCorrelation(gridX, gridY, gridX, gridY, lengthM);
        var variance = nuggetShare / x.Length + (1 - nuggetShare) * Math.Max(0, smooth);
        return variance > 1.0 / x.Length ? 1 / variance : x.Length;
    }

    private static double MeanCorrelation(
        double[] x,
        double[] y,
        double[] otherX,
        double[] otherY,
        double lengthM
    )
    {
        var sum = 0.0;
        for (var i = 0; i < x.Length; i++)
        {
            for (var j = 0; j < otherX.Length; j++)
            {
                var (dx, dy) = (x[i] - otherX[j], y[i] - otherY[j]);
                sum += Math.Exp(-Math.Sqrt(dx * dx + dy * dy) / lengthM);
            }
        }

        return sum / ((double)x.Length * otherX.Length);
    }
}
