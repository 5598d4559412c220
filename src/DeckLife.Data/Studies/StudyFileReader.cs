using System.Collections.Immutable;
using System.Text.Json;
using DeckLife.Data.Folders;
using DeckLife.Data.Ingress;
using DeckLife.Data.Json;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Numerics.DesignOfExperiments;
using DeckLife.Numerics.Sensitivity;
using DeckLife.Studies;

namespace DeckLife.Data.Studies;

/// <summary>Reads the JSON of <c>decklife study</c>: strictly, every problem at once, nothing guessed.</summary>
public static class StudyFileReader
{
    /// <summary>Reads a study.</summary>
    /// <param name="json">The text of the file.</param>
    /// <param name="folder">The folder that the path of a deck counts from; absent: the working folder.</param>
    public static StudyReading Read(string json, string? folder = null)
    {
        ArgumentNullException.ThrowIfNull(json);
        var problems = new List<Diagnostic>();
        StudyDefinition? study = null;
        MessageUnits? units = null;
        try
        {
            using var document = StrictDocument.Parse(json);
            study = ReadStudy(document.RootElement, folder ?? "", problems, ref units);
            units ??= IsInInches(document.RootElement) ? MessageUnits.UsCustomary : null;
        }
        catch (JsonException e)
        {
            problems.Add(
                DiagnosticCatalogue.StudyFileUnreadable.With(
                    "The file is no valid JSON: " + ProblemList.Shorten(e.Message)
                )
            );
        }

        if (problems.Count == 0 && study is not null)
        {
            problems.AddRange(
                StudyCheck
                    .Find(study)
                    .Select(p => p with { Text = ProblemList.Shorten(p.Text, longest: 1500) })
            );
        }

        return new(problems.Any(p => p.Severity == Severity.Error) ? null : study, [.. problems])
        {
            Units = units ?? MessageUnits.Canonical,
        };
    }

    private static bool IsInInches(JsonElement root) =>
        root.ValueKind == JsonValueKind.Object
        && root.TryGetProperty("inputs", out var inputs)
        && inputs.ValueKind == JsonValueKind.Array
        && inputs
            .EnumerateArray()
            .Any(i =>
                i.ValueKind == JsonValueKind.Object
                && i.TryGetProperty("unit", out var unit)
                && unit.ValueKind == JsonValueKind.String
                && unit.GetString() == "in"
            );

    private static StudyDefinition? ReadStudy(
        JsonElement root,
        string folder,
        List<Diagnostic> problems,
        ref MessageUnits? units
    )
    {
        var reader = new JsonObjectReader(root, "", problems);
        var name = reader.Text("study");
        var note = reader.Text("note", isRequired: false);
        var seed = reader.Number("seed", 0, 9007199254740991);
        if (seed is { } s && s != Math.Floor(s))
        {
            reader.Reject("seed", "a whole number is expected.");
        }

        var deck = reader.Object("deck", isRequired: false) is { } about
            ? ReadDeck(about, folder, problems, ref units)
            : null;
        var section = reader.Object("section", isRequired: !reader.Has("deck")) is { } part
            ? ReadSection(part)
            : new();
        if (reader.Has("deck") && reader.Has("section"))
        {
            reader.Reject("deck", "a study is about a deck or about a section, not both.");
        }

        var inputs = Each(reader, "inputs", true, ReadInput);
        var correlations = Each(reader, "correlations", false, ReadCorrelation);
        var nearest = ReadFlag(reader, "takeNearestValidCorrelations");
        var outputs = Each(reader, "outputs", true, r => ReadOutput(r, deck?.Deck));
        var methods = Each(reader, "methods", true, ReadMethod);
        reader.Close();
        return problems.Count > 0
            ? null
            : new StudyDefinition
            {
                Name = name!,
                Note = note ?? "",
                Seed = (ulong)seed!.Value,
                Section = section,
                Deck = deck,
                Inputs = inputs,
                Correlations = correlations,
                TakeNearestValidCorrelations = nearest,
                Outputs = outputs,
                Methods = methods,
            };
    }

    private static ImmutableArray<T> Each<T>(
        JsonObjectReader reader,
        string key,
        bool isRequired,
        Func<JsonObjectReader, T?> read
    )
        where T : class
    {
        var items = ImmutableArray.CreateBuilder<T>();
        if (reader.Array(key, isRequired) is { } elements)
        {
            for (var i = 0; i < elements.Count; i++)
            {
                var item = reader.At(key, i, elements[i]);
                if (read(item) is { } value)
                {
                    items.Add(value);
                }

                item.Close();
            }
        }

        return items.ToImmutable();
    }

    private static bool ReadFlag(JsonObjectReader reader, string key)
    {
        if (reader.Optional(key) is not { } element)
        {
            return false;
        }

        if (element.ValueKind is not (JsonValueKind.True or JsonValueKind.False))
        {
            reader.Reject(reader.Path(key), "true or false is expected.");
            return false;
        }

        return element.GetBoolean();
    }

    private static DeckSubject? ReadDeck(
        JsonObjectReader reader,
        string folder,
        List<Diagnostic> problems,
        ref MessageUnits? units
    )
    {
        var path = reader.Text("folder");
        var strategy = reader.Text("strategy");
        var points = Whole(reader, "points", 16, 1 << 16, false) ?? 256;
        reader.Close();
        if (string.IsNullOrWhiteSpace(path) || strategy is null)
        {
            return null;
        }

        var read = DeckFolder.Read(Path.Combine(folder, path));
        units = read.Units;
        problems.AddRange(read.Problems.Where(p => p.Severity == Severity.Error));
        return read.Deck is { } deck ? new(deck, strategy, (int)points) : null;
    }

    private static SectionSettings ReadSection(JsonObjectReader reader)
    {
        var ageing = Choice(reader, "ageing", ["none", "instantaneous", "apparent"]);
        var standard = new SectionSettings();
        var settings = new SectionSettings
        {
            Ageing = ageing switch
            {
                "instantaneous" => SectionAgeing.Instantaneous,
                "apparent" => SectionAgeing.Apparent,
                _ => SectionAgeing.None,
            },
            ReferenceAgeYr =
                reader.Number("referenceAge_yr", 1e-6, 1000, ageing is not (null or "none"))
                ?? standard.ReferenceAgeYr,
            ReferenceTemperatureC =
                reader.Number("referenceTemperature_degC", -60, 90, isRequired: false)
                ?? standard.ReferenceTemperatureC,
        };
        if (reader.Object("overlay", isRequired: false) is { } overlay)
        {
            settings = settings with
            {
                OverlayAgeYr = overlay.Number("age_yr", 1e-3, 1000),
                SlabThicknessMm = overlay.Number("slabThickness_mm", 1, 10000) ?? 1,
                OverlayAgeingExponent = overlay.Number("ageingExponent", 0, 0.999) ?? 0,
                OverlayReferenceAgeYr = overlay.Number("referenceAge_yr", 1e-6, 1000) ?? 1,
                OverlayInitialChloride = overlay.Number("initialChloride_kgm3", 0, 1000) ?? 0,
            };
            overlay.Close();
        }

        reader.Close();
        return settings;
    }

    private static StudyInput? ReadInput(JsonObjectReader reader)
    {
        var variable = Variable(reader, "input");
        if (variable?.Variable == StudyVariable.SurveyedState)
        {
            return StudyInput.SurveyedState;
        }

        var unit = reader.Text("unit");
        if (variable is null || unit is null)
        {
            // The rest can't be judged without them; the keys are known all the same.
            foreach (
                var key in (string[])
                    [
                        "value",
                        "distribution",
                        "mean",
                        "standardDeviation",
                        "coefficientOfVariation",
                        "median",
                        "lower",
                        "upper",
                        "mode",
                        "shape",
                        "scale",
                        "location",
                        "shapeP",
                        "shapeQ",
                        "values",
                        "logMean",
                        "logStandardDeviation",
                    ]
            )
            {
                _ = reader.Optional(key);
            }

            return null;
        }

        if (StudyUnit.Factor(variable, unit) is not { } factor)
        {
            reader.Reject(
                reader.Path("unit"),
                $"\"{unit}\" is no unit of {variable.Name}; allowed: {string.Join(", ", StudyUnit.Allowed(variable).Keys)}."
            );
            factor = 1;
        }

        if (reader.Has("value"))
        {
            return reader.Number("value", -1e300, 1e300) is { } value
                ? new(variable.Variable, value * factor, null)
                : null;
        }

        return StudyDistributionReader.Read(reader, factor) is { } law
            ? new(variable.Variable, law.Quantile(0.5), law)
            : null;
    }

    private static StudyCorrelation? ReadCorrelation(JsonObjectReader reader)
    {
        var first = Variable(reader, "first");
        var second = Variable(reader, "second");
        var rank = reader.Number("rank", -1, 1);
        return first is null || second is null || rank is null
            ? null
            : new(first.Variable, second.Variable, rank.Value);
    }

    private static StudyOutput? ReadOutput(JsonObjectReader reader, Deck? deck)
    {
        var kinds = Enum.GetValues<StudyOutputKind>();
        var key = Choice(reader, "output", [.. kinds.Select(StudyOutput.KeyOf)]);
        if (key is null)
        {
            _ = reader.Optional("age_yr");
            _ = reader.Optional("time_yr");
            _ = reader.Optional("horizon_yr");
            _ = reader.Optional(LevelKey);
            return null;
        }

        var output = new StudyOutput(kinds.Single(k => StudyOutput.KeyOf(k) == key), 0);
        if (output.Kind == StudyOutputKind.PresentValue)
        {
            return output with
            {
                AgeYr = deck?.Horizon.Years ?? 0,
                Currency = deck?.Prices?.Currency ?? "",
            };
        }

        var age = reader.Number(TimeKey(output), output.IsOfDeck ? 0 : 1e-3, 1000);
        var level =
            output.IsShare && reader.Has(LevelKey)
                ? reader.Number(LevelKey, StudyOutput.LeastLevel, 1)
                : null;
        return age is null ? null : output with { AgeYr = age.Value, Level = level };
    }

    /// <summary>The key of the level that a share is asked to reach.</summary>
    internal const string LevelKey = "reaching";

    /// <summary>The key of an output's age, time or horizon.</summary>
    internal static string TimeKey(StudyOutput output) =>
        output.IsTime ? "horizon_yr"
        : output.IsOfDeck ? "time_yr"
        : "age_yr";

    private static StudyMethod? ReadMethod(JsonObjectReader reader)
    {
        var method = Choice(
            reader,
            "method",
            ["monteCarlo", "sobol", "shapley", "morris", "swings", "reliability"]
        );
        switch (method)
        {
            case "monteCarlo":
                return Whole(reader, "draws", 1, 1_000_000_000_000) is { } draws
                    ? new MonteCarloMethod(
                        draws,
                        (int)Math.Min(draws, Whole(reader, "keep", 0, 10_000_000, false) ?? 0)
                    )
                    : null;
            case "sobol":
                return Whole(reader, "points", 16, 1 << 24) is { } points
                    ? new SobolMethod(
                        (int)points,
                        Source(reader),
                        Bootstrap(reader),
                        Groups(reader)
                    )
                    : null;
            case "shapley":
                return Whole(reader, "points", 16, 1 << 24) is { } number
                    ? new ShapleyMethod((int)number, Source(reader), Bootstrap(reader))
                    : null;
            case "morris":
                var design = Choice(reader, "design", ["trajectories", "radial"]);
                return
                    Whole(reader, "repetitions", 2, 1_000_000) is { } repetitions
                    && design is not null
                    ? new MorrisMethod(
                        design == "radial" ? MorrisDesign.Radial : MorrisDesign.Trajectories,
                        (int)repetitions,
                        (int)(Whole(reader, "levels", 4, 1000, false) ?? 4),
                        reader.Number("edgeProbability", 0, 0.49, isRequired: false) ?? 0.01
                    )
                    : null;
            case "swings":
                return new SwingMethod(
                    reader.Number("low", 1e-6, 0.5, isRequired: false) ?? 0.1,
                    reader.Number("high", 0.5, 1 - 1e-6, isRequired: false) ?? 0.9
                );
            case "reliability":
                return new ReliabilityMethod(
                    (int)(Whole(reader, "draws", 1000, 100_000_000, false) ?? 65536)
                );
            default:
                return null;
        }
    }

    private static PointSource Source(JsonObjectReader reader) =>
        reader.Has("source")
            ? Choice(reader, "source", ["lattice", "latinHypercube", "random"]) switch
            {
                "random" => PointSource.Random,
                "latinHypercube" => PointSource.LatinHypercube,
                _ => PointSource.Lattice,
            }
            : PointSource.Lattice;

    private static int Bootstrap(JsonObjectReader reader) =>
        (int)(Whole(reader, "bootstrap", 100, 100_000, false) ?? 500);

    private static ImmutableArray<ImmutableArray<StudyVariable>> Groups(JsonObjectReader reader)
    {
        var groups = ImmutableArray.CreateBuilder<ImmutableArray<StudyVariable>>();
        foreach (var group in reader.Array("groups", isRequired: false) ?? [])
        {
            if (group.ValueKind != JsonValueKind.Array)
            {
                reader.Reject(reader.Path("groups"), "a list of lists of input names is expected.");
                continue;
            }

            var members = ImmutableArray.CreateBuilder<StudyVariable>();
            foreach (var member in group.EnumerateArray())
            {
                if (
                    member.ValueKind == JsonValueKind.String
                    && StudyVariableInfo.Find(member.GetString()) is { } info
                )
                {
                    members.Add(info.Variable);
                }
                else
                {
                    reader.Reject(
                        reader.Path("groups"),
                        $"{JsonObjectReader.Kind(member)} is no input."
                    );
                }
            }

            groups.Add(members.ToImmutable());
        }

        return groups.ToImmutable();
    }

    private static StudyVariableInfo? Variable(JsonObjectReader reader, string key)
    {
        if (reader.Text(key) is not { } name)
        {
            return null;
        }

        var found = StudyVariableInfo.Find(name);
        if (found is null)
        {
            reader.Reject(
                reader.Path(key),
                $"\"{name}\" is no input; allowed: {string.Join(", ", StudyVariableInfo.All.Select(v => v.Name))}."
            );
        }

        return found;
    }

    private static string? Choice(JsonObjectReader reader, string key, string[] allowed)
    {
        if (reader.Text(key) is not { } value)
        {
            return null;
        }

        if (allowed.Contains(value))
        {
            return value;
        }

        reader.Reject(reader.Path(key), $"\"{value}\" is not one of {string.Join(", ", allowed)}.");
        return null;
    }

    private static long? Whole(
        JsonObjectReader reader,
        string key,
        long least,
        long most,
        bool isRequired = true
    )
    {
        if (reader.Number(key, least, most, isRequired) is not { } number)
        {
            return null;
        }

        if (number == Math.Floor(number))
        {
            return (long)number;
        }

        reader.Reject(reader.Path(key), "a whole number is expected.");
        return null;
    }
}
