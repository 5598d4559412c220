using System.Collections.Immutable;

namespace DeckLife.Projection;

/// <summary>What the model said of the deck's own surveys, before and after learning from them.</summary>
public sealed record SurveyHindcast
{
    /// <summary>Share of the deck that sounding found hollow or spalled; absent without a sounding survey.</summary>
    public double? SurveyedUnsound { get; init; }

    /// <summary>Share of the deck that was patched.</summary>
    public double SurveyedPatched { get; init; }

    /// <summary>Share of the nodes' places that corrodes by the half-cell survey alone; absent without one that counts.</summary>
    public double? CorrodingByHalfCell { get; init; }

    /// <summary>Independent places that the sounding is worth.</summary>
    public double SoundingPlaces { get; init; }

    /// <summary>Half-cell nodes used.</summary>
    public int Nodes { get; init; }

    /// <summary>Independent readings that those nodes are worth.</summary>
    public double IndependentNodes { get; init; }

    /// <summary>Correlation length on the deck [m].</summary>
    public double CorrelationLengthM { get; init; }

    /// <summary>
    /// Standard deviation of the shift of the shares' normal score that comes from the deck being one finite area on which hollow places cluster;
    /// 0 where no sounded area has corners.
    /// </summary>
    public double FiniteAreaSd { get; init; }

    /// <summary>Draws weighed.</summary>
    public int DrawsWeighed { get; init; }

    /// <summary>Effective number of draws left; below 100 nothing is called learned.</summary>
    public double EffectiveSampleSize { get; init; }

    /// <summary>Shape of the tail of the weights: above 0.7 they are not to be trusted.</summary>
    public double ParetoShape { get; init; }

    /// <summary>Whether the projection rests on learned draws.</summary>
    public bool IsLearned { get; init; }

    /// <summary>Two-sided probability of such a sounding survey before learning; absent without one.</summary>
    public double? SoundingPredictive { get; init; }

    /// <summary>Two-sided probability of such a half-cell survey before learning; absent without one.</summary>
    public double? HalfCellPredictive { get; init; }

    /// <summary>The deck that nothing is done to, before learning.</summary>
    public required ImmutableArray<CurvePoint> CurveBefore { get; init; }

    /// <summary>The same after learning; absent where nothing could be learned.</summary>
    public ImmutableArray<CurvePoint>? CurveAfter { get; init; }
}
