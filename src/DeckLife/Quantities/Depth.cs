using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace DeckLife.Quantities;

/// <summary>A depth or thickness in concrete.</summary>
public readonly record struct Depth : IComparable<Depth>
{
    private Depth(double value) => Millimetres = value;

    /// <summary>The value in the canonical unit [mm].</summary>
    public double Millimetres { get; }

    /// <summary>Makes the quantity from a number of mm.</summary>
    /// <param name="value">The number [mm]: finite and not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite or out of range.</exception>
    public static Depth FromMillimetres(double value) => new(Checked(value, value, "mm"));

    /// <summary>Makes the quantity from a number of in.</summary>
    /// <param name="value">The number [in]: finite and not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite or out of range.</exception>
    public static Depth FromInches(double value) =>
        new(Checked(value * UnitFactors.MillimetresPerInch, value, "in"));

    /// <summary>The value [in].</summary>
    public double Inches => Millimetres / UnitFactors.MillimetresPerInch;

    /// <summary>Reads a number with its unit, such as the trade writes it.</summary>
    /// <param name="text">The text, for example <c>2.5 in</c>.</param>
    /// <exception cref="FormatException">The text is not a number with a known unit.</exception>
    public static Depth Parse(string text) =>
        TryParse(text, out var value, out var problem) ? value : throw new FormatException(problem);

    /// <summary>Reads a number with its unit; says why it can't.</summary>
    /// <param name="text">The text.</param>
    /// <param name="value">The quantity read.</param>
    /// <param name="problem">What is wrong, the value, what is allowed.</param>
    public static bool TryParse(
        string text,
        out Depth value,
        [NotNullWhen(false)] out string? problem
    ) => QuantityText.TryParseDepth(text, out value, out problem);

    /// <inheritdoc/>
    public int CompareTo(Depth other) => Millimetres.CompareTo(other.Millimetres);

    /// <summary>Whether the first is less than the second.</summary>
    public static bool operator <(Depth left, Depth right) => left.Millimetres < right.Millimetres;

    /// <summary>Whether the first is greater than the second.</summary>
    public static bool operator >(Depth left, Depth right) => left.Millimetres > right.Millimetres;

    /// <summary>Whether the first is at most the second.</summary>
    public static bool operator <=(Depth left, Depth right) =>
        left.Millimetres <= right.Millimetres;

    /// <summary>Whether the first is at least the second.</summary>
    public static bool operator >=(Depth left, Depth right) =>
        left.Millimetres >= right.Millimetres;

    /// <summary>The value with its canonical unit, in the invariant culture.</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Millimetres:G6} mm");

    private static double Checked(double canonical, double given, string unit) =>
        double.IsFinite(canonical) && canonical >= 0
            ? canonical
            : throw new ArgumentOutOfRangeException(
                nameof(given),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"Depth {given} {unit} is not allowed: it must be finite and not negative."
                )
            );
}
