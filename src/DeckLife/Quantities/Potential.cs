using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace DeckLife.Quantities;

/// <summary>A half-cell potential against the copper/copper-sulfate electrode (CSE).</summary>
public readonly record struct Potential : IComparable<Potential>
{
    private Potential(double value) => MillivoltsCse = value;

    /// <summary>The value in the canonical unit [mV CSE].</summary>
    public double MillivoltsCse { get; }

    /// <summary>Makes the quantity from a number of mV against CSE.</summary>
    /// <param name="value">The number [mV CSE]: finite.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite.</exception>
    public static Potential FromMillivoltsCse(double value) =>
        double.IsFinite(value)
            ? new(value)
            : throw new ArgumentOutOfRangeException(
                nameof(value),
                $"Potential {value.ToString(CultureInfo.InvariantCulture)} mV CSE is not allowed: it must be finite."
            );

    /// <summary>Makes the quantity from a reading against another electrode.</summary>
    /// <param name="reading">The reading [mV] against <paramref name="electrode"/>.</param>
    /// <param name="electrode">The electrode with its own potential against CSE.</param>
    public static Potential FromMillivolts(double reading, ReferenceElectrode electrode)
    {
        ArgumentNullException.ThrowIfNull(electrode);
        return FromMillivoltsCse(reading + electrode.MillivoltsAgainstCse);
    }

    /// <summary>Reads a number with its unit and electrode.</summary>
    /// <param name="text">The text, for example <c>-350 mV CSE</c>.</param>
    /// <exception cref="FormatException">The text is not a potential against CSE.</exception>
    public static Potential Parse(string text) =>
        TryParse(text, out var value, out var problem) ? value : throw new FormatException(problem);

    /// <summary>Reads a number with its unit and electrode; says why it can't.</summary>
    /// <param name="text">The text.</param>
    /// <param name="value">The quantity read.</param>
    /// <param name="problem">What is wrong, the value, what is allowed.</param>
    public static bool TryParse(
        string text,
        out Potential value,
        [NotNullWhen(false)] out string? problem
    ) => QuantityText.TryParsePotential(text, null, out value, out problem);

    /// <inheritdoc/>
    public int CompareTo(Potential other) => MillivoltsCse.CompareTo(other.MillivoltsCse);

    /// <summary>Whether the first is less (more active) than the second.</summary>
    public static bool operator <(Potential left, Potential right) =>
        left.MillivoltsCse < right.MillivoltsCse;

    /// <summary>Whether the first is greater (more noble) than the second.</summary>
    public static bool operator >(Potential left, Potential right) =>
        left.MillivoltsCse > right.MillivoltsCse;

    /// <summary>Whether the first is at most the second.</summary>
    public static bool operator <=(Potential left, Potential right) =>
        left.MillivoltsCse <= right.MillivoltsCse;

    /// <summary>Whether the first is at least the second.</summary>
    public static bool operator >=(Potential left, Potential right) =>
        left.MillivoltsCse >= right.MillivoltsCse;

    /// <summary>The value with its unit and electrode, in the invariant culture.</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{MillivoltsCse:G6} mV CSE");
}
