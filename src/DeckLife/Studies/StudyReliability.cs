using System.Collections.Immutable;
using DeckLife.Numerics.Reliability;

namespace DeckLife.Studies;

/// <summary>FORM, SORM and importance sampling of one event.</summary>
public sealed record StudyReliability
{
    /// <summary>The design points found, the nearest first; empty where none was.</summary>
    public required ImmutableArray<DesignPoint> Points { get; init; }

    /// <summary>How the search from the origin ended.</summary>
    public required DesignPointStatus FromOrigin { get; init; }

    /// <summary>Curvature and corrected probabilities, one a design point.</summary>
    public required ImmutableArray<SecondOrderResult> SecondOrder { get; init; }

    /// <summary>The probability by sampling around all design points.</summary>
    public required ProbabilityEstimate Probability { get; init; }
}
