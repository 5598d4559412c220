using System.Collections.Immutable;
using System.CommandLine;
using DeckLife.Data;
using DeckLife.Data.Placement;
using DeckLife.Data.Projection;
using DeckLife.Diagnostics;
using DeckLife.Placement;
using DeckLife.Quantities;
using DeckLife.Reporting.Charts;
using DeckLife.Reporting.Page;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife placement-day --air … --concrete … --humidity … --wind …</c>: evaporation and air temperature against the limits of a specification.</summary>
internal sealed class PlacementDayVerb : IVerb
{
    private readonly Option<string?> air = Reading("--air", "Air temperature, such as \"80 F\".");
    private readonly Option<string?> concrete = Reading(
        "--concrete",
        "Temperature of the concrete's surface, such as \"87 F\"."
    );
    private readonly Option<string?> humidity = Reading(
        "--humidity",
        "Relative humidity, such as \"50 %\"."
    );
    private readonly Option<string?> wind = Reading(
        "--wind",
        "Wind 0.5 m (20 in) above the surface, such as \"12 mph\"."
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
    private readonly Option<string?> table = new("--hours")
    {
        Description =
            "A table of the day instead, one row a time: time,air_f,concrete_f,humidity_percent,wind_mph (or _c, _km_per_h, _m_per_s).",
    };
    private readonly Option<string?> page = new("--chart")
    {
        Description = "Also writes the day as one HTML page to this file.",
    };
    private readonly Option<bool> force = new("--force")
    {
        Description = "Overwrites the chart's file where there is one.",
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
        format.AcceptOnlyFromAmong("text", "json", "csv");
        var command = new VerbCommand(
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
            table,
            page,
            force,
            format,
        };
        command.ShowExamples(
            "decklife placement-day --air \"80 F\" --concrete \"87 F\" --humidity \"50 %\" --wind \"12 mph\" --evaporation-limit \"0.15 lb/ft2/h\""
        );
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

        var readings = Readings(parsed, problems, Read);
        var limits = new PlacementLimits
        {
            GreatestEvaporationKgPerM2H = Read(limit, PlacementText.TryEvaporation),
            LeastAirC = Read(least, Celsius),
            AirMarginC = Read(margin, PlacementText.TryDifference) ?? 0,
        };
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

        var hours = PlacementDay.Compare(readings, limits);
        if (
            parsed.GetValue(page) is { } target
            && WritePage(target, parsed.GetValue(force), hours, limits) is { } unwritten
        )
        {
            error.WriteLine(unwritten);
            return ExitCodes.UnusableInput;
        }

        output.Write(
            parsed.GetValue(format) switch
            {
                "json" => PlacementResultWriter.ToJson(hours, limits),
                "csv" => PlacementResultWriter.ToCsv(hours),
                _ => PlacementResultWriter.ToText(hours, limits),
            }
        );
        return ExitCodes.Done;
    }

    private ImmutableArray<PlacementReading> Readings(
        ParseResult parsed,
        List<string> problems,
        Func<Option<string?>, Reader, double?> read
    )
    {
        (Option<string?> Option, Reader Read)[] single =
        [
            (air, Celsius),
            (concrete, Celsius),
            (humidity, PlacementText.TryHumidity),
            (wind, PlacementText.TryWind),
        ];
        if (parsed.GetValue(table) is not { } file)
        {
            problems.AddRange(
                single
                    .Where(s => parsed.GetValue(s.Option) is null)
                    .Select(s => $"{s.Option.Name} is missing; or give the day with --hours.")
            );
            var values = single.Select(s => read(s.Option, s.Read) ?? 0).ToArray();
            var reading = new PlacementReading("", values[0], values[1], values[2], values[3]);
            if (problems.Count == 0 && EvaporationRate.Problem(reading) is { } impossible)
            {
                problems.Add(impossible);
            }

            return [reading];
        }

        problems.AddRange(
            single
                .Where(s => parsed.GetValue(s.Option) is not null)
                .Select(s => $"{s.Option.Name} and --hours exclude each other.")
        );
        ReadOnlyMemory<byte> content;
        try
        {
            content = WholeFile.Read(file);
        }
        catch (Exception e)
            when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            problems.Add($"--hours {file}: {e.Message}");
            return [];
        }

        var readings = PlacementTable.Read(Path.GetFileName(file), content, out var found);
        problems.AddRange(found.Select(p => ProblemLine.Of(p, MessageUnits.Canonical)));
        return readings;
    }

    private static string? WritePage(
        string target,
        bool overwrite,
        ImmutableArray<PlacementHour> hours,
        PlacementLimits limits
    )
    {
        try
        {
            using var stream = new FileStream(
                target,
                overwrite ? FileMode.Create : FileMode.CreateNew
            );
            using var writer = new StreamWriter(stream);
            writer.Write(
                new HtmlPage
                {
                    Title = "Placement day",
                    Body = PlacementDayChart.Draw(hours, limits).ToHtml(),
                    Version = BuildStamp.OfThisBuild().Version,
                }.Render()
            );
            return null;
        }
        catch (Exception e)
            when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return $"--chart {target}: {e.Message} (--force overwrites)";
        }
    }

    private static bool Celsius(string text, out double value, out string? problem)
    {
        var read = Temperature.TryParse(text, out var temperature, out problem);
        value = temperature.Celsius;
        return read;
    }

    private static Option<string?> Reading(string name, string description) =>
        new(name) { Description = description };
}
