using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Network.Results;
using DeckLife.Reporting.Charts;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Page;
using DeckLife.Reporting.Sections;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Networks;

/// <summary>The parts of a network's report, each of which shows itself in a notebook cell, on a page or on a terminal.</summary>
/// <param name="result">The results.</param>
public sealed class NetworkReport(NetworkResult result)
{
    private const string NothingProjected = "No deck of the network has an answer.";

    /// <summary>The first screen: the answer and the cautions.</summary>
    public IReportPart Answer() => new NetworkAnswer(result);

    /// <summary>Damaged share of the network against year.</summary>
    public IReportPart Condition() =>
        result.Best.Condition.IsEmpty
            ? new Remark(NothingProjected)
            : NetworkCharts.Condition(result);

    /// <summary>Budget and spending by year.</summary>
    public ReportChart Money() => NetworkCharts.Money(result);

    /// <summary>What more or less money is worth.</summary>
    public ReportChart BudgetValue() => NetworkCharts.BudgetValue(result);

    /// <summary>The decks in plan; a sentence where none has coordinates.</summary>
    public IReportPart Map() =>
        NetworkCharts.Map(result)
        ?? (IReportPart)new Remark("No deck with an answer has coordinates, so there is no map.");

    /// <summary>One row a deck, sortable.</summary>
    public IReportPart Decks() => NetworkTablesOfReport.Decks(result);

    /// <summary>Decks by condition class.</summary>
    public ReportTable Classes() => NetworkTablesOfReport.Classes(result);

    /// <summary>What the results stand on.</summary>
    public ReportTable Assumptions() =>
        new(
            "Assumed",
            [new("No."), new("What")],
            [
                .. NetworkNotes
                    .Assumptions(result)
                    .Select(
                        (a, i) =>
                            ImmutableArray.Create(ReportCell.Whole(i + 1), ReportCell.Words(a))
                    ),
            ]
        );

    /// <summary>Version, seed, sizes, fingerprint.</summary>
    /// <param name="fingerprint">Fingerprint of everything that the network rests on.</param>
    public ReportTable Provenance(string fingerprint)
    {
        var (version, commit) = Sections.Provenance.Version();
        static ImmutableArray<ReportCell> Row(string name, string value) =>
            [ReportCell.Words(name), ReportCell.Words(value)];
        static string Text(IFormattable value) =>
            value.ToString(null, CultureInfo.InvariantCulture);
        return new(
            "Provenance",
            [new("What"), new("Value")],
            [
                Row("Version", version),
                Row("Commit", commit),
                Row("Seed", Text(result.Network.Seed)),
                Row("Draws of each deck", Text(result.Network.Draws)),
                Row("Points in each draw", Text(result.Network.Points)),
                Row("Fingerprint of all inputs (SHA-256)", fingerprint),
            ]
        );
    }

    /// <summary>The whole report as one page that opens offline.</summary>
    /// <param name="fingerprint">Fingerprint of everything that the network rests on.</param>
    /// <param name="units">Units that the page shows first.</param>
    public string ToPage(string fingerprint, UnitSystem units = UnitSystem.UsCustomary)
    {
        (string Id, string Text, IReportPart Part)[] parts =
        [
            ("condition", "What becomes of the network", Condition()),
            ("money", "Money by year", Money()),
            ("value", "What money is worth", BudgetValue()),
            ("map", "Where the decks lie", Map()),
            ("decks", "Every deck", Decks()),
            ("classes", "Decks by condition", Classes()),
            ("assumed", "What this stands on", Assumptions()),
            ("provenance", "Provenance", Provenance(fingerprint)),
        ];
        // On the page, and only there, what the charts rest on has a place that they can lead to.
        static IReportPart Based(IReportPart part) =>
            part is ReportChart chart ? chart with { Basis = "assumed" } : part;
        return new HtmlPage
        {
            Title = $"{result.Network.Name}: program of work",
            Units = units,
            Contents = [.. parts.Select(p => new PageHeading(p.Id, p.Text))],
            Body = HtmlFragment.Of(
                $"<h1>{result.Network.Name}</h1>{Answer().ToHtml()}{HtmlFragment.Join(parts.Select(p => HtmlFragment.Of($"<h2 id=\"{p.Id}\">{p.Text}</h2>{Based(p.Part).ToHtml()}")))}"
            ),
            Version = Sections.Provenance.Version().Version,
        }.Render();
    }
}
