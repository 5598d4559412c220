using System.Collections.Immutable;

namespace DeckLife.Population;

/// <summary>Which draws of what is not known a projection uses, and what the surveys had to do with it.</summary>
internal sealed record LearnedDraws
{
    /// <summary>Indices of the draws before anything was learned, one a draw of the projection.</summary>
    public required ImmutableArray<int> Before { get; init; }

    /// <summary>Indices of the draws that the projection uses: learned where that could be done, else <see cref="Before"/>.</summary>
    public required ImmutableArray<int> Used { get; init; }

    /// <summary>Number of draws that were weighed; 0 where there was nothing to learn from.</summary>
    public int Weighed { get; init; }

    /// <summary>Effective number of draws left.</summary>
    public double EffectiveSampleSize { get; init; }

    /// <summary>Shape of the tail of the weights.</summary>
    public double ParetoShape { get; init; }

    /// <summary>Whether the surveys were learned from.</summary>
    public bool IsLearned { get; init; }

    /// <summary>The evidence.</summary>
    public SurveyEvidence? Evidence { get; init; }

    /// <summary>Two-sided probability, before learning, of a sounding survey as far off as the one found; absent without one.</summary>
    public double? SoundingPredictive { get; init; }

    /// <summary>Two-sided probability, before learning, of a half-cell survey as far off as the one found; absent without one.</summary>
    public double? HalfCellPredictive { get; init; }

    /// <summary>Share of the nodes' places that corrodes by the half-cell survey alone; absent without one.</summary>
    public double? CorrodingByHalfCell { get; init; }
}
