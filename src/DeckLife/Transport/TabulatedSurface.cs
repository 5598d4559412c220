using System.Collections.Immutable;
using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>Contents at given times, linear between, held after the last and before the first.</summary>
public sealed record TabulatedSurface : SurfaceLaw
{
    /// <summary>Makes the law.</summary>
    /// <param name="times">Times since the law's start, rising.</param>
    /// <param name="contents">One content a time.</param>
    /// <exception cref="ArgumentException">Lengths differ, there is none, or the times do not rise.</exception>
    public TabulatedSurface(ImmutableArray<Age> times, ImmutableArray<ChlorideContent> contents)
    {
        if (times.Length == 0 || times.Length != contents.Length)
        {
            throw new ArgumentException("A table needs as many contents as times, at least one.");
        }

        for (var i = 1; i < times.Length; i++)
        {
            if (!(times[i] > times[i - 1]))
            {
                throw new ArgumentException("The times of a table must rise.");
            }
        }

        Times = times;
        Contents = contents;
    }

    /// <summary>Times.</summary>
    public ImmutableArray<Age> Times { get; }

    /// <summary>Contents.</summary>
    public ImmutableArray<ChlorideContent> Contents { get; }

    /// <inheritdoc/>
    public bool Equals(TabulatedSurface? other) =>
        other is not null
        && base.Equals(other)
        && Times.SequenceEqual(other.Times)
        && Contents.SequenceEqual(other.Contents);

    /// <inheritdoc/>
    public override int GetHashCode() =>
        HashCode.Combine(base.GetHashCode(), Times[^1], Contents[^1]);

    internal override ImmutableArray<double> Kinks(double untilYears) =>
        [.. Times.Select(t => t.Years).Where(t => t > 0 && t < untilYears)];

    private protected override double FullContentAt(double years)
    {
        if (years <= Times[0].Years)
        {
            return Contents[0].KilogramsPerCubicMetre;
        }

        for (var i = 1; i < Times.Length; i++)
        {
            if (years <= Times[i].Years)
            {
                var share = (years - Times[i - 1].Years) / (Times[i].Years - Times[i - 1].Years);
                return ((1 - share) * Contents[i - 1].KilogramsPerCubicMetre)
                    + (share * Contents[i].KilogramsPerCubicMetre);
            }
        }

        return Contents[^1].KilogramsPerCubicMetre;
    }
}
