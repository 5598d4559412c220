using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace DeckLife.Quantities;

/// <summary>A temperature.</summary>
public readonly record struct Temperature : IComparable<Temperature>
{
    private Temperature(double value) => Celsius = value;

    /// <summary>The value in the canonical unit [°C].</summary>
    public double Celsius { get; }

    /// <summary>Makes the quantity from a number of °C.</summary>
    /// <param name="value">The number [°C]: finite and not below absolute zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite or out of range.</exception>
    public static Temperature FromCelsius(double value) => new(Checked(value, value, "°C"));

    /// <summary>Makes the quantity from a number of K.</summary>
    /// <param name="value">The number [K]: finite and not below absolute zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite or out of range.</exception>
    public static Temperature FromKelvin(double value) => new(Checked(value - 273.15, value, "K"));

    /// <summary>The value [K].</summary>
    public double Kelvin => Celsius + 273.15;

    /// <summary>Makes the quantity from a number of °F.</summary>
    /// <param name="value">The number [°F]: finite and not below absolute zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite or out of range.</exception>
    public static Temperature FromFahrenheit(double value) =>
        new(Checked((value - 32) / 1.8, value, "°F"));

    /// <summary>The value [°F].</summary>
    public double Fahrenheit => (Celsius * 1.8) + 32;

    /// <summary>Reads a number with its unit, such as the trade writes it.</summary>
    /// <param name="text">The text, for example <c>20 °C</c>.</param>
    /// <exception cref="FormatException">The text is not a number with a known unit.</exception>
    public static Temperature Parse(string text) =>
        TryParse(text, out var value, out var problem) ? value : throw new FormatException(problem);

    /// <summary>Reads a number with its unit; says why it can't.</summary>
    /// <param name="text">The text.</param>
    /// <param name="value">The quantity read.</param>
    /// <param name="problem">What is wrong, the value, what is allowed.</param>
    public static bool TryParse(
        string text,
        out Temperature value,
        [NotNullWhen(false)] out string? problem
    ) => QuantityText.TryParseTemperature(text, out value, out problem);

    /// <inheritdoc/>
    public int CompareTo(Temperature other) => Celsius.CompareTo(other.Celsius);

    /// <summary>Whether the first is less than the second.</summary>
    public static bool operator <(Temperature left, Temperature right) =>
        left.Celsius < right.Celsius;

    /// <summary>Whether the first is greater than the second.</summary>
    public static bool operator >(Temperature left, Temperature right) =>
        left.Celsius > right.Celsius;

    /// <summary>Whether the first is at most the second.</summary>
    public static bool operator <=(Temperature left, Temperature right) =>
        left.Celsius <= right.Celsius;

    /// <summary>Whether the first is at least the second.</summary>
    public static bool operator >=(Temperature left, Temperature right) =>
        left.Celsius >= right.Celsius;

    /// <summary>The value with its canonical unit, in the invariant culture.</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Celsius:G6} °C");

    private static double Checked(double canonical, double given, string unit) =>
        double.IsFinite(canonical) && canonical >= -273.15
            ? canonical
            : throw new ArgumentOutOfRangeException(
                nameof(given),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"Temperature {given} {unit} is not allowed: it must be finite and not below absolute zero."
                )
            );
}
