using DeckLife.Diagnostics;
using DeckLife.Fitting;

namespace DeckLife.Population;

/// <summary>What is known about a deck: where the draws of it come from, and which of them its surveys leave.</summary>
/// <param name="Sampler">Where the draws come from.</param>
/// <param name="Evidence">What the surveys found.</param>
/// <param name="Learned">The draws that a projection uses.</param>
internal sealed record DeckKnowledge(
    KnowledgeSampler Sampler,
    SurveyEvidence Evidence,
    LearnedDraws Learned
)
{
    /// <summary>Learns from cores, cover readings and surveys, with the seed and number of draws of the deck's own settings.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="fit">What its cores say.</param>
    /// <param name="cover">What its cover readings say.</param>
    /// <param name="clock">The clock of its exposure.</param>
    /// <param name="effort">How many draws are weighed by the surveys.</param>
    /// <param name="cancellation">Ends it early.</param>
    public static DeckKnowledge Learn(
        Deck deck,
        DeckFit fit,
        CoverSurvey cover,
        ExposureClock clock,
        LearningEffort effort,
        CancellationToken cancellation = default
    )
    {
        var settings = deck.Analysis;
        var evidence = SurveyEvidence.Of(deck);
        var sampler = new KnowledgeSampler(
            deck,
            fit,
            cover,
            settings.Seed,
            deck.Surveys.Learn && !evidence.IsEmpty ? effort.FirstDraws : settings.Draws,
            evidence.FiniteAreaSd
        );
        using var phase = PhaseTrace.Begin("learn from the surveys");
        return new(
            sampler,
            evidence,
            new SurveyLearner(deck, sampler, clock, effort).Learn(
                evidence,
                settings.Draws,
                cancellation
            )
        );
    }
}
