using System.CommandLine;
using DeckLife.Data.Placement;
using DeckLife.Placement;
using DeckLife.Quantities;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife placement-day --air … --concrete … --humidity … --wind …</c>: evaporation and air temperature against the limits of a specification.</summary>
internal sealed class PlacementDayVerb : IVerb
{
    private readonly Option<string> air = Needed("--air", "Air temperature, such as \"80 F\".");
    private readonly Option<string> concrete = Needed(
        "--concrete",
        "Temperature of the concrete's surface, such as \"87 F\"."
    );
    private readonly Option<string> humidity = Needed(
        "--humidity",
        "Relative humidity, such as \"50 %\"."
    );
    private readonly Option<string> wind = Needed(
        "--wind",
        "Wind 0.5 m above the surface, such as \"12 mph\"."
    );
    private readonly Option<string?> limit = new("--evaporation-limit")
    {
        Description = "Greatest rate of your specification, such as \"0.15 lb/ft2/h\".",
    };
    private readonly Option<string?> least = new("--least-air")
    {
        Description = "Least air temperature of your specification, such as \"45 F\".",
    };
    private readonly Option<string?> margin = new("--air-margin")
    {
        Description =
            "How far the air may differ from the reading or forecast, such as \"4 F\"; without it the reading is taken as it is.",
    };
    private readonly Option<string> format = new("--format")
    {
        Description = "How results are printed.",
        DefaultValueFactory = _ => "text",
    };

    private delegate bool Reader(string text, out double value, out string? problem);

    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        format.AcceptOnlyFromAmong("text", "json");
        var command = new Command(
            "placement-day",
            "Evaporation from fresh concrete with its scatter, and air temperature, against the limits of your specification."
        )
        {
            air,
            concrete,
            humidity,
            wind,
            limit,
            least,
            margin,
            format,
        };
        command.SetAction(parsed => Run(parsed, output, error));
        return command;
    }

    private int Run(ParseResult parsed, TextWriter output, TextWriter error)
    {
        var problems = new List<string>();
        double? Read(Option<string?> option, Reader reader)
        {
            if (parsed.GetValue(option) is not { } text)
            {
                return null;
            }

            if (reader(text, out var value, out var problem))
            {
                return value;
            }

            problems.Add($"{option.Name} {problem}");
            return null;
        }

        var reading = new PlacementReading(
            "",
            Read(air!, Celsius) ?? 0,
            Read(concrete!, Celsius) ?? 0,
            Read(humidity!, PlacementText.TryHumidity) ?? 0,
            Read(wind!, PlacementText.TryWind) ?? 0
        );
        var limits = new PlacementLimits
        {
            GreatestEvaporationKgPerM2H = Read(limit, PlacementText.TryEvaporation),
            LeastAirC = Read(least, Celsius),
            AirMarginC = Read(margin, PlacementText.TryDifference) ?? 0,
        };
        if (problems.Count == 0 && EvaporationRate.Problem(reading) is { } impossible)
        {
            problems.Add(impossible);
        }

        if (limits.GreatestEvaporationKgPerM2H <= 0)
        {
            problems.Add("--evaporation-limit must be above 0.");
        }

        if (limits.AirMarginC < 0)
        {
            problems.Add("--air-margin must not be negative.");
        }

        if (problems.Count > 0)
        {
            problems.ForEach(error.WriteLine);
            return ExitCodes.UnusableInput;
        }

        var hours = PlacementDay.Compare([reading], limits);
        output.Write(
            parsed.GetValue(format) == "json"
                ? PlacementResultWriter.ToJson(hours, limits)
                : PlacementResultWriter.ToText(hours, limits)
        );
        return ExitCodes.Done;
    }

    private static bool Celsius(string text, out double value, out string? problem)
    {
        var read = Temperature.TryParse(text, out var temperature, out problem);
        value = temperature.Celsius;
        return read;
    }

    private static Option<string> Needed(string name, string description) =>
        new(name) { Description = description, Required = true };
}
