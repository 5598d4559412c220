using System.Collections.Immutable;
using DeckLife.Decisions;
using DeckLife.Reporting.Charts;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>How firm the decision is: what decides the ranking, what knowing more would be worth, what the bands are made of.</summary>
/// <param name="decision">The analysis.</param>
/// <param name="isInReport">Whether it stands on a report, which lists what its numbers rest on: they link there.</param>
public sealed class DecisionPart(DecisionAnalysis decision, bool isInReport = false) : IReportPart
{
    private const double LeastShown = 0.005;

    /// <inheritdoc/>
    public HtmlFragment ToHtml() =>
        HtmlFragment.Join(
            Parts()
                .Select(p => isInReport ? SourceLink.To(p, SourceAnchor.Decision)! : p)
                .Select(p => p.ToHtml())
        );

    /// <inheritdoc/>
    public string ToText() => string.Join("\n", Parts().Select(p => p.ToText()));

    private IEnumerable<IReportPart> Parts()
    {
        if (decision.Drivers is null)
        {
            yield return new Remark(
                "Strategies are not ranked by cost, so nothing decides between them here."
            );
        }
        else
        {
            yield return Drivers(decision.Drivers);
        }

        if (decision.Information is { } information)
        {
            yield return Information(information);
        }

        if (!decision.Waits.IsEmpty)
        {
            yield return Waits();
        }

        if (ErrorBudgetChart.Draw(decision.Budgets) is { } chart)
        {
            yield return chart;
        }
    }

    private static ReportTable Drivers(RankDrivers drivers) =>
        new(
            $"What decides between {drivers.Lead} (the lead) and {drivers.Next}",
            [
                new("Input"),
                new("From"),
                new("Share of the difference's variance", true),
                new("Monte Carlo error", true),
                new("Probability that the lead holds, input in its lowest third", true),
                new("In its highest third", true),
            ],
            [
                .. drivers
                    .Drivers.Where(d => d.Share >= LeastShown)
                    .Select(d =>
                        ImmutableArray.Create(
                            ReportCell.Words(d.Input),
                            ReportCell.Words(DecisionPhrases.Of(d.Source)),
                            ReportCell.Percent(d.Share),
                            ReportCell.Percent(d.ErrorOfShare),
                            ReportCell.Percent(d.LeadsWhenLow),
                            ReportCell.Percent(d.LeadsWhenHigh)
                        )
                    ),
            ]
        );

    private static ReportTable Information(ValueOfInformation information) =>
        new(
            $"What knowing more is worth before deciding [{information.Currency}]; now {information.ChosenNow} would be chosen",
            [
                new("What"),
                new("Worth", true),
                new("Monte Carlo error", true),
                new("Price", true),
                new("Probability that it changes the decision", true),
                new("Effective draws", true),
            ],
            [
                [
                    ReportCell.Words("everything (no survey is worth more)"),
                    ReportCell.Number(information.Perfect),
                    ReportCell.Number(information.ErrorOfPerfect),
                    ReportCell.Missing(),
                    ReportCell.Missing(),
                    ReportCell.Missing(),
                ],
                .. information.Offers.Select(o =>
                    ImmutableArray.Create(
                        ReportCell.Words(DecisionPhrases.Of(o.Offer)),
                        ReportCell.Number(o.Value),
                        ReportCell.Number(o.ErrorOfValue),
                        o.Offer.Price is { } price
                            ? ReportCell.Number(price)
                            : ReportCell.Missing("not stated"),
                        ReportCell.Percent(o.ChangeProbability),
                        ReportCell.Number(o.EffectiveDraws, 2)
                    )
                ),
            ]
        );

    private ReportTable Waits() =>
        new(
            "Waiting and sounding again, against deciding now",
            [
                new("Wait", true, FixedUnit: "yr"),
                new("Then"),
                new("Saved in the mean", true),
                new("Monte Carlo error", true),
                new("Of it by mere delay of spending", true),
                new("Monte Carlo error", true),
                new("By what the sounding shows, its price paid", true),
                new("Monte Carlo error", true),
                new("Plan without looking again"),
                new("Probability of acting", true),
                new("Probability that the deck meets its end before", true),
            ],
            [
                .. decision.Waits.Select(w =>
                    ImmutableArray.Create(
                        ReportCell.Whole(w.WaitYears),
                        ReportCell.Words(DecisionPhrases.Rule(w)),
                        ReportCell.Number(w.Gain),
                        ReportCell.Number(w.ErrorOfGain),
                        ReportCell.Number(w.GainOfDelay),
                        ReportCell.Number(w.ErrorOfGainOfDelay),
                        ReportCell.Number(w.GainOfInformation),
                        ReportCell.Number(w.ErrorOfGainOfInformation),
                        ReportCell.Words(w.DelayedTo.Length == 0 ? "nothing" : w.DelayedTo),
                        ReportCell.Percent(w.ActProbability),
                        ReportCell.Percent(w.EndsBeforeProbability)
                    )
                ),
            ]
        );
}
