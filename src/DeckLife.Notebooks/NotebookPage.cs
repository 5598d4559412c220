using System.Collections.Immutable;
using System.Text;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Page;
using DeckLife.Reporting.Sections;
using Markdig;
using Markdig.Extensions.AutoIdentifiers;
using Markdig.Renderers;
using Markdig.Renderers.Html;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace DeckLife.Notebooks;

/// <summary>Makes one page that is complete in itself from a notebook that ran.</summary>
public static class NotebookPage
{
    // Raw HTML in Markdown is shown as text: a page holds only markup of this library's own making.
    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder()
        .UseAutoIdentifiers(AutoIdentifierOptions.GitHub)
        .UsePipeTables()
        .DisableHtml()
        .Build();

    /// <summary>Makes the page.</summary>
    /// <param name="run">The run.</param>
    /// <param name="title">Title of the window.</param>
    /// <param name="units">The units shown first.</param>
    /// <param name="made">When the page is made, in words; absent: not said.</param>
    public static string Render(
        NotebookRun run,
        string title,
        UnitSystem units,
        string? made = null
    )
    {
        ArgumentNullException.ThrowIfNull(run);
        var headings = ImmutableArray.CreateBuilder<PageHeading>();
        var body = new StringBuilder();
        foreach (var cell in run.Document.Cells)
        {
            if (cell.IsMarkdown)
            {
                body.Append(FromMarkdown(cell.Source, headings));
            }
            else if (cell.IsCode && !cell.Tags.Contains(NotebookRunner.SetupTag))
            {
                body.Append(HtmlFragment.Join(cell.Outputs.Select(Output)));
            }
        }

        headings.Add(new PageHeading("how-this-was-computed", "How this was computed"));
        body.Append(Cells(run.Document));
        return new HtmlPage
        {
            Title = title,
            Units = units,
            Made = made,
            Contents = headings.ToImmutable(),
            Body = new(body.ToString()),
            Incomplete = run.Failure is null
                ? null
                : $"This report is not complete: {run.Failure}. What would follow was not computed.",
            Version = Provenance.Version().Version,
        }.Render();
    }

    private static string FromMarkdown(string source, ImmutableArray<PageHeading>.Builder headings)
    {
        var document = Markdown.Parse(source, Pipeline);
        foreach (var heading in document.Descendants<HeadingBlock>().Where(h => h.Level == 2))
        {
            headings.Add(
                new PageHeading(
                    heading.GetAttributes().Id ?? "",
                    string.Concat(
                        heading
                            .Inline?.Descendants<LiteralInline>()
                            .Select(l => l.Content.ToString())
                            ?? []
                    )
                )
            );
        }

        using var writer = new StringWriter { NewLine = "\n" };
        var renderer = new HtmlRenderer(writer);
        Pipeline.Setup(renderer);
        renderer.Render(document);
        writer.Flush();
        return writer.ToString();
    }

    private static HtmlFragment Output(NotebookOutput output) =>
        output.Kind switch
        {
            NotebookOutputKind.Error => HtmlFragment.Of(
                $"<pre class=\"cell-error\">{output.ErrorName}: {output["text/plain"]}</pre>"
            ),
            // The library's own parts come as HTML; anything else is text.
            _ when output["text/html"] is { } html => new HtmlFragment(html),
            _ => HtmlFragment.Of($"<pre>{output["text/plain"]}</pre>"),
        };

    private static HtmlFragment Cells(NotebookDocument document) =>
        HtmlFragment.Of(
            $"<h2 id=\"how-this-was-computed\">How this was computed</h2><p>The cells of the notebook {document.Name}, in order, with the parameters of this run. The executed notebook lies beside this page.</p><details class=\"dl-cells\"><summary>Show the cells</summary><ol>{HtmlFragment.Join(document.Cells.Where(c => c.IsCode).Select(c => HtmlFragment.Of($"<li><pre tabindex=\"0\">{c.Source}</pre></li>")))}</ol></details>"
        );
}
