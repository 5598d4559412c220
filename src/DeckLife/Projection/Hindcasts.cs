using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Population;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>Makes the record of what the surveys changed, and says where they contradict the model.</summary>
internal static class Hindcasts
{
    /// <summary>Two-sided probability below which a survey contradicts the model.</summary>
    /// <remarks>Judgement: a model that holds is then contradicted by one survey in fifty, by chance; at half or twice of it by one in a hundred or in 25.</remarks>
    private const double Contradiction = 0.02;

    // Tail shape above which Pareto-smoothed weights are not to be trusted (Vehtari et al. 2024, from memory).
    private const double TrustedShape = 0.7;

    /// <summary>The plan of a deck that nothing is done to.</summary>
    public static StrategyPlan Nothing { get; } = new(new() { Name = "nothing" }, []);

    /// <summary>Makes the record.</summary>
    /// <param name="run">The run, to follow the draws that were not learned from.</param>
    /// <param name="learned">What was learned.</param>
    /// <param name="after">The untouched deck in the draws used for the projection.</param>
    public static SurveyHindcast Make(ProjectionRun run, LearnedDraws learned, StrategyDraw[] after)
    {
        using var phase = PhaseTrace.Begin("record of the surveys");
        var evidence = learned.Evidence!;
        return new()
        {
            SurveyedUnsound = evidence.UnsoundShare,
            SurveyedPatched = evidence.PatchedShare,
            CorrodingByHalfCell = learned.CorrodingByHalfCell,
            SoundingPlaces = evidence.SoundingPlaces,
            Nodes = evidence.PotentialsMv.Count,
            IndependentNodes = evidence.IndependentNodes,
            CorrelationLengthM = evidence.CorrelationLengthM,
            FiniteAreaSd = evidence.FiniteAreaSd,
            DrawsWeighed = learned.Weighed,
            EffectiveSampleSize = learned.EffectiveSampleSize,
            ParetoShape = learned.ParetoShape,
            IsLearned = learned.IsLearned,
            SoundingPredictive = learned.SoundingPredictive,
            HalfCellPredictive = learned.HalfCellPredictive,
            CurveBefore = StrategySummary.Curve(
                learned.IsLearned ? run.Follow([Nothing], learned.Before)[0] : after
            ),
            CurveAfter = learned.IsLearned ? StrategySummary.Curve(after) : null,
        };
    }

    /// <summary>What a reviewer should know about it.</summary>
    public static IEnumerable<Diagnostic> Flags(LearnedDraws learned)
    {
        if (learned.Evidence is null)
        {
            yield break;
        }

        if (learned.SoundingPredictive < Contradiction)
        {
            yield return DiagnosticCatalogue.SurveyContradictsModel.With(
                "sounding",
                learned.SoundingPredictive.Value
            );
        }

        if (learned.HalfCellPredictive < Contradiction)
        {
            yield return DiagnosticCatalogue.SurveyContradictsModel.With(
                "half-cell",
                learned.HalfCellPredictive.Value
            );
        }

        if (!learned.IsLearned)
        {
            yield return DiagnosticCatalogue.SurveysNotLearned.With(
                learned.EffectiveSampleSize,
                learned.Weighed
            );
        }
        else if (learned.ParetoShape > TrustedShape)
        {
            yield return DiagnosticCatalogue.WeightsNotTrusted.With(learned.ParetoShape);
        }
    }
}
