using System.Collections.Immutable;
using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>One content in the months of salt, another in the rest of the year, every year the same.</summary>
public sealed record SeasonalSurface : SurfaceLaw
{
    /// <summary>Makes the law.</summary>
    /// <param name="content">Content in the months of salt.</param>
    /// <param name="months">Those months, 1 to 12.</param>
    /// <param name="offContent">Content in the other months.</param>
    /// <param name="timeZeroMonth">The month, 1 to 12, at whose beginning the law starts.</param>
    /// <exception cref="ArgumentException">No month, or one that is none.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The month of time zero is none.</exception>
    public SeasonalSurface(
        ChlorideContent content,
        ImmutableArray<int> months,
        ChlorideContent offContent,
        int timeZeroMonth
    )
    {
        if (months.Length == 0 || months.Any(m => m is < 1 or > 12))
        {
            throw new ArgumentException(
                "Months are whole numbers from 1 to 12, at least one.",
                nameof(months)
            );
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(timeZeroMonth, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(timeZeroMonth, 12);
        Content = content;
        Months = [.. months.Distinct().Order()];
        OffContent = offContent;
        TimeZeroMonth = timeZeroMonth;
    }

    /// <summary>Content in the months of salt.</summary>
    public ChlorideContent Content { get; }

    /// <summary>The months of salt, 1 to 12, rising.</summary>
    public ImmutableArray<int> Months { get; }

    /// <summary>Content in the other months.</summary>
    public ChlorideContent OffContent { get; }

    /// <summary>The month at whose beginning the law starts.</summary>
    public int TimeZeroMonth { get; }

    /// <inheritdoc/>
    public bool Equals(SeasonalSurface? other) =>
        other is not null
        && base.Equals(other)
        && Content == other.Content
        && OffContent == other.OffContent
        && TimeZeroMonth == other.TimeZeroMonth
        && Months.SequenceEqual(other.Months);

    /// <inheritdoc/>
    public override int GetHashCode() =>
        HashCode.Combine(base.GetHashCode(), Content, OffContent, TimeZeroMonth, Months.Length);

    internal override ImmutableArray<double> Jumps(double untilYears)
    {
        var jumps = ImmutableArray.CreateBuilder<double>();
        for (var k = 1; k / 12.0 < untilYears; k++)
        {
            if (IsOn((k - 0.5) / 12) != IsOn((k + 0.5) / 12))
            {
                jumps.Add(k / 12.0);
            }
        }

        return jumps.ToImmutable();
    }

    private protected override double FullContentAt(double years) =>
        (IsOn(years) ? Content : OffContent).KilogramsPerCubicMetre;

    private bool IsOn(double years) => Months.Contains(CalendarMonth.At(years, TimeZeroMonth));
}
