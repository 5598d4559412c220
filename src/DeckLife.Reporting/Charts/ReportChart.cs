using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Charts;

/// <summary>A chart with the numbers behind it.</summary>
/// <param name="Title">What it shows.</param>
/// <param name="Note">How to read it.</param>
/// <param name="AlternativeText">What a reader who can't see it should know.</param>
/// <param name="HeightPx">Height on the page [px].</param>
/// <param name="FigureSi">The figure in canonical units, as the chart library's JSON.</param>
/// <param name="FigureUs">The figure in US customary units.</param>
/// <param name="Numbers">The numbers behind the chart.</param>
public sealed record ReportChart(
    string Title,
    string Note,
    string AlternativeText,
    int HeightPx,
    string FigureSi,
    string FigureUs,
    ReportTable Numbers
) : IReportPart
{
    /// <summary>How to read it, in US customary units where that differs.</summary>
    public string? NoteUs { get; init; }

    /// <summary>The alternative text in US customary units where that differs.</summary>
    public string? AlternativeTextUs { get; init; }

    /// <summary>The numbers where they are others in US customary units, not the same ones converted: classes of whole units.</summary>
    public ReportTable? NumbersUs { get; init; }

    /// <summary>Whether it keeps its height on paper too: rows with words of their own need their room.</summary>
    public bool KeepsHeight { get; init; }

    /// <summary>Id of the place on a report's page that says what the numbers rest on; absent: no link.</summary>
    public string? Basis { get; init; }

    /// <inheritdoc/>
    public HtmlFragment ToHtml() =>
        HtmlFragment.Of(
            $"""
            <figure class="dl-chart">
            <figcaption><b>{Title}</b> {QuantityHtml.Both(
                Note,
                NoteUs ?? Note
            )}{BasisLink()}</figcaption>
            <div class="dl-plot{(
                KeepsHeight ? " dl-tall" : ""
            )}" role="img" aria-label="{AlternativeText}"{AlternativeUs()} style="height:{HeightPx}px"></div>
            {Data("si", FigureSi)}
            {(FigureUs == FigureSi ? HtmlFragment.Empty : Data("us", FigureUs))}
            <details class="dl-numbers"><summary>Numbers behind this chart</summary>{NumbersToHtml()}</details>
            </figure>
            <script>window.DeckLife&&window.DeckLife.drawAll();</script>

            """
        );

    /// <inheritdoc/>
    public string ToText() => $"{Title}\n{AlternativeText}\n\n{Numbers.ToText()}";

    private HtmlFragment NumbersToHtml()
    {
        var si = HtmlFragment.Of($"{CsvLink.To(Numbers, Title)}{Numbers.ToHtml()}");
        return NumbersUs is null
            ? si
            : HtmlFragment.Of(
                $"<div class=\"u-si\">{si}</div><div class=\"u-us\">{CsvLink.To(NumbersUs, Title, UnitSystem.UsCustomary)}{NumbersUs.ToHtml()}</div>"
            );
    }

    // A page's switch exchanges the two; without scripts the canonical one stands.
    private HtmlFragment AlternativeUs() =>
        AlternativeTextUs is null || AlternativeTextUs == AlternativeText
            ? HtmlFragment.Empty
            : HtmlFragment.Of(
                $" data-alt-si=\"{AlternativeText}\" data-alt-us=\"{AlternativeTextUs}\""
            );

    private HtmlFragment BasisLink() =>
        Basis is null
            ? HtmlFragment.Empty
            : HtmlFragment.Of($" <a href=\"#{Basis}\" aria-label=\"Basis of {Title}\">Basis</a>");

    private static HtmlFragment Data(string units, string figure) =>
        new(
            $"<script type=\"application/json\" class=\"dl-figure\" data-units=\"{units}\">{HtmlEscape.JsonInScript(figure)}</script>"
        );
}
