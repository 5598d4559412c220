using System.Collections.Immutable;

namespace DeckLife.Mapping;

/// <summary>One cell of a deck's plan and what is probable on it.</summary>
/// <param name="X">Centre along the deck [m].</param>
/// <param name="Y">Centre across the deck [m].</param>
/// <param name="Unsound">Share of the cell that sounding found hollow or spalled.</param>
/// <param name="Patched">Share of the cell that is patched.</param>
/// <param name="Nodes">Half-cell nodes on the cell that count.</param>
/// <param name="Active">Probability that a place on the cell corrodes, the damaged included.</param>
/// <param name="Damaged">Probability that a place on the cell is damaged: found, or hollow and not found.</param>
/// <param name="DamagedLater">Probability that a place on the cell is damaged or patched at each of the map's later times, if nothing is done.</param>
public sealed record DeckMapCell(
    double X,
    double Y,
    double Unsound,
    double Patched,
    int Nodes,
    double Active,
    double Damaged,
    ImmutableArray<double> DamagedLater
)
{
    /// <inheritdoc/>
    public bool Equals(DeckMapCell? other) =>
        other is not null
        && (X, Y, Unsound, Patched, Nodes, Active, Damaged)
            == (
                other.X,
                other.Y,
                other.Unsound,
                other.Patched,
                other.Nodes,
                other.Active,
                other.Damaged
            )
        && DamagedLater.AsSpan().SequenceEqual(other.DamagedLater.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(X, Y, Active, Damaged);
}
