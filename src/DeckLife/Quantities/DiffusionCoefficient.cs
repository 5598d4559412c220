using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace DeckLife.Quantities;

/// <summary>A chloride diffusion coefficient (D).</summary>
public readonly record struct DiffusionCoefficient : IComparable<DiffusionCoefficient>
{
    private DiffusionCoefficient(double value) => SquareMillimetresPerYear = value;

    /// <summary>The value in the canonical unit [mm2/yr].</summary>
    public double SquareMillimetresPerYear { get; }

    /// <summary>Makes the quantity from a number of mm2/yr.</summary>
    /// <param name="value">The number [mm2/yr]: finite and positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite or out of range.</exception>
    public static DiffusionCoefficient FromSquareMillimetresPerYear(double value) =>
        new(Checked(value, value, "mm2/yr"));

    /// <summary>Makes the quantity from a number of m2/s.</summary>
    /// <param name="value">The number [m2/s]: finite and positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite or out of range.</exception>
    public static DiffusionCoefficient FromSquareMetresPerSecond(double value) =>
        new(
            Checked(
                value * UnitFactors.SquareMillimetresPerYearPerSquareMetrePerSecond,
                value,
                "m2/s"
            )
        );

    /// <summary>The value [m2/s].</summary>
    public double SquareMetresPerSecond =>
        SquareMillimetresPerYear / UnitFactors.SquareMillimetresPerYearPerSquareMetrePerSecond;

    /// <summary>Makes the quantity from a number of in2/yr.</summary>
    /// <param name="value">The number [in2/yr]: finite and positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite or out of range.</exception>
    public static DiffusionCoefficient FromSquareInchesPerYear(double value) =>
        new(Checked(value * UnitFactors.SquareMillimetresPerSquareInch, value, "in2/yr"));

    /// <summary>The value [in2/yr].</summary>
    public double SquareInchesPerYear =>
        SquareMillimetresPerYear / UnitFactors.SquareMillimetresPerSquareInch;

    /// <summary>Reads a number with its unit, such as the trade writes it.</summary>
    /// <param name="text">The text, for example <c>30 mm2/yr</c>.</param>
    /// <exception cref="FormatException">The text is not a number with a known unit.</exception>
    public static DiffusionCoefficient Parse(string text) =>
        TryParse(text, out var value, out var problem) ? value : throw new FormatException(problem);

    /// <summary>Reads a number with its unit; says why it can't.</summary>
    /// <param name="text">The text.</param>
    /// <param name="value">The quantity read.</param>
    /// <param name="problem">What is wrong, the value, what is allowed.</param>
    public static bool TryParse(
        string text,
        out DiffusionCoefficient value,
        [NotNullWhen(false)] out string? problem
    ) => QuantityText.TryParseDiffusionCoefficient(text, out value, out problem);

    /// <inheritdoc/>
    public int CompareTo(DiffusionCoefficient other) =>
        SquareMillimetresPerYear.CompareTo(other.SquareMillimetresPerYear);

    /// <summary>Whether the first is less than the second.</summary>
    public static bool operator <(DiffusionCoefficient left, DiffusionCoefficient right) =>
        left.SquareMillimetresPerYear < right.SquareMillimetresPerYear;

    /// <summary>Whether the first is greater than the second.</summary>
    public static bool operator >(DiffusionCoefficient left, DiffusionCoefficient right) =>
        left.SquareMillimetresPerYear > right.SquareMillimetresPerYear;

    /// <summary>Whether the first is at most the second.</summary>
    public static bool operator <=(DiffusionCoefficient left, DiffusionCoefficient right) =>
        left.SquareMillimetresPerYear <= right.SquareMillimetresPerYear;

    /// <summary>Whether the first is at least the second.</summary>
    public static bool operator >=(DiffusionCoefficient left, DiffusionCoefficient right) =>
        left.SquareMillimetresPerYear >= right.SquareMillimetresPerYear;

    /// <summary>The value with its canonical unit, in the invariant culture.</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{SquareMillimetresPerYear:G6} mm2/yr");

    private static double Checked(double canonical, double given, string unit) =>
        double.IsFinite(canonical) && canonical > 0
            ? canonical
            : throw new ArgumentOutOfRangeException(
                nameof(given),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"DiffusionCoefficient {given} {unit} is not allowed: it must be finite and positive."
                )
            );
}
