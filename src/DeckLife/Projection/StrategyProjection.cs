using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>What one strategy does to the deck.</summary>
public sealed record StrategyProjection
{
    /// <summary>The strategy.</summary>
    public required Strategy Strategy { get; init; }

    /// <summary>When the deck reaches its end criterion.</summary>
    public required ServiceLife ServiceLife { get; init; }

    /// <summary>Condition against time, from the survey on.</summary>
    public required ImmutableArray<CurvePoint> Curve { get; init; }

    /// <summary>Cost; absent when the deck has no prices.</summary>
    public StrategyCost? Cost { get; init; }

    /// <summary>Probability that this strategy is the cheapest; absent without prices.</summary>
    public double? CheapestProbability { get; init; }

    /// <summary>Monte Carlo standard error of <see cref="CheapestProbability"/>.</summary>
    public double? ErrorOfCheapestProbability { get; init; }

    /// <summary>Mean over the draws of what this strategy costs more than the cheapest of the same draw; absent without prices.</summary>
    public double? ExpectedRegret { get; init; }

    /// <summary>Costs at a real discount rate of 0, the deck's and two points more; empty without prices.</summary>
    public ImmutableArray<CostAtRate> CostByRate { get; init; } = [];

    /// <summary>Median depth of old concrete taken off, by intervention [mm].</summary>
    public ImmutableArray<double> MedianRemovalDepthMm { get; init; } = [];

    /// <summary>When the deck beneath reaches its limit, whatever becomes of the overlay.</summary>
    public ServiceLife? DeckBeneath { get; init; }

    /// <summary>When the deck beneath would reach its limit if bars around repairs corroded no faster than others; absent where no rim is stated or nothing repaired.</summary>
    public ServiceLife? DeckBeneathWithoutRim { get; init; }

    /// <summary>When an overlay reaches the end of its own life (bond, cracking, wear) without being replaced before; absent where no life is stated.</summary>
    public ServiceLife? OverlayEnd { get; init; }

    /// <summary>What each intervention that does something takes off, repairs and places.</summary>
    public ImmutableArray<InterventionQuantities> Interventions { get; init; } = [];

    /// <summary>What a reviewer should know about this strategy.</summary>
    public ImmutableArray<Diagnostic> Flags { get; init; } = [];

    /// <summary>Those of <see cref="Flags"/> that ask for a structural check: bars exposed by the planned depth, or by repairs.</summary>
    public IEnumerable<Diagnostic> StructuralFlags =>
        Flags.Where(f =>
            f.Code == DiagnosticCatalogue.RemovalBelowTopBars.Code
            || f.Code == DiagnosticCatalogue.RepairsExposeTopBars.Code
        );
}
