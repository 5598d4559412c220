using DeckLife.Diagnostics;

namespace DeckLife;

/// <summary>Something taken for granted because no input says it.</summary>
/// <param name="Subject">What the assumption is about.</param>
/// <param name="Text">What is assumed, with its value and unit.</param>
/// <param name="Source">Where the value comes from: a publication, common practice, or memory.</param>
public sealed record Assumption(string Subject, string Text, string Source)
{
    /// <summary>The text with its values apart; absent: the text alone is known.</summary>
    public MessageTemplate? Template { get; init; }

    /// <summary>Makes one whose quantities can be written in other units.</summary>
    /// <param name="subject">What the assumption is about.</param>
    /// <param name="text">What is assumed.</param>
    /// <param name="source">Where the value comes from.</param>
    public static Assumption Of(string subject, MessageTemplate text, string source)
    {
        ArgumentNullException.ThrowIfNull(text);
        return new(subject, text.ToString(), source) { Template = text };
    }

    /// <summary>The text with its quantities in some units.</summary>
    /// <param name="units">The units.</param>
    public string In(MessageUnits units) => Template?.In(units) ?? Text;
}
