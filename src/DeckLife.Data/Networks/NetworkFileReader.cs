using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Data.Json;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Network.Decks;
using DeckLife.Quantities;

namespace DeckLife.Data.Networks;

/// <summary>Reads network.json into a network; every problem is reported at its key.</summary>
internal sealed class NetworkFileReader(JsonItem root, ProblemList problems)
{
    private readonly JsonValues values = new(problems);

    /// <summary>Reads it; nothing where a needed value is missing or wrong.</summary>
    public NetworkDefinition? Read()
    {
        var program = JsonValues.Object(root, "program");
        var first = values.Whole(program, "program", "firstYear", 1900, 2300);
        var years = values.Whole(program, "program", "years", 1, 60);
        var last = values.Whole(program, "program", "lastYear", 1900, 2400);
        var every = values.Whole(program, "program", "startEvery", 1, 60) ?? 1;
        var budget = values.Whole(program, "program", "budget", 0, long.MaxValue / 1_000_000);
        var classes = Classes();
        var members = Members();
        if (
            JsonValues.Text(root, "name") is not { Length: > 0 } name
            || first is not { } start
            || years is not { } count
            || last is not { } end
            || budget is not { } money
        )
        {
            return null;
        }

        if (end < start + count - 1 || end > start + 150)
        {
            Years(
                program!["lastYear"]!,
                "program.lastYear",
                $"lastYear {end} is not within the program's last year {start + count - 1} and {start + 150}"
            );
            return null;
        }

        var closures = JsonValues.Object(program, "closures");
        var condition = JsonValues.Object(program, "condition");
        var analysis = JsonValues.Object(root, "analysis");
        return new()
        {
            Name = name,
            Story = JsonValues.Text(root, "story"),
            FirstYear = (int)start,
            LastYear = (int)end,
            Budgets = Budgets(program!, (int)start, (int)count, money),
            StartYears =
            [
                .. Enumerable
                    .Range(0, (int)count)
                    .Where(y => y % every == 0)
                    .Select(y => (int)start + y),
            ],
            MostClosuresAYear = (int?)
                values.Whole(closures, "program.closures", "perYear", 0, 1_000_000),
            MostClosuresACorridor = (int?)
                values.Whole(closures, "program.closures", "perCorridorAndYear", 0, 1_000_000),
            DamagedAtMost = values.Fraction(
                condition,
                "program.condition",
                "damagedAtMost",
                0,
                1,
                "a share lies between 0 and 1: write 0.08 or \"8 %\""
            ),
            DamagedAtMostFrom = (int)(
                values.Whole(condition, "program.condition", "from", start, end) ?? start
            ),
            Seed = (ulong)(values.Whole(analysis, "analysis", "seed", 0, long.MaxValue) ?? 1),
            Draws = (int)(values.Whole(analysis, "analysis", "draws", 20, 10_000) ?? 20),
            Points = (int)(values.Whole(analysis, "analysis", "points", 16, 65_536) ?? 256),
            Classes = classes,
            Members = members,
        };
    }

    private ImmutableArray<long> Budgets(JsonItem program, int first, int years, long each)
    {
        var budgets = Enumerable.Repeat(each, years).ToArray();
        var said = new HashSet<long>();
        foreach (var (item, path) in JsonValues.Objects(program, "program", "budgets"))
        {
            var year = values.Whole(item, path, "year", first, first + years - 1);
            var money = values.Whole(item, path, "budget", 0, long.MaxValue / 1_000_000);
            if (year is not { } y || money is not { } m)
            {
                continue;
            }

            if (!said.Add(y))
            {
                Years(item["year"]!, path + ".year", $"the year {y} has two budgets");
            }

            budgets[y - first] = m;
        }

        return [.. budgets];
    }

    private ImmutableArray<ExposureClass> Classes()
    {
        var classes = ImmutableArray.CreateBuilder<ExposureClass>();
        foreach (var (item, path) in JsonValues.Objects(root, "", "exposureClasses"))
        {
            var content = values.Uncertain(
                item,
                path,
                "surfaceChloride",
                (i, p) => values.Chloride(i, p, default)
            );
            var diffusion = values.Uncertain(
                item,
                path,
                "diffusionCoefficient",
                (i, p) =>
                    values.Measure(
                        i,
                        p,
                        Dimension.Diffusion,
                        0.01,
                        10_000,
                        "a diffusion coefficient lies between 0.01 and 10 000 mm2/yr"
                    )
            );
            var share = values.Fraction(
                item,
                path,
                "withinDeckShare",
                0,
                1,
                "a share lies between 0 and 1"
            );
            var background = values.Chloride(item, path, "background", default);
            var name = JsonValues.Text(item, "name");
            if (name is not null && classes.Any(c => c.Name == name))
            {
                problems.Add(
                    DiagnosticCatalogue.NameTwice,
                    item["name"]!.Line,
                    path + ".name",
                    name,
                    path,
                    name
                );
            }

            if (content is { Mean: <= 0 })
            {
                var value = item["surfaceChloride"]!;
                problems.Add(
                    DiagnosticCatalogue.QuantityImpossible,
                    value.Line,
                    path + ".surfaceChloride",
                    value.Text,
                    path + ".surfaceChloride",
                    value.Show(),
                    "a surface content is above 0"
                );
            }

            if (
                name is not null
                && JsonValues.Text(item, "source") is { } source
                && content is { } c
                && diffusion is { } d
            )
            {
                classes.Add(
                    new()
                    {
                        Name = name,
                        SurfaceChloride = c,
                        DiffusionCoefficient = d,
                        WithinDeckShare = share ?? 0.5,
                        BackgroundKgPerM3 = background ?? 0,
                        Source = source,
                    }
                );
            }
        }

        return classes.ToImmutable();
    }

    private ImmutableArray<NetworkMember> Members()
    {
        var members = ImmutableArray.CreateBuilder<NetworkMember>();
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (var (item, path) in JsonValues.Objects(root, "", "decks"))
        {
            if (JsonValues.Text(item, "folder") is not { Length: > 0 } folder)
            {
                continue;
            }

            // A name, not a path: a network reads nothing outside its own folder.
            if (
                folder is "." or ".."
                || folder.AsSpan().IndexOfAny("/\\:") >= 0
                || folder.Any(char.IsControl)
            )
            {
                var value = item["folder"]!;
                problems.Add(
                    DiagnosticCatalogue.QuantityImpossible,
                    value.Line,
                    path + ".folder",
                    folder,
                    path + ".folder",
                    folder,
                    "the name of a folder beside network.json is needed, not a path"
                );
                continue;
            }

            if (!seen.Add(folder))
            {
                problems.Add(
                    DiagnosticCatalogue.DeckListedTwice,
                    item.Line,
                    path + ".folder",
                    folder,
                    folder
                );
                continue;
            }

            members.Add(
                new()
                {
                    Folder = folder,
                    LatitudeDeg = values.Number(
                        item,
                        path,
                        "latitude",
                        -90,
                        90,
                        "a latitude lies between -90 and 90"
                    ),
                    LongitudeDeg = values.Number(
                        item,
                        path,
                        "longitude",
                        -180,
                        180,
                        "a longitude lies between -180 and 180"
                    ),
                    Corridor = JsonValues.Text(item, "corridor"),
                    ExposureClass = JsonValues.Text(item, "exposureClass"),
                    Weight =
                        values.Number(
                            item,
                            path,
                            "weight",
                            0,
                            1000,
                            "a weight lies between 0 and 1000"
                        ) ?? 1,
                    Strategies =
                    [
                        .. JsonValues
                            .Objects(item, path, "strategies")
                            .Select(s => JsonValues.Text(s.Item, "name"))
                            .OfType<string>(),
                    ],
                }
            );
        }

        return members.ToImmutable();
    }

    private void Years(JsonItem item, string path, FormattableString text) =>
        problems.Add(
            DiagnosticCatalogue.NetworkYears,
            item.Line,
            path,
            item.Text,
            text.ToString(CultureInfo.InvariantCulture)
        );
}
