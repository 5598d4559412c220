using System.Collections.Immutable;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;

namespace DeckLife.Reporting.Page;

/// <summary>A page that is complete in itself: its policy forbids every outside request, its scripts and styles are inside.</summary>
public sealed record HtmlPage
{
    /// <summary>Title of the window.</summary>
    public required string Title { get; init; }

    /// <summary>The units shown first.</summary>
    public UnitSystem Units { get; init; }

    /// <summary>Headings for the table of contents.</summary>
    public ImmutableArray<PageHeading> Contents { get; init; } = [];

    /// <summary>The body.</summary>
    public required HtmlFragment Body { get; init; }

    /// <summary>What stands above everything because the page is not complete; absent: it is.</summary>
    public string? Incomplete { get; init; }

    /// <summary>Whether the page holds charts; without, it does not carry the chart library.</summary>
    public bool HasCharts { get; init; } = true;

    /// <summary>When it was made, in words; absent: not said, and the same content gives the same bytes.</summary>
    public string? Made { get; init; }

    /// <summary>Version for the foot of the page.</summary>
    public required string Version { get; init; }

    /// <summary>The page as HTML; the same for the same content.</summary>
    public string Render()
    {
        var units = Units == UnitSystem.Si ? "si" : "us";
        var contents = HtmlFragment.Join(
            Contents.Select(c => HtmlFragment.Of($"<li><a href=\"#{c.Id}\">{c.Text}</a></li>"))
        );
        var banner = Incomplete is null
            ? HtmlFragment.Empty
            : HtmlFragment.Of($"<div class=\"incomplete\" role=\"alert\">{Incomplete}</div>");
        return HtmlFragment
            .Of(
                $"""
                <!DOCTYPE html>
                <html lang="en" data-units="{units}">
                <head>
                <meta charset="utf-8">
                <meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data: blob:; font-src data:; base-uri 'none'; form-action 'none'">
                <meta name="viewport" content="width=device-width, initial-scale=1">
                <meta name="referrer" content="no-referrer">
                <title>{Title}</title>
                <style>{Own("parts.css")}{Own("page.css")}</style>
                {(
                    HasCharts
                        ? HtmlFragment.Of(
                            $"<script>{new HtmlFragment(PageResources.ChartLibrary)}</script>"
                        )
                        : HtmlFragment.Empty
                )}
                </head>
                <body>
                <a class="skip" href="#content">To the content</a>
                <div class="page">
                <header class="top"><span class="mark">DeckLife report</span>
                <fieldset class="units"><legend>Units:</legend><label><input type="radio" name="dl-units" value="si"> SI</label><label><input type="radio" name="dl-units" value="us"> US customary</label></fieldset></header>
                {(
                    Contents.IsEmpty
                        ? HtmlFragment.Empty
                        : HtmlFragment.Of(
                            $"<nav class=\"contents\" aria-label=\"Contents\"><ol>{contents}</ol></nav>"
                        )
                )}
                <main id="content">
                {banner}{Body}
                </main>
                <footer>Made by DeckLife {Version}{(
                    Made is null ? "" : ", " + Made
                )}. A planning aid: local specifications and a licensed engineer decide.{(
                    HasCharts ? " Charts by plotly.js (MIT licence)." : ""
                )}</footer>
                </div>
                <script>{Own("charts.js")}</script>
                {(
                    HasCharts
                        ? HtmlFragment.Of($"<script>{Own("explorer.js")}</script>")
                        : HtmlFragment.Empty
                )}
                <script>{Own("page.js")}</script>
                </body>
                </html>

                """
            )
            .Markup;
    }

    private static HtmlFragment Own(string name) => new(PageResources.Own(name));
}
