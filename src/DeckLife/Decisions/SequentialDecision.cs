using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;

namespace DeckLife.Decisions;

/// <summary>Waiting and looking again against deciding now: an overlay in some years if the re-survey then shows so much damage.</summary>
/// <remarks>
/// Until the wait ends nothing is done. Where the deck meets its end before, it is renewed and no re-survey takes place. The rule is found
/// on half of the draws and judged on the other half, both ways round, so that the gain is that of a rule that could be followed. Much of
/// a gain may be nothing but later spending, discounted: that part is told apart from what looking again adds.
/// </remarks>
public sealed record SequentialDecision
{
    /// <summary>Draws of the projection behind it: a numerical choice; a rule is then fitted to 200 and judged on 200, and the gain's limits say what that leaves.</summary>
    public const int Draws = 400;

    private const int AreaPoints = 64;

    /// <summary>Years until the re-survey.</summary>
    public required int WaitYears { get; init; }

    /// <summary>The strategy that would be chosen now.</summary>
    public required string Now { get; init; }

    /// <summary>The strategy that the rule carries out after the re-survey.</summary>
    public required string Later { get; init; }

    /// <summary>Share found damaged at which the rule acts; absent where it never does.</summary>
    public double? TriggerShare { get; init; }

    /// <summary>Whether it acts from that share up; else from it down, since too damaged a deck isn't worth an overlay.</summary>
    public bool ActsFromShareUp { get; init; } = true;

    /// <summary>Probability that it acts.</summary>
    public required double ActProbability { get; init; }

    /// <summary>Probability that the deck meets its end before the re-survey.</summary>
    public required double EndsBeforeProbability { get; init; }

    /// <summary>Mean present value saved by waiting rather than deciding now, the re-survey paid; negative: waiting costs.</summary>
    public required double Gain { get; init; }

    /// <summary>Monte Carlo standard error of it.</summary>
    public required double ErrorOfGain { get; init; }

    /// <summary>
    /// Mean present value saved by the best plan for that day that does not look again: what plain delay of spending is worth. Such a plan
    /// pays for no re-survey; it too is chosen on half of the draws and judged on the other half.
    /// </summary>
    public required double GainOfDelay { get; init; }

    /// <summary>Monte Carlo standard error of it.</summary>
    public required double ErrorOfGainOfDelay { get; init; }

    /// <summary>The strategy of that plan; empty where it does nothing.</summary>
    public required string DelayedTo { get; init; }

    /// <summary>What the re-survey adds to <see cref="GainOfDelay"/>, its price paid; both together are <see cref="Gain"/>.</summary>
    public required double GainOfInformation { get; init; }

    /// <summary>Monte Carlo standard error of it.</summary>
    public required double ErrorOfGainOfInformation { get; init; }

    /// <summary>Price of the re-survey that was counted.</summary>
    public required double SurveyPrice { get; init; }

    /// <summary>Works it out for several waits.</summary>
    /// <param name="projection">The projection; its deck's strategies are those of now.</param>
    /// <param name="waitYears">Whole years to wait, within the horizon.</param>
    /// <param name="cancellation">Ends it early.</param>
    /// <returns>One a wait; empty where strategies are not ranked by cost, or none can be delayed.</returns>
    public static ImmutableArray<SequentialDecision> Of(
        DeckProjection projection,
        ImmutableArray<int> waitYears,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(projection);
        using var phase = PhaseTrace.Begin("waiting");
        var deck = projection.Deck;
        var waits = waitYears.Where(w => w > 0 && w < deck.Horizon.Years).Distinct().ToArray();
        var active = deck.Strategies.Where(s => !s.Interventions.IsEmpty).ToArray();
        if (deck.Prices is not { PricesTheEnd: true } || waits.Length == 0 || active.Length == 0)
        {
            return [];
        }

        var nothing = new Strategy { Name = "\u0001nothing" };
        var delayed = waits
            .SelectMany(w => active.Select(s => Delayed(s, w)))
            .OfType<Strategy>()
            .ToArray();
        var run = DeckProjector.ProjectWithoutRecord(
            deck with
            {
                Strategies = [nothing, .. deck.Strategies, .. delayed],
                Analysis = deck.Analysis with { Draws = Draws, Points = AreaPoints },
            },
            projection.Fit,
            cancellation
        );
        var draws = run.Draws!;
        var now = deck
            .Strategies.Select(s => draws.Of(s.Name))
            .OfType<StrategyOutcomes>()
            .MinBy(s => s.PresentValues.Average());
        return now is null
            ? []
            : [.. waits.Select(w => Wait(deck, draws, now, draws.Of(nothing.Name)!, w))];
    }

    private static SequentialDecision Wait(
        Deck deck,
        ProjectionDraws draws,
        StrategyOutcomes now,
        StrategyOutcomes nothing,
        int wait
    )
    {
        var later = deck
            .Strategies.Where(s => !s.Interventions.IsEmpty)
            .Select(s =>
                (s.Name, Outcomes: draws.Of(BeginsAfter(s, wait) ? s.Name : NameOf(s, wait)))
            )
            .Where(s => s.Outcomes is not null)
            .Select(s => (s.Name, s.Outcomes!.PresentValues))
            .ToArray();
        var price =
            deck.InformationOffers.FirstOrDefault(o => o.Kind == InformationKind.Sounding)?.Price
            ?? 0;
        var paid = price * new Economics.DiscountRate(deck.DiscountRate).PresentWorth(wait);
        var places =
            deck.InformationOffers.FirstOrDefault(o => o.Kind == InformationKind.Sounding)?.Count
            ?? Math.Max(1, (int)Math.Round(deck.AreaM2 / ValueOfInformation.AreaOfAPlaceM2));
        var survey = new SoundingSamples(
            [
                .. Enumerable
                    .Range(0, draws.Count)
                    .Select(k => nothing.DamagedAt(wait, k) * deck.Surveys.DetectionProbability),
            ],
            places,
            deck.Analysis.Seed
        );
        var problem = new WaitRule.Problem(
            nothing.PresentValues,
            [.. later.Select(l => l.PresentValues)],
            [.. Enumerable.Range(0, draws.Count).Select(survey.Found)],
            [.. nothing.LivesYr.Select(l => l > wait)],
            paid
        );
        var all = Enumerable.Range(0, draws.Count).ToArray();
        var rule = WaitRule.Find(problem, all);
        var ruled = OnOtherHalf(draws, half => WaitRule.Find(problem, half), problem);
        var unseen = problem with { SurveyPrice = 0 };
        var blind = OnOtherHalf(draws, half => WaitRule.FindBlind(unseen, half), unseen);
        var gain = PairedMean.Difference(now.PresentValues, ruled);
        var delay = PairedMean.Difference(now.PresentValues, blind);
        var information = PairedMean.Difference(blind, ruled);
        var plan = WaitRule.FindBlind(unseen, all).Later;
        return new()
        {
            WaitYears = wait,
            Now = now.Name,
            Later = rule.Later < 0 ? "" : later[rule.Later].Name,
            TriggerShare = rule.Later < 0 ? null : (double)rule.Trigger / places,
            ActsFromShareUp = rule.Up,
            ActProbability = all.Average(k => rule.Acts(problem, k) ? 1.0 : 0),
            EndsBeforeProbability = problem.IsStanding.Average(s => s ? 0.0 : 1),
            Gain = gain.Mean,
            ErrorOfGain = gain.Error,
            GainOfDelay = delay.Mean,
            ErrorOfGainOfDelay = delay.Error,
            DelayedTo = plan < 0 ? "" : later[plan].Name,
            GainOfInformation = information.Mean,
            ErrorOfGainOfInformation = information.Error,
            SurveyPrice = price,
        };
    }

    // Present value of each draw under the rule that was found on the half of the draws that it does not belong to.
    private static double[] OnOtherHalf(
        ProjectionDraws draws,
        Func<IEnumerable<int>, WaitRule> find,
        WaitRule.Problem problem
    )
    {
        var halves = Enumerable.Range(0, draws.Count).ToLookup(k => draws.Indices[k] % 2 == 0);
        var (odd, even) = (find(halves[false]), find(halves[true]));
        return [.. draws.Indices.Select((d, k) => (d % 2 == 0 ? odd : even).Cost(problem, k))];
    }

    private static string NameOf(Strategy strategy, int wait) =>
        FormattableString.Invariant($"\u0001{wait} {strategy.Name}");

    // What begins after the wait anyway stays as it is.
    private static bool BeginsAfter(Strategy strategy, int wait) =>
        strategy.Interventions.Min(i => i.At.Years) > wait;

    // All dates moved by as much as the first has to move.
    private static Strategy? Delayed(Strategy strategy, int wait)
    {
        var first = strategy.Interventions.Min(i => i.At.Years);
        return BeginsAfter(strategy, wait)
            ? null
            : strategy with
            {
                Name = NameOf(strategy, wait),
                Interventions =
                [
                    .. strategy.Interventions.Select(i =>
                        i with
                        {
                            At = Age.FromYears(i.At.Years + wait - first),
                        }
                    ),
                ],
            };
    }
}
