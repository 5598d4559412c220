using System.Collections.Immutable;

namespace DeckLife.Surveys;

/// <summary>What a sounding survey found on one area of the deck.</summary>
public sealed record SoundingArea
{
    /// <summary>The line of the file it came from.</summary>
    public required int Row { get; init; }

    /// <summary>What was found there.</summary>
    public required SoundingFinding Finding { get; init; }

    /// <summary>Size of the area [m²]; what it shares with a worse or an earlier one is counted there only.</summary>
    public required double AreaM2 { get; init; }

    /// <summary>Corners in deck coordinates [m], where the survey gives them; else empty.</summary>
    public ImmutableArray<(double X, double Y)> Corners { get; init; } = [];

    /// <summary>Whether a place lies on the area.</summary>
    /// <param name="x">Position along the deck [m].</param>
    /// <param name="y">Position across the deck [m].</param>
    /// <returns>False for an area without corners.</returns>
    /// <remarks>Ray casting; a place on an edge counts as on the area or beside it by rounding.</remarks>
    public bool Contains(double x, double y)
    {
        var inside = false;
        for (int i = 0, j = Corners.Length - 1; i < Corners.Length; j = i++)
        {
            var (xi, yi) = Corners[i];
            var (xj, yj) = Corners[j];
            if (yi > y != yj > y && x < (xj - xi) * (y - yi) / (yj - yi) + xi)
            {
                inside = !inside;
            }
        }

        return inside;
    }

    /// <inheritdoc/>
    public bool Equals(SoundingArea? other) =>
        other is not null
        && Row == other.Row
        && Finding == other.Finding
        && AreaM2 == other.AreaM2
        && Corners.AsSpan().SequenceEqual(other.Corners.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Row, Finding, AreaM2, Corners.Length);
}
