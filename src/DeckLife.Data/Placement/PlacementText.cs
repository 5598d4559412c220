using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using DeckLife.Placement;
using DeckLife.Quantities;

namespace DeckLife.Data.Placement;

/// <summary>Reads the quantities of a placement day from text with their units.</summary>
public static class PlacementText
{
    /// <summary>Reads a temperature difference or margin such as <c>2 °C</c> or <c>4 °F</c> [°C].</summary>
    /// <param name="text">The text.</param>
    /// <param name="value">The difference [°C].</param>
    /// <param name="problem">What is wrong, and what is allowed.</param>
    public static bool TryDifference(
        string text,
        out double value,
        [NotNullWhen(false)] out string? problem
    ) =>
        TryRead(
            text,
            u =>
                u is "°c" or "c" or "degc" ? 1
                : u is "°f" or "f" or "degf" ? 1 / 1.8
                : null,
            "°C or °F",
            out value,
            out problem
        );

    /// <summary>Reads a relative humidity such as <c>50 %</c> [0 to 1].</summary>
    /// <param name="text">The text.</param>
    /// <param name="value">The humidity as a fraction.</param>
    /// <param name="problem">What is wrong, and what is allowed.</param>
    public static bool TryHumidity(
        string text,
        out double value,
        [NotNullWhen(false)] out string? problem
    ) => TryRead(text, u => u is "%" or "%rh" ? 0.01 : null, "%", out value, out problem);

    /// <summary>Reads a wind speed such as <c>12 mph</c> [km/h].</summary>
    /// <param name="text">The text.</param>
    /// <param name="value">The speed [km/h].</param>
    /// <param name="problem">What is wrong, and what is allowed.</param>
    public static bool TryWind(
        string text,
        out double value,
        [NotNullWhen(false)] out string? problem
    ) => TryRead(text, WindFactor, "km/h, mph or m/s", out value, out problem);

    /// <summary>Reads an evaporation rate such as <c>0.15 lb/ft²/h</c> [kg/m²/h].</summary>
    /// <param name="text">The text.</param>
    /// <param name="value">The rate [kg/m²/h].</param>
    /// <param name="problem">What is wrong, and what is allowed.</param>
    public static bool TryEvaporation(
        string text,
        out double value,
        [NotNullWhen(false)] out string? problem
    ) =>
        TryRead(
            text,
            u =>
                u is "lb/ft2/h" or "lb/ft2/hr" or "lb/sqft/h" or "lb/sqft/hr" or "psf/h"
                    ? EvaporationRate.KgPerM2PerLbPerFt2
                : u is "kg/m2/h" or "kg/m2/hr" ? 1
                : null,
            "lb/ft2/h or kg/m2/h",
            out value,
            out problem
        );

    private static double? WindFactor(string unit) =>
        unit switch
        {
            "km/h" or "kmh" or "kph" => 1,
            "mph" or "mi/h" => UnitFactors.KilometresPerMile,
            "m/s" => 3.6,
            _ => null,
        };

    private static bool TryRead(
        string text,
        Func<string, double?> factor,
        string allowed,
        out double value,
        [NotNullWhen(false)] out string? problem
    )
    {
        ArgumentNullException.ThrowIfNull(text);
        value = 0;
        var (number, unit) = QuantityText.Split(text);
        if (factor(Units.Normalise(unit)) is not { } each)
        {
            problem = $"'{text.Trim()}': write a number and its unit, {allowed}.";
            return false;
        }

        if (!NumberText.TryParse(number, DecimalMark.Unknown, false, out var read, out var why))
        {
            problem = $"'{text.Trim()}': {why}.";
            return false;
        }

        value = read * each;
        problem = null;
        return true;
    }
}
