namespace DeckLife.Materials;

/// <summary>Charge passed in six hours at 60 V, and its class.</summary>
/// <remarks>
/// Source: ASTM C1202, table of classes (read in agency documents that quote it) and trapezoidal sum (from memory). Pore solution,
/// supplementary cementing materials, latex and conductive admixtures move the charge without moving diffusion alike.
/// </remarks>
public static class ChargePassed
{
    private const int Readings = 13;
    private const double ReferenceDiameterMm = 95;

    /// <summary>Charge from currents every 30 minutes: 900 (I0 + 2 I30 + … + 2 I330 + I360).</summary>
    /// <param name="currentsA">Thirteen currents from 0 to 360 min [A].</param>
    /// <param name="diameterMm">Diameter of the specimen [mm]; the charge is brought to 95 mm by area.</param>
    /// <returns>Charge [C].</returns>
    /// <exception cref="ArgumentException">Not thirteen finite currents from 0 up.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A diameter that is not above 0.</exception>
    public static double Coulombs(ReadOnlySpan<double> currentsA, double diameterMm)
    {
        if (currentsA.Length != Readings)
        {
            throw new ArgumentException(
                "The charge needs thirteen currents, every 30 minutes from 0 to 360.",
                nameof(currentsA)
            );
        }

        if (!(diameterMm > 0) || !double.IsFinite(diameterMm))
        {
            throw new ArgumentOutOfRangeException(
                nameof(diameterMm),
                diameterMm,
                "A diameter is above 0."
            );
        }

        var sum = 0.0;
        for (var i = 0; i < Readings; i++)
        {
            if (!(currentsA[i] >= 0) || !double.IsFinite(currentsA[i]))
            {
                throw new ArgumentException(
                    "A current is finite and not negative.",
                    nameof(currentsA)
                );
            }

            sum += (i is 0 or Readings - 1 ? 1 : 2) * currentsA[i];
        }

        var ratio = ReferenceDiameterMm / diameterMm;
        return 900 * sum * ratio * ratio;
    }

    /// <summary>The class of a charge; a value on a limit counts to the more penetrable class where two are printed.</summary>
    /// <param name="coulombs">Charge [C], brought to 95 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">The charge is not finite or negative.</exception>
    public static ChloridePenetrability Classify(double coulombs) =>
        !(coulombs >= 0) || !double.IsFinite(coulombs)
            ? throw new ArgumentOutOfRangeException(
                nameof(coulombs),
                coulombs,
                "A charge is finite and not negative."
            )
        : coulombs > 4000 ? ChloridePenetrability.High
        : coulombs >= 2000 ? ChloridePenetrability.Moderate
        : coulombs >= 1000 ? ChloridePenetrability.Low
        : coulombs >= 100 ? ChloridePenetrability.VeryLow
        : ChloridePenetrability.Negligible;
}
