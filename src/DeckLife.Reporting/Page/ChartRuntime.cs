using DeckLife.Reporting.Html;

namespace DeckLife.Reporting.Page;

/// <summary>What charts need once in a notebook: the chart library, the script that draws, the styles. Nothing is fetched.</summary>
public sealed class ChartRuntime : IReportPart
{
    /// <inheritdoc/>
    public HtmlFragment ToHtml() =>
        HtmlFragment.Of(
            $"""
            <style>{new HtmlFragment(PageResources.Own("parts.css"))}</style>
            <script>if(!window.Plotly)(function(define,exports,module){new HtmlFragment(
                "{"
            )}{new HtmlFragment(PageResources.ChartLibrary)}
            {new HtmlFragment("}")}).call(window);</script>
            <script>{new HtmlFragment(PageResources.Own("charts.js"))}</script>
            <script>{new HtmlFragment(PageResources.Own("explorer.js"))}</script>

            """
        );

    /// <inheritdoc/>
    public string ToText() => "charts are ready";
}
