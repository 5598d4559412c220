namespace DeckLife.Materials;

/// <summary>Classes of surface resistivity.</summary>
/// <remarks>Source: AASHTO T 358 (formerly TP 95), limits for two cylinders and the factor for lime-water curing (from memory).</remarks>
public static class SurfaceResistivity
{
    private static readonly double[] FourByEight = [12, 21, 37, 254];
    private static readonly double[] SixByTwelve = [9.5, 16.5, 29, 199];

    /// <summary>The class of a resistivity; a value on a limit between two classes counts to the more penetrable one, the lowest limit excepted (high is below it).</summary>
    /// <param name="kiloohmCm">Mean surface resistivity as measured [kΩ·cm].</param>
    /// <param name="cylinder">The specimen.</param>
    /// <param name="curedInLimeWater">Whether it was cured in lime water: the reading is multiplied by 1.1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The resistivity is not finite or not above 0.</exception>
    public static ChloridePenetrability Classify(
        double kiloohmCm,
        ResistivityCylinder cylinder,
        bool curedInLimeWater
    )
    {
        if (!(kiloohmCm > 0) || !double.IsFinite(kiloohmCm))
        {
            throw new ArgumentOutOfRangeException(
                nameof(kiloohmCm),
                kiloohmCm,
                "A resistivity is finite and above 0."
            );
        }

        var limits = cylinder == ResistivityCylinder.FourByEightInch ? FourByEight : SixByTwelve;
        var value = curedInLimeWater ? 1.1 * kiloohmCm : kiloohmCm;
        return value < limits[0] ? ChloridePenetrability.High
            : value <= limits[1] ? ChloridePenetrability.Moderate
            : value <= limits[2] ? ChloridePenetrability.Low
            : value <= limits[3] ? ChloridePenetrability.VeryLow
            : ChloridePenetrability.Negligible;
    }
}
