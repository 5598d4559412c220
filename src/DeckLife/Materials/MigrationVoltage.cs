namespace DeckLife.Materials;

/// <summary>Voltage and duration of a rapid migration test, from the current that 30 V drives at the start.</summary>
/// <remarks>
/// Source: NT Build 492 (1999), the method's own table for a specimen of about 100 mm by 50 mm (from memory). A current at a limit belongs to the
/// class above it.
/// </remarks>
public static class MigrationVoltage
{
    private static readonly (double BelowMa, double Volts, double Hours)[] Table =
    [
        (5, 60, 96),
        (10, 60, 48),
        (15, 60, 24),
        (20, 50, 24),
        (30, 40, 24),
        (40, 35, 24),
        (60, 30, 24),
        (90, 25, 24),
        (120, 20, 24),
        (180, 15, 24),
        (360, 10, 24),
        (double.PositiveInfinity, 10, 6),
    ];

    /// <summary>What the method prescribes.</summary>
    /// <param name="currentAt30VMa">Current at 30 V [mA].</param>
    /// <returns>Voltage [V] and duration [h].</returns>
    /// <exception cref="ArgumentOutOfRangeException">The current is not finite or negative.</exception>
    public static (double Volts, double Hours) For(double currentAt30VMa)
    {
        if (!(currentAt30VMa >= 0) || !double.IsFinite(currentAt30VMa))
        {
            throw new ArgumentOutOfRangeException(
                nameof(currentAt30VMa),
                currentAt30VMa,
                "A current is finite and not negative."
            );
        }

        var (_, volts, hours) = Table.First(t => currentAt30VMa < t.BelowMa);
        return (volts, hours);
    }
}
