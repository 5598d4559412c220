using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace DeckLife.Diagnostics;

/// <summary>
/// A message with its values apart, so that its quantities can be written in the units of its reader. A place whose
/// unit follows it in the format (<c>{1:G4} kg/m3</c>, <c>{0}-{1} mm</c>, <c>{2} to {3} mm2/yr</c>) is a quantity in that unit.
/// </summary>
public sealed partial class MessageTemplate : IEquatable<MessageTemplate>
{
    private readonly string format;
    private readonly object[] values;
    private readonly string text;

    /// <summary>Makes a message.</summary>
    /// <param name="format">The message in canonical units, with {0}, {1}… for the values.</param>
    /// <param name="values">The values; a message among them is written in the same units.</param>
    public MessageTemplate(string format, params object[] values)
    {
        ArgumentNullException.ThrowIfNull(format);
        ArgumentNullException.ThrowIfNull(values);
        this.format = format;
        this.values = [.. values];
        text = string.Format(CultureInfo.InvariantCulture, format, values);
    }

    /// <summary>The message in some units.</summary>
    /// <param name="units">The units.</param>
    public string In(MessageUnits units)
    {
        ArgumentNullException.ThrowIfNull(units);
        if (units == MessageUnits.Canonical)
        {
            return text;
        }

        var written = new StringBuilder();
        var at = 0;
        var follows = (Canonical: "", Written: "");
        foreach (Match place in Places().Matches(format))
        {
            written.Append(Literal(format[at..place.Index], follows));
            var unit = place.Groups["unit"].Value;
            follows = unit.Length == 0 ? ("", "") : (unit, units.For(unit).Unit);
            written.Append(Value(place, unit, units));
            at = place.Index + place.Length;
        }

        return written.Append(Literal(format[at..], follows)).ToString();
    }

    /// <summary>The message in canonical units.</summary>
    public override string ToString() => text;

    /// <inheritdoc/>
    public bool Equals(MessageTemplate? other) => other is not null && text == other.text;

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as MessageTemplate);

    /// <inheritdoc/>
    public override int GetHashCode() => text.GetHashCode(StringComparison.Ordinal);

    private string Value(Match place, string unit, MessageUnits units)
    {
        var value = values[int.Parse(place.Groups["index"].Value, CultureInfo.InvariantCulture)];
        var form = place.Groups["form"].Value;
        if (unit.Length > 0 && Number(value) is { } number)
        {
            return (number / units.For(unit).Factor).ToString(
                Form(form, unit),
                CultureInfo.InvariantCulture
            );
        }

        return value switch
        {
            MessageTemplate message => message.In(units),
            IFormattable formattable => formattable.ToString(form, CultureInfo.InvariantCulture),
            _ => value.ToString() ?? "",
        };
    }

    // A value may come as the text of a number, rounded where it was found.
    private static double? Number(object value) =>
        value switch
        {
            double d => d,
            int i => i,
            long l => l,
            string s
                when double.TryParse(
                    s,
                    NumberStyles.Float,
                    CultureInfo.InvariantCulture,
                    out var parsed
                ) => parsed,
            _ => null,
        };

    // An inch is worth a decimal more than a millimetre; significant digits hold for any unit.
    private static string Form(string form, string unit) =>
        form.StartsWith('G') ? form
        : unit == "mm" ? "0.##"
        : "G4";

    // The unit after a place gives way to the one that the value was written in.
    private static string Literal(string literal, (string Canonical, string Written) unit) =>
        unit.Canonical.Length > 0
        && literal.StartsWith(" " + unit.Canonical, StringComparison.Ordinal)
            ? " " + unit.Written + literal[(1 + unit.Canonical.Length)..]
            : literal;

    [GeneratedRegex(
        @"\{(?<index>\d+)(?::(?<form>[^{}]*))?\}(?=(?:(?:-| to )\{[^{}]*\})* (?<unit>kg/m3|mm2/yr|mm|m2|m)(?![\w/]))?",
        RegexOptions.CultureInvariant
    )]
    private static partial Regex Places();
}
