using System.Globalization;
using DeckLife.Network.Results;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;

namespace DeckLife.Reporting.Networks;

/// <summary>The first screen of a network's report: what the best program does, and the cautions.</summary>
/// <param name="result">The results.</param>
internal sealed class NetworkAnswer(NetworkResult result) : IReportPart
{
    /// <inheritdoc/>
    public HtmlFragment ToHtml() =>
        HtmlFragment.Of(
            $"""
            <div class="dl-answer"><div class="dl-answer-main"><p class="dl-deckline">{result.Network.Name}. {result.Network.Story ?? ""}</p>
            <p class="dl-headline">{Headline()}</p></div>
            <div class="dl-answer-table"><dl class="dl-facts">{HtmlFragment.Join(
                Facts().Select(f => HtmlFragment.Of(
                    $"<div><dt>{f.Name}</dt><dd class=\"dl-value\">{QuantityHtml.Both(f.Value(UnitSystem.Si), f.Value(UnitSystem.UsCustomary))}</dd><dd class=\"dl-note\">{QuantityHtml.Both(f.Note(UnitSystem.Si), f.Note(UnitSystem.UsCustomary))}</dd></div>"
                ))
            )}</dl></div>
            <aside class="dl-cautions" aria-label="Cautions"><p class="dl-cautions-head">Cautions</p><ul>{HtmlFragment.Join(
                NetworkNotes.Cautions.Select(c => HtmlFragment.Of($"<li>{c}</li>"))
            )}</ul></aside></div>

            """
        );

    /// <inheritdoc/>
    public string ToText() =>
        string.Join(
            "\n",
            new[] { result.Network.Name, Headline() }
                .Concat(
                    Facts()
                        .Select(f =>
                            $"{f.Name}: {f.Value(UnitSystem.Si)} ({f.Note(UnitSystem.Si)})"
                        )
                )
                .Concat(NetworkNotes.Cautions)
        ) + "\n";

    private string Headline()
    {
        if (result.Best.Condition.IsEmpty)
        {
            return "No deck of the network has an answer; the table says why.";
        }

        var (nothing, best) = (
            result.Nothing.Condition[^1].Damaged.Together,
            result.Best.Condition[^1].Damaged.Together
        );
        return string.Create(
            CultureInfo.InvariantCulture,
            $"With this budget {NumberNotation.Percent(best.P50)} of the network's area is damaged in {result.Network.LastYear} ({NumberNotation.Percent(best.P05)} to {NumberNotation.Percent(best.P95)}), {NumberNotation.Percent(nothing.P50)} if nothing is done."
        );
    }

    private IEnumerable<(
        string Name,
        Func<UnitSystem, string> Value,
        Func<UnitSystem, string> Note
    )> Facts()
    {
        static (string Name, Func<UnitSystem, string> Value, Func<UnitSystem, string> Note) Fact(
            string name,
            string value,
            string note
        ) => (name, _ => value, _ => note);
        var failed = result.Decks.Count(d => d.Failure is not null);
        var treated = result.Decks.Count(d => d.Best?.Strategy is not null);
        var currency = result.Prices.Split(' ')[0];
        yield return Fact(
            "Decks",
            result.Decks.Length.ToString(CultureInfo.InvariantCulture),
            failed == 0
                ? "all have an answer"
                : string.Create(
                    CultureInfo.InvariantCulture,
                    $"{failed} without an answer; each is in the table with its reason"
                )
        );
        yield return Fact(
            "Worked on",
            treated.ToString(CultureInfo.InvariantCulture),
            string.Create(
                CultureInfo.InvariantCulture,
                $"decks in {result.Network.Budgets.Length} years"
            )
        );
        yield return Fact(
            "Expected cost",
            NumberNotation.Money(result.Best.SpentByYear.Sum(), currency),
            $"of a budget of {NumberNotation.Money(result.Network.Budgets.Sum(), currency)}"
        );
        yield return (
            "Damaged area avoided",
            u => QuantityHtml.Text(UnitScale.Area, result.Best.ValueM2Yr, u) + " yr",
            u =>
                $"weighted; worst first avoids {UnitScale.Area.Number(result.WorstFirst.ValueM2Yr, u)}"
        );
        yield return Fact(
            "Sureness of the program",
            result.Gap == 0
                ? "optimal"
                : $"gap {NumberNotation.Significant(100 * result.Gap, 2)} %",
            NetworkNotes.Sureness(result.Status, result.Gap)
        );
    }
}
