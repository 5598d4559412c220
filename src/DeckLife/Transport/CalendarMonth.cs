namespace DeckLife.Transport;

/// <summary>Months as twelfths of a Julian year.</summary>
internal static class CalendarMonth
{
    /// <summary>The month, 1 to 12, in which a time falls; a boundary belongs to the month that begins there.</summary>
    /// <param name="years">Time [yr].</param>
    /// <param name="timeZeroMonth">The month at whose beginning time 0 falls.</param>
    public static int At(double years, int timeZeroMonth)
    {
        // A boundary k/12 computed in floating point may lie an ulp low: 1e-9 of a month is far below any step.
        var elapsed = (long)Math.Floor((years * 12) + 1e-9);
        return (int)((((elapsed + timeZeroMonth - 1) % 12) + 12) % 12) + 1;
    }
}
