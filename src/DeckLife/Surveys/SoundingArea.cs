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
