using System.Collections.Immutable;
using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>Twelve mean temperatures, each held over a twelfth of the year, every year the same.</summary>
public sealed record MonthlyTemperature : TemperatureHistory
{
    /// <summary>Makes the history.</summary>
    /// <param name="months">January to December: twelve temperatures.</param>
    /// <param name="timeZeroMonth">The month, 1 to 12, at whose beginning time 0 falls.</param>
    /// <exception cref="ArgumentException">There are not twelve.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The month of time zero is none.</exception>
    public MonthlyTemperature(ImmutableArray<Temperature> months, int timeZeroMonth)
    {
        if (months.Length != 12)
        {
            throw new ArgumentException(
                "A monthly temperature history has twelve values.",
                nameof(months)
            );
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(timeZeroMonth, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(timeZeroMonth, 12);
        Months = months;
        TimeZeroMonth = timeZeroMonth;
    }

    /// <summary>January to December.</summary>
    public ImmutableArray<Temperature> Months { get; }

    /// <summary>The month, 1 to 12, at whose beginning time 0 falls.</summary>
    public int TimeZeroMonth { get; }

    internal override double SmoothSpanYears => 1.0 / 12;

    /// <inheritdoc/>
    public override double CelsiusAt(double years) =>
        Months[CalendarMonth.At(years, TimeZeroMonth) - 1].Celsius;

    /// <inheritdoc/>
    public bool Equals(MonthlyTemperature? other) =>
        other is not null
        && TimeZeroMonth == other.TimeZeroMonth
        && Months.SequenceEqual(other.Months);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(TimeZeroMonth, Months[0], Months[6]);
}
