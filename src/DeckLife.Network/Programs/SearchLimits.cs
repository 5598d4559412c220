namespace DeckLife.Network.Programs;

/// <summary>When the search for a program ends.</summary>
public sealed record SearchLimits
{
    /// <summary>Most nodes of the search tree: never a time by the clock. The first one alone solves the relaxed problem, with cuts.</summary>
    public long Nodes { get; init; } = 1000;

    /// <summary>Gap at which a program is good enough, as a share of its value; 0 asks for the optimum.</summary>
    public double Gap { get; init; } = 1e-4;
}
