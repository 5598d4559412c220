namespace DeckLife.Projection;

/// <summary>Size and seed of a projection.</summary>
public sealed record AnalysisSettings
{
    /// <summary>Seed; 0 is a seed like any other.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Draws of what is not known (the band), K.</summary>
    public int Draws { get; init; } = 2000;

    /// <summary>Points of the deck in each draw (the area), N.</summary>
    public int Points { get; init; } = 512;

    /// <summary>Most threads to use; absent: as many as the machine has. Never changes a result.</summary>
    public int? Threads { get; init; }
}
