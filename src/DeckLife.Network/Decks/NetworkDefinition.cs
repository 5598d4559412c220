using System.Collections.Immutable;

namespace DeckLife.Network.Decks;

/// <summary>A network: its decks, the years of its program, and what binds the program.</summary>
public sealed record NetworkDefinition
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>What a reader should know of it, in a few sentences; absent: nothing.</summary>
    public string? Story { get; init; }

    /// <summary>First year of the program.</summary>
    public required int FirstYear { get; init; }

    /// <summary>Money for each year of the program, in the prices' currency and price year.</summary>
    public required ImmutableArray<long> Budgets { get; init; }

    /// <summary>Last year that the condition is looked at, not before the program's last.</summary>
    public required int LastYear { get; init; }

    /// <summary>Years in which work may start; within the program.</summary>
    public required ImmutableArray<int> StartYears { get; init; }

    /// <summary>Most decks closed for work in one year; absent: no limit.</summary>
    public int? MostClosuresAYear { get; init; }

    /// <summary>Most decks of one corridor closed for work in one year; absent: no limit.</summary>
    public int? MostClosuresACorridor { get; init; }

    /// <summary>Most of the network's area that may be damaged on average over the draws, a fraction; absent: no limit.</summary>
    public double? DamagedAtMost { get; init; }

    /// <summary>First year that <see cref="DamagedAtMost"/> holds in.</summary>
    public int DamagedAtMostFrom { get; init; }

    /// <summary>Upper ends of the condition classes but the last, rising fractions of a deck's area damaged.</summary>
    public ImmutableArray<double> ClassLimits { get; init; } = [0.02, 0.05, 0.10, 0.25];

    /// <summary>Budgets that the value of money is looked at with, as factors on <see cref="Budgets"/>.</summary>
    public ImmutableArray<double> BudgetFactors { get; init; } = [0.5, 0.75, 0.9, 1, 1.25];

    /// <summary>Seed; 0 is a seed like any other.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Draws of what is not known about each deck.</summary>
    public int Draws { get; init; } = 20;

    /// <summary>Points of each deck in each draw.</summary>
    public int Points { get; init; } = 256;

    /// <summary>Exposure classes for decks without cores.</summary>
    public ImmutableArray<ExposureClass> Classes { get; init; } = [];

    /// <summary>The decks, in the order of the results.</summary>
    public required ImmutableArray<NetworkMember> Members { get; init; }

    /// <summary>Number of years that the condition is looked at.</summary>
    public int ConditionYears => LastYear - FirstYear + 1;
}
