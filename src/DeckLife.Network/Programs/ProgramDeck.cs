using System.Collections.Immutable;

namespace DeckLife.Network.Programs;

/// <summary>A deck as the program sees it.</summary>
/// <param name="Options">What may be done with it; the first is to do nothing.</param>
/// <param name="Corridor">Number of its corridor; −1 for none.</param>
/// <param name="DamagedPpm">Expected share damaged in each year of the program when nothing is done [millionths]: what worst-first looks at.</param>
public sealed record ProgramDeck(
    ImmutableArray<ProgramOption> Options,
    int Corridor,
    ImmutableArray<int> DamagedPpm
)
{
    /// <inheritdoc/>
    public bool Equals(ProgramDeck? other) =>
        other is not null
        && Corridor == other.Corridor
        && Options.AsSpan().SequenceEqual(other.Options.AsSpan())
        && DamagedPpm.AsSpan().SequenceEqual(other.DamagedPpm.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Options.Length, Corridor);
}
