using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace DeckLife.Quantities;

/// <summary>An age or a span of time, in Julian years.</summary>
public readonly record struct Age : IComparable<Age>
{
    private Age(double value) => Years = value;

    /// <summary>The value in the canonical unit [yr].</summary>
    public double Years { get; }

    /// <summary>Makes the quantity from a number of yr.</summary>
    /// <param name="value">The number [yr]: finite and not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite or out of range.</exception>
    public static Age FromYears(double value) => new(Checked(value, value, "yr"));

    /// <summary>Makes the quantity from a number of d.</summary>
    /// <param name="value">The number [d]: finite and not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite or out of range.</exception>
    public static Age FromDays(double value) =>
        new(Checked(value / UnitFactors.DaysPerYear, value, "d"));

    /// <summary>The value [d].</summary>
    public double Days => Years * UnitFactors.DaysPerYear;

    /// <summary>Reads a number with its unit, such as the trade writes it.</summary>
    /// <param name="text">The text, for example <c>25 yr</c>.</param>
    /// <exception cref="FormatException">The text is not a number with a known unit.</exception>
    public static Age Parse(string text) =>
        TryParse(text, out var value, out var problem) ? value : throw new FormatException(problem);

    /// <summary>Reads a number with its unit; says why it can't.</summary>
    /// <param name="text">The text.</param>
    /// <param name="value">The quantity read.</param>
    /// <param name="problem">What is wrong, the value, what is allowed.</param>
    public static bool TryParse(
        string text,
        out Age value,
        [NotNullWhen(false)] out string? problem
    ) => QuantityText.TryParseAge(text, out value, out problem);

    /// <inheritdoc/>
    public int CompareTo(Age other) => Years.CompareTo(other.Years);

    /// <summary>Whether the first is less than the second.</summary>
    public static bool operator <(Age left, Age right) => left.Years < right.Years;

    /// <summary>Whether the first is greater than the second.</summary>
    public static bool operator >(Age left, Age right) => left.Years > right.Years;

    /// <summary>Whether the first is at most the second.</summary>
    public static bool operator <=(Age left, Age right) => left.Years <= right.Years;

    /// <summary>Whether the first is at least the second.</summary>
    public static bool operator >=(Age left, Age right) => left.Years >= right.Years;

    /// <summary>The value with its canonical unit, in the invariant culture.</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Years:G6} yr");

    private static double Checked(double canonical, double given, string unit) =>
        double.IsFinite(canonical) && canonical >= 0
            ? canonical
            : throw new ArgumentOutOfRangeException(
                nameof(given),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"Age {given} {unit} is not allowed: it must be finite and not negative."
                )
            );
}
