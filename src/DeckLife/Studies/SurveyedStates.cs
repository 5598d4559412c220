using DeckLife.Numerics.Sampling;
using DeckLife.Population;

namespace DeckLife.Studies;

/// <summary>The draws that a projection of a deck uses, in the order of the damage that each predicts: what one input of a study picks from.</summary>
/// <remarks>
/// A draw is a whole state, and which place it has changes no distribution. In the order of the share damaged half-way to the horizon with nothing
/// done, outputs rise with the place as far as one number can tell, so evenly spread places are worth more than random ones. Checked by:
/// SurveyedStateTests.
/// </remarks>
internal sealed class SurveyedStates
{
    private readonly KnowledgeDraw[] _ordered;

    /// <summary>Puts the draws in their order.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="knowledge">What is known about it.</param>
    /// <param name="clock">The clock of its exposure.</param>
    /// <param name="unitArea">The points that stand for the area, as numbers between 0 and 1.</param>
    public SurveyedStates(
        Deck deck,
        DeckKnowledge knowledge,
        ExposureClock clock,
        double[] unitArea
    )
    {
        Learned = knowledge.Learned;
        var age = clock.ExposureAtSurveyYr + (0.5 * deck.Horizon.Years);
        var draws = FixedOrderParallel.Map(
            Learned.Used.Length,
            k =>
            {
                var draw = knowledge.Sampler.Draw(Learned.Used[k]);
                var area = UntreatedArea.Of(
                    draw.Population,
                    AreaPoints.From(draw.Population, unitArea),
                    clock
                );
                return (
                    Draw: draw,
                    Damaged: ModelDiscrepancy.Shift(area.DamagedFraction(age), draw.Discrepancy)
                );
            },
            deck.Analysis.Threads ?? 0
        );
        _ordered = [.. draws.OrderBy(d => d.Damaged).ThenBy(d => d.Draw.Index).Select(d => d.Draw)];
    }

    /// <summary>What the surveys left of the draws.</summary>
    public LearnedDraws Learned { get; }

    /// <summary>Number of draws; one that the surveys favour is there more than once.</summary>
    public int Count => _ordered.Length;

    /// <summary>The draw at a place.</summary>
    /// <param name="place">0 to 1: the share of the draws that predict less damage.</param>
    public KnowledgeDraw At(double place) =>
        _ordered[Math.Clamp((int)(place * Count), 0, Count - 1)];
}
