using System.Collections.Immutable;
using DeckLife.Projection;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>Everything assumed, numbered, each with its source.</summary>
public static class AssumptionTable
{
    /// <summary>Makes the table.</summary>
    /// <param name="projection">The projection.</param>
    public static ReportTable Of(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        return new(
            "Assumptions",
            [new("No."), new("About"), new("What is taken"), new("Source")],
            [
                .. All(projection)
                    .Select(
                        (a, i) =>
                            ImmutableArray.Create(
                                ReportCell.Fragment(
                                    HtmlFragment.Of(
                                        $"<span id=\"{SourceAnchor.Assumption(i)}\">{Key(i)}</span>"
                                    ),
                                    Key(i)
                                ),
                                ReportCell.Words(a.Subject),
                                ReportCell.Fragment(MessageHtml.Of(a), a.Text),
                                ReportCell.Words(a.Source)
                            )
                    ),
            ]
        )
        {
            StacksOnPhones = true,
        };
    }

    /// <summary>The assumptions of the projection, and those of the deck that it does not repeat.</summary>
    internal static ImmutableList<Assumption> All(DeckProjection projection) =>
        [
            .. projection.Assumptions,
            .. projection.Deck.Assumptions.Where(a => !projection.Assumptions.Contains(a)),
        ];

    /// <summary>An assumption's number.</summary>
    internal static string Key(int index) => FormattableString.Invariant($"A{index + 1}");

    /// <summary>A link to an assumption.</summary>
    internal static HtmlFragment Link(int index) =>
        HtmlFragment.Of($"<a href=\"#{SourceAnchor.Assumption(index)}\">{Key(index)}</a>");
}
