namespace DeckLife.Propagation;

/// <summary>Corrosion rate from cover and water-cement ratio.</summary>
/// <remarks>
/// Equation: i(1 yr) = 37.8 (1 − w/c)^−1.64 / cover [mm] µA/cm²; i(t) = 0.85 i(1) t^−0.29.
/// Source: Vu and Stewart, Structural Safety 22 (2000) 313-333 (memory). Valid for: 75 % humidity, 20 °C, as its authors say.
/// </remarks>
public static class VuStewart2000
{
    /// <summary>Corrosion rate [µA/cm²].</summary>
    /// <param name="waterCementRatio">w/c, above 0 and below 1.</param>
    /// <param name="coverMm">Cover [mm], positive.</param>
    /// <param name="yearsSinceInitiation">Time since initiation [yr]; absent: the rate of the first year.</param>
    public static double CorrosionRate(
        double waterCementRatio,
        double coverMm,
        double? yearsSinceInitiation = null
    )
    {
        if (!(waterCementRatio > 0 && waterCementRatio < 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(waterCementRatio),
                waterCementRatio,
                "The water-cement ratio lies between 0 and 1."
            );
        }

        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(coverMm);
        var first = 37.8 * Math.Pow(1 - waterCementRatio, -1.64) / coverMm;
        return yearsSinceInitiation is { } t
            ? 0.85 * first * Math.Pow(Math.Max(t, 1), -0.29)
            : first;
    }
}
