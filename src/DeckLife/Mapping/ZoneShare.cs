using System.Collections.Immutable;

namespace DeckLife.Mapping;

/// <summary>What a zone of the deck holds: means of the map's cells whose centres lie in it.</summary>
/// <param name="Name">The zone.</param>
/// <param name="AreaShare">Share of the deck's plan.</param>
/// <param name="Nodes">Half-cell nodes that count.</param>
/// <param name="CoverMm">Mean of the cover readings in the zone [mm]; absent without readings there.</param>
/// <param name="Active">Share of the zone that corrodes.</param>
/// <param name="Damaged">Share of the zone that is damaged.</param>
/// <param name="DamagedLater">Share of the zone damaged or patched at each of the map's later times, if nothing is done.</param>
public sealed record ZoneShare(
    string Name,
    double AreaShare,
    int Nodes,
    double? CoverMm,
    double Active,
    double Damaged,
    ImmutableArray<double> DamagedLater
)
{
    /// <inheritdoc/>
    public bool Equals(ZoneShare? other) =>
        other is not null
        && (Name, AreaShare, Nodes, CoverMm, Active, Damaged)
            == (
                other.Name,
                other.AreaShare,
                other.Nodes,
                other.CoverMm,
                other.Active,
                other.Damaged
            )
        && DamagedLater.AsSpan().SequenceEqual(other.DamagedLater.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Name, AreaShare, Active, Damaged);
}
