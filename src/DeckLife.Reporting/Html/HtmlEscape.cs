using System.Text;

namespace DeckLife.Reporting.Html;

/// <summary>Escaping of what comes from outside, for each place that it can land in.</summary>
public static class HtmlEscape
{
    /// <summary>Text for an element's content or a quoted attribute.</summary>
    /// <param name="text">Any text.</param>
    public static string Text(string? text)
    {
        var escaped = new StringBuilder();
        for (var i = 0; i < (text?.Length ?? 0); i++)
        {
            var c = text![i];
            _ = c switch
            {
                // A number and its per cent sign stay on one line.
                ' '
                    when i > 0
                        && char.IsAsciiDigit(text[i - 1])
                        && text.AsSpan(i + 1).StartsWith("%") => escaped.Append('\u00A0'),
                '&' => escaped.Append("&amp;"),
                '<' => escaped.Append("&lt;"),
                '>' => escaped.Append("&gt;"),
                '"' => escaped.Append("&quot;"),
                '\'' => escaped.Append("&#39;"),
                // They have no place in a page; tabs and line ends are harmless.
                _ when UnseenCharacter.Is(c) => escaped.Append('\uFFFD'),
                _ => escaped.Append(c),
            };
        }

        return escaped.ToString();
    }

    /// <summary>JSON that stands inside a script element: no text in it can end the element or open a comment.</summary>
    /// <param name="json">Valid JSON.</param>
    public static string JsonInScript(string json)
    {
        ArgumentNullException.ThrowIfNull(json);
        return json.Replace("<", "\\u003c", StringComparison.Ordinal)
            .Replace("\u2028", "\\u2028", StringComparison.Ordinal)
            .Replace("\u2029", "\\u2029", StringComparison.Ordinal);
    }

    /// <summary>Text for a chart's label: the chart library reads simple markup there, so it gets entities instead.</summary>
    /// <param name="text">Any text.</param>
    public static string ChartLabel(string? text) =>
        new StringBuilder(UnseenCharacter.Replace(text ?? "", '\uFFFD'))
            .Replace("&", "&amp;")
            .Replace("<", "&lt;")
            .Replace(">", "&gt;")
            .Replace("$", "\uFF04")
            .Replace("%{", "% {")
            .ToString();

    /// <summary>Text for a chart's label, on several lines where it is long, so that a phone has room for the chart.</summary>
    /// <param name="text">Any text.</param>
    /// <param name="width">Characters on a line, unless one word is longer.</param>
    public static string WrappedChartLabel(string? text, int width = 22)
    {
        var lines = new List<string>();
        foreach (var word in (text ?? "").Split(' '))
        {
            if (lines.Count > 0 && lines[^1].Length + 1 + word.Length <= width)
            {
                lines[^1] += " " + word;
            }
            else
            {
                lines.Add(word);
            }
        }

        return string.Join("<br>", lines.Select(ChartLabel));
    }
}
