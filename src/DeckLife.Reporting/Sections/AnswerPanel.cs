using System.Text;
using DeckLife.Decisions;
using DeckLife.Fitting;
using DeckLife.Projection;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;

namespace DeckLife.Reporting.Sections;

/// <summary>The first screen: what to do, how deep, how long with band and criterion, at what cost, how sure; and the cautions.</summary>
/// <param name="projection">The projection.</param>
/// <param name="map">Removal depth against overlay thickness; absent: the best depth is not told.</param>
/// <param name="decision">How firm the decision is; absent: not told.</param>
/// <param name="isInReport">Whether it stands on a report, which lists what its numbers rest on: they link there.</param>
public sealed class AnswerPanel(
    DeckProjection projection,
    DepthMap? map = null,
    DecisionAnalysis? decision = null,
    bool isInReport = false
) : IReportPart
{
    /// <inheritdoc/>
    public HtmlFragment ToHtml()
    {
        var lead = LeadingStrategy.Of(projection);
        var html = new StringBuilder();
        html.Append("<div class=\"dl-answer\"><div class=\"dl-answer-main\">");
        html.Append(
            HtmlFragment.Of(
                $"<p class=\"dl-deckline\">{projection.Deck.Name}: {Linked(SourceAnchor.Area, QuantityHtml.Value(UnitScale.Area, projection.Deck.AreaM2))}, surveyed {Linked(SourceAnchor.Survey, HtmlFragment.FromText(NumberNotation.Fixed(projection.Deck.SurveyYear, 0)))} after {Linked(SourceAnchor.Exposure, HtmlFragment.FromText(NumberNotation.Trimmed(projection.Deck.ExposureAge.Years)))} years of salt</p>"
            )
        );
        if (lead is null)
        {
            html.Append("<p class=\"dl-headline\">The deck names no strategies to compare.</p>");
        }
        else
        {
            html.Append(HtmlFragment.Of($"<p class=\"dl-headline\">{Headline(lead)}</p>"));
            html.Append(Facts(lead));
            html.Append(DecisionWords.Alternative(map, projection, lead));
        }

        html.Append("</div>");
        html.Append(Cautions());
        html.Append("<div class=\"dl-answer-table\">");
        if (lead is not null)
        {
            html.Append(
                (StrategyTable.Of(projection) with { LinksNumbers = isInReport }).ToHtml(
                    "dl-strategies"
                )
            );
            html.Append(
                !isInReport
                    ? ""
                    : "<p class=\"dl-note dl-screen\">A number with a dotted line leads to what it rests on.</p>"
            );
        }

        html.Append(StrategyFlags());
        // Under the table that decides: that one belongs on the first screen.
        html.Append(lead is null ? HtmlFragment.Empty : DecisionWords.HowSure(decision));
        html.Append(lead is null ? HtmlFragment.Empty : DecisionWords.BeforeDeciding(decision));
        html.Append("</div></div>");
        return new(html.ToString());
    }

    /// <inheritdoc/>
    public string ToText()
    {
        var lead = LeadingStrategy.Of(projection);
        return (
                lead is null
                    ? "The deck names no strategies to compare.\n"
                    : $"{projection.Deck.Name}: {lead.Strategy.Name} is recommended. {LifeText.Sentence(lead.ServiceLife, projection.Deck.Horizon.Years)}\n{DecisionWords.AlternativeText(map, projection, lead)}{DecisionWords.HowSureText(decision)}\n{StrategyTable.Of(projection).ToText()}"
            )
            + "\nCautions\n"
            + string.Concat(StandingCautions.For(projection).Select(c => $"- {c}\n"));
    }

    private HtmlFragment Headline(StrategyProjection lead)
    {
        var ranked = projection.Strategies.Length;
        return lead.ExpectedRegret is not null
            ? HtmlFragment.Of(
                $"Recommended, of the deck's {ranked} strategies: <b>{lead.Strategy.Name}</b>. It costs the least in the mean over {NumberNotation.Trimmed(projection.Deck.Horizon.Years)} years."
            )
            : HtmlFragment.Of(
                $"Of the deck's {ranked} strategies, <b>{lead.Strategy.Name}</b> lasts the longest in the median. {Unranked()}"
            );
    }

    private string Unranked() =>
        projection.Strategies.Any(s => s.Cost is not null)
            ? "They are not ranked by cost, for the reason below."
            : "No prices were given, so no cost is compared.";

    private HtmlFragment Facts(StrategyProjection lead)
    {
        var horizon = projection.Deck.Horizon.Years;
        var chosen = SourceAnchor.Strategy(projection.Deck, lead.Strategy.Name);
        var facts = new List<HtmlFragment>
        {
            Fact(
                "Take off",
                StrategyWords.RemovalDepth(lead),
                StrategyWords.RemovalNote(lead),
                StrategyWords.IsRemovalByRule(lead) ? SourceAnchor.RemovalDepth : chosen
            ),
            Fact(
                "Put on",
                StrategyWords.Overlay(lead),
                HtmlFragment.FromText(
                    lead.Strategy.Interventions.IsEmpty
                        ? "no overlay in this strategy."
                        : $"in {StrategyWords.Years(lead, projection.Deck.SurveyYear)}"
                ),
                chosen
            ),
            Fact(
                "Lasts",
                HtmlFragment.FromText(
                    lead.ServiceLife.P50Yr is { } median
                        ? $"{LifeText.Years(median)} years"
                        : $"over {NumberNotation.Trimmed(horizon)} years"
                ),
                HtmlFragment.FromText(
                    LifeText.Band(lead.ServiceLife, horizon)
                        + ". End: "
                        + lead.ServiceLife.Criterion
                ),
                SourceAnchor.ServiceLife
            ),
        };
        if (lead.Cost is { } cost)
        {
            facts.Add(
                Fact(
                    "Costs, in the mean",
                    HtmlFragment.FromText(
                        NumberNotation.Money(cost.MeanPresentValue, cost.Currency)
                    ),
                    HtmlFragment.FromText(
                        $"present value; median {Amount(cost.PresentValue.P50)}, 5–95 %: {Amount(cost.PresentValue.P05)} to {Amount(cost.PresentValue.P95)}; prices of {NumberNotation.Fixed(cost.PriceYear, 0)}"
                    ),
                    SourceAnchor.PresentValue
                )
            );
        }

        var usable = projection.Cores.Count(c => c.Status != FitStatus.Refused);
        facts.Add(
            Fact(
                "How sure",
                HtmlFragment.FromText(
                    lead.CheapestProbability is { } p
                        ? NumberNotation.Percent(p) + " likely"
                        : "not ranked"
                ),
                HtmlFragment.FromText(
                    (
                        lead.CheapestProbability is { } q
                            ? $"to be the cheapest{StrategyTable.Error(lead)}: {LeadingStrategy.Confidence(q)}. "
                            : ""
                    )
                        + $"Rests on {usable} of {projection.Cores.Length} cores and {projection.Deck.Covers.Length} cover readings"
                ),
                lead.CheapestProbability is null ? "data-quality" : SourceAnchor.Cheapest
            )
        );
        return HtmlFragment.Of($"<dl class=\"dl-facts\">{HtmlFragment.Join(facts)}</dl>");
    }

    private static string Amount(double amount) => NumberNotation.Money(amount, "").TrimStart();

    private HtmlFragment Fact(string name, HtmlFragment value, HtmlFragment note, string source) =>
        HtmlFragment.Of(
            $"<div><dt>{name}</dt><dd class=\"dl-value\">{value}</dd><dd class=\"dl-note\">{note}.{(isInReport ? HtmlFragment.Of($" <a href=\"#{source}\" aria-label=\"Basis of: {name}\">Basis</a>") : HtmlFragment.Empty)}</dd></div>"
        );

    private HtmlFragment Linked(string anchor, HtmlFragment number) =>
        !isInReport
            ? number
            : HtmlFragment.Of($"<a class=\"dl-basis\" href=\"#{anchor}\">{number}</a>");

    private HtmlFragment Cautions() =>
        HtmlFragment.Of(
            $"<section class=\"dl-cautions\" aria-label=\"Cautions\"><p class=\"dl-cautions-head\">Cautions</p><ul>{HtmlFragment.Join(StandingCautions.For(projection).Select(c => HtmlFragment.Of($"<li>{c}</li>")))}</ul></section>"
        );

    private HtmlFragment StrategyFlags()
    {
        var flags = projection
            .Strategies.SelectMany(s => s.Flags.Select(f => (s.Strategy.Name, Flag: f)))
            .Concat(projection.Flags.Select(f => (Name: "All strategies", Flag: f)))
            .Concat(projection.Refused.Select(r => (r.Strategy.Name, Flag: r.Reason)))
            .ToList();
        return flags.Count == 0
            ? HtmlFragment.Empty
            : HtmlFragment.Of(
                $"<ul class=\"dl-flags\">{HtmlFragment.Join(flags.Select(f => HtmlFragment.Of($"<li><b>{f.Name}</b>: {MessageHtml.Of(f.Flag)} <span class=\"dl-code\">{f.Flag.Code}</span></li>")))}</ul>"
            );
    }
}
