using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace DeckLife.Quantities;

/// <summary>A chloride content by volume of concrete; other bases are a StatedChloride until the concrete is known.</summary>
public readonly record struct ChlorideContent : IComparable<ChlorideContent>
{
    private ChlorideContent(double value) => KilogramsPerCubicMetre = value;

    /// <summary>The value in the canonical unit [kg/m3].</summary>
    public double KilogramsPerCubicMetre { get; }

    /// <summary>Makes the quantity from a number of kg/m3.</summary>
    /// <param name="value">The number [kg/m3]: finite and not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite or out of range.</exception>
    public static ChlorideContent FromKilogramsPerCubicMetre(double value) =>
        new(Checked(value, value, "kg/m3"));

    /// <summary>Makes the quantity from a number of lb/yd3.</summary>
    /// <param name="value">The number [lb/yd3]: finite and not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite or out of range.</exception>
    public static ChlorideContent FromPoundsPerCubicYard(double value) =>
        new(
            Checked(value * UnitFactors.KilogramsPerCubicMetrePerPoundPerCubicYard, value, "lb/yd3")
        );

    /// <summary>The value [lb/yd3].</summary>
    public double PoundsPerCubicYard =>
        KilogramsPerCubicMetre / UnitFactors.KilogramsPerCubicMetrePerPoundPerCubicYard;

    /// <summary>Reads a number with its unit, such as the trade writes it.</summary>
    /// <param name="text">The text, for example <c>1.2 lb/yd3</c>.</param>
    /// <exception cref="FormatException">The text is not a number with a known unit.</exception>
    public static ChlorideContent Parse(string text) =>
        TryParse(text, out var value, out var problem) ? value : throw new FormatException(problem);

    /// <summary>Reads a number with its unit; says why it can't.</summary>
    /// <param name="text">The text.</param>
    /// <param name="value">The quantity read.</param>
    /// <param name="problem">What is wrong, the value, what is allowed.</param>
    public static bool TryParse(
        string text,
        out ChlorideContent value,
        [NotNullWhen(false)] out string? problem
    ) => QuantityText.TryParseChlorideContent(text, out value, out problem);

    /// <inheritdoc/>
    public int CompareTo(ChlorideContent other) =>
        KilogramsPerCubicMetre.CompareTo(other.KilogramsPerCubicMetre);

    /// <summary>Whether the first is less than the second.</summary>
    public static bool operator <(ChlorideContent left, ChlorideContent right) =>
        left.KilogramsPerCubicMetre < right.KilogramsPerCubicMetre;

    /// <summary>Whether the first is greater than the second.</summary>
    public static bool operator >(ChlorideContent left, ChlorideContent right) =>
        left.KilogramsPerCubicMetre > right.KilogramsPerCubicMetre;

    /// <summary>Whether the first is at most the second.</summary>
    public static bool operator <=(ChlorideContent left, ChlorideContent right) =>
        left.KilogramsPerCubicMetre <= right.KilogramsPerCubicMetre;

    /// <summary>Whether the first is at least the second.</summary>
    public static bool operator >=(ChlorideContent left, ChlorideContent right) =>
        left.KilogramsPerCubicMetre >= right.KilogramsPerCubicMetre;

    /// <summary>The value with its canonical unit, in the invariant culture.</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{KilogramsPerCubicMetre:G6} kg/m3");

    private static double Checked(double canonical, double given, string unit) =>
        double.IsFinite(canonical) && canonical >= 0
            ? canonical
            : throw new ArgumentOutOfRangeException(
                nameof(given),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"ChlorideContent {given} {unit} is not allowed: it must be finite and not negative."
                )
            );
}
