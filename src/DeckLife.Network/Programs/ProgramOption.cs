using System.Collections.Immutable;

namespace DeckLife.Network.Programs;

/// <summary>One thing that a program may do with a deck, in whole numbers.</summary>
/// <param name="Value">Damaged area avoided over the years looked at, times the deck's weight [0.01 m²·yr]; 0 for doing nothing.</param>
/// <param name="StartYear">Year of the program, from 0, in which it begins; −1 for doing nothing.</param>
/// <param name="CostByYear">Cost in each year of the program; a year with a cost is one of closure.</param>
/// <param name="DamagedByYear">Expected damaged area in each year of the condition [0.01 m²], rounded up; empty where no condition is asked for.</param>
public sealed record ProgramOption(
    long Value,
    int StartYear,
    ImmutableArray<long> CostByYear,
    ImmutableArray<long> DamagedByYear
)
{
    /// <summary>Cost over the whole program.</summary>
    public long Cost => CostByYear.Sum();

    /// <inheritdoc/>
    public bool Equals(ProgramOption? other) =>
        other is not null
        && Value == other.Value
        && StartYear == other.StartYear
        && CostByYear.AsSpan().SequenceEqual(other.CostByYear.AsSpan())
        && DamagedByYear.AsSpan().SequenceEqual(other.DamagedByYear.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Value, StartYear, CostByYear.Length);
}
