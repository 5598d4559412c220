using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Network.Decks;
using DeckLife.Network.Programs;

namespace DeckLife.Network.Results;

/// <summary>The answer for a network: every deck, three programs, and what money is worth.</summary>
public sealed record NetworkResult
{
    /// <summary>The network.</summary>
    public required NetworkDefinition Network { get; init; }

    /// <summary>Every deck that the network lists, in its order.</summary>
    public required ImmutableArray<DeckRow> Decks { get; init; }

    /// <summary>Area of the decks with an answer [m²]; sums and shares are of these.</summary>
    public required double AreaM2 { get; init; }

    /// <summary>Currency and price year; empty where no deck was projected.</summary>
    public required string Prices { get; init; }

    /// <summary>Nothing is done.</summary>
    public required NetworkPlan Nothing { get; init; }

    /// <summary>Each year the worst deck first.</summary>
    public required NetworkPlan WorstFirst { get; init; }

    /// <summary>The program with the greatest value.</summary>
    public required NetworkPlan Best { get; init; }

    /// <summary>How sure the best program is to be the best.</summary>
    public required ProgramStatus Status { get; init; }

    /// <summary>How much better another program could be, a share.</summary>
    public required double Gap { get; init; }

    /// <summary>Nodes of the search tree that were looked at for the best program.</summary>
    public required long SearchNodes { get; init; }

    /// <summary>By how much the condition asked for is missed in each year, as a share of the area; empty where none is asked for.</summary>
    public ImmutableArray<double> ConditionMissed { get; init; } = [];

    /// <summary>What the best program is worth with other budgets, rising.</summary>
    public required ImmutableArray<BudgetValue> BudgetValues { get; init; }

    /// <summary>What a reviewer should know.</summary>
    public ImmutableArray<Diagnostic> Flags { get; init; } = [];

    /// <summary>The three programs.</summary>
    public ImmutableArray<NetworkPlan> Plans => [Nothing, WorstFirst, Best];
}
