using System.Globalization;
using System.Text.Json;

namespace DeckLife.Data.Ingress;

/// <summary>Reads a month: a whole number from 1 to 12, or its English name or first three letters.</summary>
internal static class MonthReader
{
    public static int? Read(JsonObjectReader reader, JsonElement element, string path)
    {
        if (
            element.ValueKind == JsonValueKind.Number
            && element.TryGetInt32(out var number)
            && number is >= 1 and <= 12
        )
        {
            return number;
        }

        if (element.ValueKind == JsonValueKind.String)
        {
            var names = CultureInfo.InvariantCulture.DateTimeFormat;
            var text = element.GetString()!.Trim();
            for (var month = 1; month <= 12; month++)
            {
                if (
                    text.Equals(names.GetMonthName(month), StringComparison.OrdinalIgnoreCase)
                    || text.Equals(
                        names.GetAbbreviatedMonthName(month),
                        StringComparison.OrdinalIgnoreCase
                    )
                )
                {
                    return month;
                }
            }
        }

        reader.Reject(
            path,
            "a month is a whole number from 1 to 12, or a name such as \"November\"."
        );
        return null;
    }
}
