using System.Collections.Immutable;

namespace DeckLife.Network.Programs;

/// <summary>A program of work and how sure it is to be the best.</summary>
public sealed record ProgramSolution
{
    /// <summary>For each deck the number of its option; 0 does nothing.</summary>
    public required ImmutableArray<int> Choice { get; init; }

    /// <summary>How sure it is.</summary>
    public required ProgramStatus Status { get; init; }

    /// <summary>Its value: weighted damaged area avoided [0.01 m²·yr].</summary>
    public required long Value { get; init; }

    /// <summary>No program is worth more than this [0.01 m²·yr].</summary>
    public required long Bound { get; init; }

    /// <summary>By how much the condition asked for is missed, year by year [0.01 m²]; empty where none is asked for.</summary>
    public ImmutableArray<long> Missed { get; init; } = [];

    /// <summary>Nodes of the search tree that were looked at.</summary>
    public long Nodes { get; init; }

    /// <summary>How much better another program could be, as a share of the bound; 0 for an optimum.</summary>
    public double Gap =>
        Bound <= Value ? 0 : (Bound - Value) / (double)Math.Max(1, Math.Abs(Bound));
}
