using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>First-year coefficient, ageing exponent and surface content of a mix from its water-binder ratio.</summary>
/// <remarks>
/// Equations: D1 = 25000 kD exp(-√(10/(w/c))) mm²/yr; α = ka (1 - 1.5 w/c); C1 = 3.667 kC w/c % of binder mass. The k are
/// factors of the environment (splash, atmosphere, submerged; bridge decks were not among them), and w/c counts additions
/// by their efficiency. α is the exponent of an apparent coefficient, as in <see cref="ApparentAgeing"/> with a reference
/// exposure of 1 yr.
/// Source: Frederiksen, Nilsson, Sandberg, Poulsen, Tang and Andersen, HETEK report 83, Danish Road Directorate, 1997
/// (from memory; verify before use). Valid for: w/c from 0.3 to 0.6 in marine exposure at Nordic temperatures.
/// Checked by reference case transport/mix-relations.
/// </remarks>
public static class FrederiksenEtAl1997
{
    private const double Least = 0.3;
    private const double Most = 0.6;

    /// <summary>The apparent coefficient after one year D1.</summary>
    /// <param name="waterBinderRatio">w/c, from 0.3 to 0.6.</param>
    /// <param name="environment">kD, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of range.</exception>
    public static DiffusionCoefficient FirstYearCoefficient(
        double waterBinderRatio,
        double environment = 1
    )
    {
        Check(waterBinderRatio, environment);
        return DiffusionCoefficient.FromSquareMillimetresPerYear(
            25_000 * environment * Math.Exp(-Math.Sqrt(10 / waterBinderRatio))
        );
    }

    /// <summary>The exponent α of the apparent coefficient.</summary>
    /// <param name="waterBinderRatio">w/c, from 0.3 to 0.6.</param>
    /// <param name="environment">ka, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of range.</exception>
    public static double AgeingExponent(double waterBinderRatio, double environment = 1)
    {
        Check(waterBinderRatio, environment);
        return environment * (1 - (1.5 * waterBinderRatio));
    }

    /// <summary>The surface content after one year C1 [% of binder mass].</summary>
    /// <param name="waterBinderRatio">w/c, from 0.3 to 0.6.</param>
    /// <param name="environment">kC, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of range.</exception>
    public static double FirstYearSurfaceContent(double waterBinderRatio, double environment = 1)
    {
        Check(waterBinderRatio, environment);
        return 3.667 * environment * waterBinderRatio;
    }

    private static void Check(double ratio, double environment)
    {
        MixRange.Check(
            ratio,
            Least,
            Most,
            "A water-binder ratio for this relation lies between 0.3 and 0.6."
        );
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(environment);
    }
}
