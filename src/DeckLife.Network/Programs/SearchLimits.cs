namespace DeckLife.Network.Programs;

/// <summary>When the search for a program ends.</summary>
public sealed record SearchLimits
{
    /// <summary>Most work, in the solver's own deterministic units (of the order of a second each): never a time by the clock.</summary>
    public double DeterministicTime { get; init; } = 20;

    /// <summary>Gap at which a program is good enough, as a share of its value; 0 asks for the optimum.</summary>
    public double Gap { get; init; } = 1e-4;
}
