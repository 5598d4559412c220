using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Rehabilitation;

namespace DeckLife.Studies;

/// <summary>What all draws of a study of a deck start from: the middle of what is known, and the strategy as it would be let.</summary>
internal sealed class DeckBasis
{
    private readonly Lazy<SurveyedStates> _states;

    /// <summary>Fits the deck and plans the strategy.</summary>
    /// <exception cref="DeckFitRefusedException">The cores can't be fitted as a deck.</exception>
    /// <exception cref="ProjectionRefusedException">The deck can't be projected, or not with this strategy.</exception>
    public DeckBasis(
        Deck deck,
        string strategy,
        int points,
        DeckFit? fit = null,
        LearningEffort? effort = null
    )
    {
        var one = deck with { Strategies = [.. deck.Strategies.Where(s => s.Name == strategy)] };
        if (one.Strategies.IsEmpty)
        {
            throw new ProjectionRefusedException([
                DiagnosticCatalogue.StudyDeckUnusable.With(
                    $"{deck.Name} has no strategy \"{strategy}\"; it has {string.Join(", ", deck.Strategies.Select(s => $"\"{s.Name}\""))}."
                ),
            ]);
        }

        Cover = DeckProjector.CheckedCover(one);
        Clock = new(deck.ExposureAge.Years, deck.ConcreteAgeAtFirstSalt.Years, deck.AgeingExponent);
        fit ??= DeckFitter.Fit(
            [.. deck.Cores.Select(c => ProfileFitter.Fit(c))],
            DeckAnalysis.OptionsFor(deck)
        );
        Centre = new KnowledgeSampler(one, fit, Cover, deck.Analysis.Seed, 1).Centre();
        var (plans, refused) = DeckProjector.Plan(one, Clock, Centre, deck.Analysis);
        if (plans.Length == 0)
        {
            throw new ProjectionRefusedException([refused[0].Reason]);
        }

        Plan = plans[0];
        UnitArea = UnitPoints.ForArea(deck.Analysis.Seed, 0, points, AreaPoints.Dimensions);
        _states = new(() =>
            new(
                one,
                DeckKnowledge.Learn(one, fit, Cover, Clock, effort ?? LearningEffort.Full),
                Clock,
                UnitArea
            )
        );
    }

    /// <summary>What the cover readings say.</summary>
    public CoverSurvey Cover { get; }

    /// <summary>The clock of the deck's exposure.</summary>
    public ExposureClock Clock { get; }

    /// <summary>The middle of what is known.</summary>
    public KnowledgeDraw Centre { get; }

    /// <summary>The strategy as it would be let.</summary>
    public StrategyPlan Plan { get; }

    /// <summary>The draws that a projection uses; learned from the surveys when first asked for.</summary>
    public SurveyedStates States => _states.Value;

    /// <summary>The points that stand for the area, as numbers between 0 and 1.</summary>
    public double[] UnitArea { get; }
}
