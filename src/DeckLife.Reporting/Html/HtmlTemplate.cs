using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;

namespace DeckLife.Reporting.Html;

/// <summary>Collects an interpolated string of markup: the literal parts are markup, the places are escaped unless they are fragments.</summary>
[InterpolatedStringHandler]
public readonly ref struct HtmlTemplate
{
    private readonly StringBuilder markup;

    /// <summary>Starts a template.</summary>
    /// <param name="literalLength">Length of the literal parts.</param>
    /// <param name="formattedCount">Number of places.</param>
    public HtmlTemplate(int literalLength, int formattedCount) =>
        markup = new StringBuilder(literalLength + (16 * formattedCount));

    /// <summary>Adds a literal part.</summary>
    /// <param name="literal">Markup.</param>
    public void AppendLiteral(string literal) => markup.Append(literal);

    /// <summary>Adds a fragment as it is.</summary>
    /// <param name="fragment">The fragment.</param>
    public void AppendFormatted(HtmlFragment fragment) => markup.Append(fragment.Markup);

    /// <summary>Adds a text, escaped.</summary>
    /// <param name="text">The text.</param>
    public void AppendFormatted(string? text) => markup.Append(HtmlEscape.Text(text));

    /// <summary>Adds a value in the invariant culture, escaped.</summary>
    /// <param name="value">The value.</param>
    /// <param name="format">Its format.</param>
    /// <typeparam name="T">The value's type.</typeparam>
    public void AppendFormatted<T>(T value, string? format = null)
        where T : IFormattable =>
        markup.Append(HtmlEscape.Text(value?.ToString(format, CultureInfo.InvariantCulture)));

    internal string ToMarkup() => markup.ToString();
}
