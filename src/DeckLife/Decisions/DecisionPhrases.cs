using static System.FormattableString;

namespace DeckLife.Decisions;

/// <summary>Parts of a decision in words, for terminals, pages and notebooks alike.</summary>
public static class DecisionPhrases
{
    /// <summary>An offer in words.</summary>
    /// <param name="offer">The offer.</param>
    public static string Of(InformationOffer offer)
    {
        ArgumentNullException.ThrowIfNull(offer);
        return offer.Kind switch
        {
            InformationKind.Cores => Invariant($"{offer.Count} more cores"),
            InformationKind.CoverReadings => Invariant($"{offer.Count} more cover readings"),
            _ => Invariant($"sounding once more ({offer.Count} independent places)"),
        };
    }

    /// <summary>A source in words.</summary>
    /// <param name="source">The source.</param>
    public static string Of(InputSource source) =>
        source switch
        {
            InputSource.Cores => "cores",
            InputSource.CoverSurvey => "cover survey",
            InputSource.Threshold => "threshold",
            InputSource.Propagation => "time to damage",
            InputSource.ModelForm => "model form",
            InputSource.Materials => "overlay materials",
            _ => "prices",
        };

    /// <summary>What is done after a wait, in words.</summary>
    /// <param name="wait">The wait.</param>
    public static string Rule(SequentialDecision wait)
    {
        ArgumentNullException.ThrowIfNull(wait);
        return wait.TriggerShare is not { } trigger ? "nothing whatever the sounding shows"
            : wait.ActProbability + wait.EndsBeforeProbability > 1 - 1e-9
                ? $"{wait.Later} whatever the sounding shows"
            : Invariant(
                $"{wait.Later} if the sounding shows {(wait.ActsFromShareUp ? "at least" : "at most")} {100 * trigger:0.#} % damaged (probability {wait.ActProbability:0.00})"
            );
    }

    /// <summary>How much of what waiting brings is plain delay, and what looking again adds, in words.</summary>
    /// <param name="wait">The wait.</param>
    /// <param name="amount">Writes an amount of money; absent: to the unit of the currency.</param>
    public static string Split(SequentialDecision wait, Func<double, string>? amount = null)
    {
        ArgumentNullException.ThrowIfNull(wait);
        amount ??= a => Invariant($"{a:#,0}");
        var plan = wait.DelayedTo.Length == 0 ? "doing nothing" : $"{wait.DelayedTo} then";
        return $"saved by mere delay of spending ({plan}, without looking again): {amount(wait.GainOfDelay)} (±{amount(wait.ErrorOfGainOfDelay)}); by what the sounding shows{(wait.SurveyPrice > 0 ? ", its price paid" : "")}: {amount(wait.GainOfInformation)} (±{amount(wait.ErrorOfGainOfInformation)})";
    }

    /// <summary>"saves" or "costs".</summary>
    /// <param name="gain">What is saved; negative: what it costs.</param>
    public static string SavesOrCosts(double gain) => gain >= 0 ? "saves" : "costs";

    /// <summary>Waiting in words.</summary>
    /// <param name="wait">The wait.</param>
    public static string Of(SequentialDecision wait)
    {
        ArgumentNullException.ThrowIfNull(wait);
        var ends =
            wait.EndsBeforeProbability > 0
                ? Invariant(
                    $"; with probability {wait.EndsBeforeProbability:0.00} the deck meets its end before"
                )
                : "";
        return Invariant(
            $"waiting {wait.WaitYears} years, sounding again, then {Rule(wait)}: {SavesOrCosts(wait.Gain)} {Math.Abs(wait.Gain):#,0} (±{wait.ErrorOfGain:#,0}) against {wait.Now} now{(wait.SurveyPrice > 0 ? Invariant($", the sounding's {wait.SurveyPrice:#,0} paid") : ", the sounding's own price not counted")}{ends}; {Split(wait)}"
        );
    }
}
