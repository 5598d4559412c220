using System.Collections.Immutable;
using DeckLife.Numerics.Reliability;

namespace DeckLife.Studies;

/// <summary>What plain draws say of one output.</summary>
public sealed record DrawSummary
{
    /// <summary>Number of draws.</summary>
    public required long Draws { get; init; }

    /// <summary>Number of draws with a value: those that reached, for a time to initiation.</summary>
    public required long WithValue { get; init; }

    /// <summary>Mean of the values; of a time, among the draws that reached. Absent where none has a value.</summary>
    public double? Mean { get; init; }

    /// <summary>Standard deviation of the values.</summary>
    public double? StandardDeviation { get; init; }

    /// <summary>Standard error of the mean.</summary>
    public double? StandardErrorOfMean { get; init; }

    /// <summary>Percentiles over all draws; absent where they lie among draws that did not reach.</summary>
    public required ImmutableArray<StudyPercentile> Percentiles { get; init; }

    /// <summary>The probability of the event (initiated by the age, or within the horizon), with exact limits.</summary>
    public ProbabilityEstimate? Probability { get; init; }

    /// <summary>Estimates from the first draws.</summary>
    public required ImmutableArray<DrawConvergenceRow> Convergence { get; init; }
}
