using DeckLife.Diagnostics;
using DeckLife.Reporting.Html;

namespace DeckLife.Reporting.Notation;

/// <summary>Messages and assumptions on a page: written in both systems, of which the page's switch shows one.</summary>
public static class MessageHtml
{
    /// <summary>A diagnostic's text.</summary>
    /// <param name="diagnostic">The diagnostic.</param>
    public static HtmlFragment Of(Diagnostic diagnostic)
    {
        ArgumentNullException.ThrowIfNull(diagnostic);
        return QuantityHtml.Both(diagnostic.Text, diagnostic.In(MessageUnits.UsCustomary));
    }

    /// <summary>An assumption's text.</summary>
    /// <param name="assumption">The assumption.</param>
    public static HtmlFragment Of(Assumption assumption)
    {
        ArgumentNullException.ThrowIfNull(assumption);
        return QuantityHtml.Both(assumption.Text, assumption.In(MessageUnits.UsCustomary));
    }

    /// <summary>A reason that is made of the texts of flags, in some units.</summary>
    /// <param name="reason">The reason in canonical units.</param>
    /// <param name="flags">The flags, those that the reason does not hold too.</param>
    /// <param name="units">The units.</param>
    public static string Reason(string? reason, IEnumerable<Diagnostic> flags, MessageUnits units)
    {
        ArgumentNullException.ThrowIfNull(flags);
        return flags
            .Where(f => f.Text.Length > 0)
            .Aggregate(
                reason ?? "",
                (text, f) => text.Replace(f.Text, f.In(units), StringComparison.Ordinal)
            );
    }
}
