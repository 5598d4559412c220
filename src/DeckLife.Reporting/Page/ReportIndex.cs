using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Sections;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Page;

/// <summary>The page that lists the reports of several decks, those that could not be made with their reasons.</summary>
public static class ReportIndex
{
    /// <summary>Makes the page.</summary>
    /// <param name="entries">The decks in the order that they were asked for.</param>
    /// <param name="units">The units shown first.</param>
    /// <param name="made">When the reports were made, in words; absent: not said.</param>
    public static string Render(
        ImmutableArray<ReportIndexEntry> entries,
        UnitSystem units,
        string? made = null
    )
    {
        var complete = entries.Count(e => e.Problems.IsEmpty);
        var cautions = entries
            .Where(e => e.Projection is not null)
            .SelectMany(e => StandingCautions.For(e.Projection!))
            .Distinct(StringComparer.Ordinal)
            .ToList();
        var body = HtmlFragment.Of(
            $"""
            <h1>Reports of {entries.Length} decks</h1>
            <div class="dl-answer"><div class="dl-answer-main"><p class="dl-headline">{complete} of {entries.Length} reports are complete.</p></div>
            {Cautions(cautions)}
            <div class="dl-answer-table">{Table(entries).ToHtml("dl-decks")}</div></div>
            {NotComplete(entries)}
            """
        );
        return new HtmlPage
        {
            Title = "Reports of several decks",
            Units = units,
            Body = body,
            HasCharts = false,
            Made = made,
            Version = Provenance.Version().Version,
        }.Render();
    }

    private static HtmlFragment Cautions(List<string> cautions) =>
        cautions.Count == 0
            ? HtmlFragment.Empty
            : HtmlFragment.Of(
                $"<section class=\"dl-cautions\" aria-label=\"Cautions\"><p class=\"dl-cautions-head\">Cautions</p><ul>{HtmlFragment.Join(cautions.Select(c => HtmlFragment.Of($"<li>{c}</li>")))}</ul></section>"
            );

    private static ReportTable Table(ImmutableArray<ReportIndexEntry> entries) =>
        new(
            "Recommended strategy of each deck: of least mean present value, else the longest-lived",
            [
                new("Deck"),
                new("Recommended strategy"),
                new("Removal"),
                new("Overlay"),
                new("Years to the limit, median (5\u00A0to\u00A095\u00A0%)"),
                new("Present value, mean", true),
                new("Report"),
            ],
            [.. entries.Select(Row)]
        )
        {
            StacksOnPhones = true,
        };

    private static ImmutableArray<ReportCell> Row(ReportIndexEntry entry)
    {
        var name = entry.Page is { } page
            ? ReportCell.Fragment(
                HtmlFragment.Of($"<a href=\"{Relative(page)}\">{entry.Name}</a>"),
                entry.Name
            )
            : ReportCell.Words(entry.Name);
        var state = ReportCell.Words(
            entry.Problems.IsEmpty ? "complete"
            : entry.Page is null ? "not made"
            : "not complete"
        );
        return entry.Projection is { } projection && LeadingStrategy.Of(projection) is { } lead
            ?
            [
                name,
                ReportCell.Words(lead.Strategy.Name),
                ReportCell.Fragment(StrategyWords.Removal(lead), StrategyWords.RemovalText(lead)),
                ReportCell.Fragment(StrategyWords.Overlay(lead), StrategyWords.OverlayText(lead)),
                ReportCell.Words(LifeText.Brief(lead.ServiceLife, projection.Deck.Horizon.Years)),
                lead.Cost is { } cost
                    ? ReportCell.Words(NumberNotation.Money(cost.MeanPresentValue, cost.Currency))
                    : ReportCell.Missing("no price"),
                state,
            ]
            :
            [
                name,
                ReportCell.Missing(),
                ReportCell.Missing(),
                ReportCell.Missing(),
                ReportCell.Missing(),
                ReportCell.Missing(),
                state,
            ];
    }

    private static HtmlFragment NotComplete(ImmutableArray<ReportIndexEntry> entries)
    {
        var rows = entries
            .SelectMany(e => e.Problems.Select(p => (e.Name, Problem: p)))
            .Select(r =>
                ImmutableArray.Create(
                    ReportCell.Words(r.Name),
                    ReportCell.Words(r.Problem.Place),
                    ReportCell.Fragment(MessageHtml.Of(r.Problem), r.Problem.Text),
                    ReportCell.Words(r.Problem.Code)
                )
            )
            .ToImmutableArray();
        return rows.IsEmpty
            ? HtmlFragment.Empty
            : HtmlFragment.Of(
                $"<h2 id=\"not-complete\">Not made, or not complete</h2>{new ReportTable("Why", [new("Deck"), new("Where"), new("What is wrong"), new("Code")], rows) { StacksOnPhones = true }.ToHtml()}"
            );
    }

    // A folder's name may hold any sign; each step of the path is escaped for itself.
    private static string Relative(string page) =>
        "./" + string.Join('/', page.Split('/').Select(Uri.EscapeDataString));
}
