using System.Collections.Immutable;
using DeckLife.Projection;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>Every input: its value, the field of the file that states it, and what it rests on.</summary>
public static class InputTable
{
    /// <summary>Makes the table.</summary>
    /// <param name="deck">The deck.</param>
    public static ReportTable Of(Deck deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        return Make(deck, null);
    }

    /// <summary>Makes the table that a report's numbers link to.</summary>
    /// <param name="projection">The projection.</param>
    public static ReportTable Of(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        return Make(projection.Deck with { Analysis = projection.Settings }, projection);
    }

    private static ReportTable Make(Deck deck, DeckProjection? projection) =>
        new(
            "Inputs",
            [new("Input"), new("Value"), new("Stated in"), new("Rests on")],
            [
                .. InputRows
                    .Of(deck)
                    .Select(row =>
                        ImmutableArray.Create(
                            projection is null
                                ? ReportCell.Words(row.Name)
                                : ReportCell.Fragment(
                                    HtmlFragment.Of($"<span id=\"{row.Anchor}\">{row.Name}</span>"),
                                    row.Name
                                ),
                            row.Value,
                            Stated(deck, row.Field(deck)),
                            RestsOn(deck, row, projection)
                        )
                    ),
            ]
        )
        {
            StacksOnPhones = true,
        };

    private static ReportCell Stated(Deck deck, StatedField? field)
    {
        if (field is null)
        {
            return ReportCell.Words(
                deck.StatedFields.IsEmpty ? "not read from a file" : "no file: a default"
            );
        }

        if (field.Row == 0)
        {
            return ReportCell.Words(field.File);
        }

        var place = FormattableString.Invariant($"{field.File}, line {field.Row}");
        return ReportCell.Fragment(
            HtmlFragment.Of($"{place}: <code>{field.Path}</code>, “{field.Text}”"),
            $"{place}: {field.Path}, \"{field.Text}\""
        );
    }

    private static ReportCell RestsOn(Deck deck, InputRow row, DeckProjection? projection)
    {
        if (row.Field(deck) is not null || row.Default.Length == 0 || deck.StatedFields.IsEmpty)
        {
            return ReportCell.Words(row.Source);
        }

        var text = "default: " + row.Default;
        var index =
            projection is null || row.AssumedAbout is null
                ? -1
                : AssumptionTable.All(projection).FindIndex(a => a.Subject == row.AssumedAbout);
        return index < 0
            ? ReportCell.Words(text)
            : ReportCell.Fragment(
                HtmlFragment.Of($"{text} ({AssumptionTable.Link(index)})"),
                $"{text} ({AssumptionTable.Key(index)})"
            );
    }
}
