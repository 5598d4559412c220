using System.Collections.Immutable;
using DeckLife.Decisions;
using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Mapping;

namespace DeckLife.Projection;

/// <summary>The projection of a deck under each of its strategies.</summary>
public sealed record DeckProjection
{
    /// <summary>The deck.</summary>
    public required Deck Deck { get; init; }

    /// <summary>The fit of each core.</summary>
    public required ImmutableArray<ProfileFit> Cores { get; init; }

    /// <summary>The fit of the deck.</summary>
    public required DeckFit Fit { get; init; }

    /// <summary>One projection a strategy, in the deck's order.</summary>
    public required ImmutableArray<StrategyProjection> Strategies { get; init; }

    /// <summary>Everything assumed, from the folder and from the models.</summary>
    public required ImmutableArray<Assumption> Assumptions { get; init; }

    /// <summary>Cautions for the first screen.</summary>
    public required ImmutableArray<string> Cautions { get; init; }

    /// <summary>What the model said of the deck's own surveys; absent where there are none to learn from.</summary>
    public SurveyHindcast? Hindcast { get; init; }

    /// <summary>The draws behind the bands, for what is asked of them afterwards; absent where they were not kept.</summary>
    public ProjectionDraws? Draws { get; init; }

    /// <summary>Where on the deck corrosion and damage are probable; absent where no survey has positions, or nothing could be learned.</summary>
    public DeckMap? Map { get; init; }

    /// <summary>Strategies that were refused, with the reason.</summary>
    public ImmutableArray<RefusedStrategy> Refused { get; init; } = [];

    /// <summary>Size and seed that were used.</summary>
    public AnalysisSettings Settings { get; init; } = new();

    /// <summary>What a reviewer should know about the whole projection.</summary>
    public ImmutableArray<Diagnostic> Flags { get; init; } = [];
}
