using System.Collections.Immutable;
using DeckLife.Diagnostics;

namespace DeckLife.Transport;

/// <summary>What the transport engine found, with its error estimate and mass balance.</summary>
public sealed record IngressResult
{
    /// <summary>One row a query, in the order asked.</summary>
    public required ImmutableArray<IngressRow> Rows { get; init; }

    /// <summary>Estimate of the largest error of the rows [kg/m³].</summary>
    public required double ErrorEstimateKgPerM3 { get; init; }

    /// <summary>Mass not accounted for, as a share of the largest mass held.</summary>
    public required double MassBalanceError { get; init; }

    /// <summary>Whether the estimate is below the tolerance.</summary>
    public required bool IsConverged { get; init; }

    /// <summary>Whether the computation was completed; if not there are no rows, and a diagnostic says so.</summary>
    public bool IsComplete => Rows.Length > 0 || Diagnostics.IsEmpty;

    /// <summary>Warnings and notes.</summary>
    public ImmutableArray<Diagnostic> Diagnostics { get; init; } = [];
}
