using System.Collections.Immutable;
using DeckLife.Projection;
using DeckLife.Reporting.Html;
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
            "Assumptions and stated inputs",
            [new("No."), new("About"), new("What is taken"), new("Source")],
            [
                .. projection
                    .Assumptions.Concat(
                        projection.Deck.Assumptions.Where(a => !projection.Assumptions.Contains(a))
                    )
                    .Select(
                        (a, i) =>
                        {
                            var key = FormattableString.Invariant($"A{i + 1}");
                            return ImmutableArray.Create(
                                ReportCell.Fragment(
                                    HtmlFragment.Of($"<span id=\"{key}\">{key}</span>"),
                                    key
                                ),
                                ReportCell.Words(a.Subject),
                                ReportCell.Words(a.Text),
                                ReportCell.Words(a.Source)
                            );
                        }
                    ),
            ]
        );
    }
}
