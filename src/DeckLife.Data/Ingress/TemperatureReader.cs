using System.Globalization;
using DeckLife.Quantities;
using DeckLife.Transport;

namespace DeckLife.Data.Ingress;

/// <summary>Reads a temperature history.</summary>
internal static class TemperatureReader
{
    public static TemperatureHistory? Read(JsonObjectReader reader)
    {
        var law = reader.Text("law");
        TemperatureHistory? found = null;
        switch (law)
        {
            case null:
                return null;
            case "constant":
                found = reader.Quantity<Temperature>("value", Temperature.TryParse) is { } value
                    ? new ConstantTemperature(value)
                    : null;
                break;
            case "monthly":
                found = ReadMonthly(reader);
                break;
            case "sinusoid":
                var mean = reader.Quantity<Temperature>("mean", Temperature.TryParse);
                var amplitude = reader.Quantity<double>("amplitude", TryParseDifference);
                var warmest = reader.Quantity<Age>("warmestAt", Age.TryParse);
                found =
                    mean is { } m && amplitude is { } a && warmest is { } w
                        ? new SinusoidalTemperature(m, a, w)
                        : null;
                break;
            default:
                reader.Reject(
                    reader.Path("law"),
                    $"\"{law}\" is not known; known are constant, monthly and sinusoid."
                );
                return null;
        }

        reader.Close();
        return found;
    }

    private static MonthlyTemperature? ReadMonthly(JsonObjectReader reader)
    {
        var values = IngressCaseReader.ReadList<Temperature>(
            reader,
            "values",
            Temperature.TryParse
        );
        var zero = reader.Required("timeZeroMonth") is { } element
            ? MonthReader.Read(reader, element, reader.Path("timeZeroMonth"))
            : null;
        if (values.Count != 12)
        {
            reader.Reject(
                reader.Path("values"),
                "twelve temperatures are expected, January to December."
            );
            return null;
        }

        return zero is { } month
            ? new MonthlyTemperature([.. values.Select(v => v.Value)], month)
            : null;
    }

    // A difference of temperatures: 1 °C is 1 K, and 1 °F is 5/9 K.
    private static bool TryParseDifference(string text, out double kelvin, out string? problem)
    {
        var trimmed = text.Trim();
        foreach (var (unit, factor) in new[] { ("°C", 1), ("°F", 5 / 9.0), ("K", 1) })
        {
            if (
                trimmed.EndsWith(unit, StringComparison.Ordinal)
                && double.TryParse(
                    trimmed[..^unit.Length].TrimEnd(),
                    NumberStyles.Float,
                    CultureInfo.InvariantCulture,
                    out var number
                )
                && number is >= 0 and < 100
            )
            {
                kelvin = number * factor;
                problem = null;
                return true;
            }
        }

        kelvin = 0;
        problem = $"'{text}' is not a difference of temperatures: write a number and K, °C or °F.";
        return false;
    }
}
