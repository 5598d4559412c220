using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using DeckLife.Studies;

namespace DeckLife.Data.Studies;

/// <summary>The JSON Schema of a study file, for editors; names and units are those that the reader knows.</summary>
/// <remarks>Checked by: StudySchemaTests, which hold it beside the reader.</remarks>
public static class StudySchema
{
    private static readonly JsonSerializerOptions Indented = new()
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        NewLine = "\n",
    };

    /// <summary>Writes the schema (JSON Schema, draft 2020-12).</summary>
    public static string Write()
    {
        var schema = Object(
            ["study", "seed", "inputs", "outputs", "methods"],
            ("study", Text("Name of the study.")),
            ("note", Text("What it is about and where its inputs come from.")),
            ("seed", Whole(0, 9007199254740991, "Seed of every random number.")),
            ("section", Section()),
            ("deck", Deck()),
            ("inputs", List(AnyOf(Inputs()), "The quantities, each once.")),
            ("correlations", List(Correlation(), "Rank correlations of drawn quantities.")),
            (
                "takeNearestValidCorrelations",
                new JsonObject
                {
                    ["type"] = "boolean",
                    ["description"] =
                        "Whether to take the nearest valid matrix where correlations contradict each other.",
                }
            ),
            ("outputs", List(AnyOf(Outputs()), "What is asked.")),
            ("methods", List(AnyOf(Methods()), "How it is answered."))
        );
        schema["oneOf"] = new JsonArray(
            new JsonObject { ["required"] = new JsonArray("section") },
            new JsonObject { ["required"] = new JsonArray("deck") }
        );
        var whole = new JsonObject
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["title"] = "A sensitivity or reliability study",
            ["description"] =
                "A study of one section, or of a deck under one of its strategies. Units stand beside the numbers.",
        };
        foreach (var (key, value) in schema)
        {
            whole[key] = value!.DeepClone();
        }

        return whole.ToJsonString(Indented);
    }

    private static JsonObject Section() =>
        Object(
            ["ageing"],
            ("ageing", Choice("none", "instantaneous", "apparent")),
            (
                "referenceAge_yr",
                Number(
                    1e-6,
                    1000,
                    "Age at which the diffusion coefficient holds; needed with ageing."
                )
            ),
            (
                "referenceTemperature_degC",
                Number(-60, 90, "Temperature at which the coefficients hold; absent: 20.")
            ),
            (
                "overlay",
                Object(
                    [
                        "age_yr",
                        "slabThickness_mm",
                        "ageingExponent",
                        "referenceAge_yr",
                        "initialChloride_kgm3",
                    ],
                    ("age_yr", Number(1e-3, 1000, "Age of the concrete when it is placed.")),
                    ("slabThickness_mm", Number(1, 10000, "Slab before any removal.")),
                    ("ageingExponent", Number(0, 0.999, "Of the overlay, instantaneous law.")),
                    (
                        "referenceAge_yr",
                        Number(1e-6, 1000, "Age at which the overlay's coefficient holds.")
                    ),
                    ("initialChloride_kgm3", Number(0, 1000, "Content of the overlay when placed."))
                )
            )
        );

    private static JsonObject Deck() =>
        Object(
            ["folder", "strategy"],
            ("folder", Text("The deck's folder, counted from the study file.")),
            ("strategy", Text("Name of one of the deck's strategies.")),
            ("points", Whole(16, 65536, "Points that stand for the area; absent: 256."))
        );

    private static IEnumerable<JsonObject> Inputs()
    {
        string[] spread = ["normal", "lognormal", "gamma", "weibull", "gumbel"];
        string[][] moments =
        [
            ["mean", "standardDeviation"],
            ["mean", "coefficientOfVariation"],
        ];
        string[] ends = ["lower", "upper"];
        List<(string[] Families, string[] Needed, string[] Allowed)> forms =
        [
            .. moments.Select(m => (spread, m, ends)),
            (["lognormal"], ["logMean", "logStandardDeviation"], ends),
            (["lognormal"], ["median", "coefficientOfVariation"], ends),
            (["gamma", "weibull"], ["shape", "scale"], ends),
            (["gumbel"], ["location", "scale"], ends),
            .. moments.Select(m => ((string[])["beta"], (string[])[.. m, .. ends], (string[])[])),
            (["beta"], ["shapeP", "shapeQ", .. ends], []),
            (["triangular"], ["lower", "mode", "upper"], []),
            (["uniform"], ends, []),
            .. moments.Select(m => ((string[])["uniform"], m, (string[])[])),
            (["empirical"], ["values"], []),
        ];
        yield return Object(
            ["input"],
            ("input", Choice(StudyVariableInfo.Of(StudyVariable.SurveyedState).Name))
        );
        // Quantities with the same units have the same forms.
        foreach (
            var kind in StudyVariableInfo.Given.GroupBy(v =>
                string.Join(' ', StudyUnit.Allowed(v).Keys)
            )
        )
        {
            var units = StudyUnit.Allowed(kind.First()).Keys.ToArray();
            (string, JsonNode)[] head =
            [
                ("input", Choice([.. kind.Select(v => v.Name)])),
                ("unit", Choice(units)),
            ];
            yield return Object(
                ["input", "unit", "value"],
                [.. head.Select(Copy), ("value", Number(-1e300, 1e300, "A fixed value."))]
            );
            foreach (var (families, needed, allowed) in forms)
            {
                yield return Object(
                    ["input", "unit", "distribution", .. needed],
                    [
                        .. head.Select(Copy),
                        ("distribution", Choice(families)),
                        .. needed.Concat(allowed).Select(key => (key, (JsonNode)Parameter(key))),
                    ]
                );
            }
        }
    }

    private static JsonObject Parameter(string key) =>
        key == "values"
            ? new JsonObject
            {
                ["type"] = "array",
                ["minItems"] = 1,
                ["items"] = new JsonObject { ["type"] = "number" },
            }
            : new JsonObject { ["type"] = "number" };

    private static JsonObject Correlation() =>
        Object(
            ["first", "second", "rank"],
            ("first", Choice([.. StudyVariableInfo.Given.Select(v => v.Name)])),
            ("second", Choice([.. StudyVariableInfo.Given.Select(v => v.Name)])),
            ("rank", Number(-1, 1, "Spearman's rank correlation."))
        );

    private static IEnumerable<JsonObject> Outputs()
    {
        foreach (var kind in Enum.GetValues<StudyOutputKind>())
        {
            var output = new StudyOutput(kind, 0);
            (string, JsonNode) name = ("output", Choice(output.Key));
            if (kind == StudyOutputKind.PresentValue)
            {
                yield return Object(["output"], name);
                continue;
            }

            var key = StudyFileReader.TimeKey(output);
            (string, JsonNode)[] members =
            [
                name,
                (key, Number(output.IsOfDeck ? 0 : 1e-3, 1000, output.Meaning[..^5])),
            ];
            if (output.IsShare)
            {
                members =
                [
                    .. members,
                    (
                        StudyFileReader.LevelKey,
                        Number(
                            StudyOutput.LeastLevel,
                            1,
                            "A level of the share: the output is then whether it is reached."
                        )
                    ),
                ];
            }

            yield return Object(["output", key], members);
        }
    }

    private static IEnumerable<JsonObject> Methods()
    {
        var source = Choice("lattice", "latinHypercube", "random");
        yield return Object(
            ["method", "draws"],
            ("method", Choice("monteCarlo")),
            ("draws", Whole(1, 1_000_000_000_000, "Number of draws.")),
            ("keep", Whole(0, 10_000_000, "Number of draws that are written out."))
        );
        yield return Object(
            ["method", "points"],
            ("method", Choice("sobol")),
            ("points", Whole(16, 1 << 24, "Points of each sample; for the lattice a power of 2.")),
            ("source", source.DeepClone()),
            ("bootstrap", Whole(100, 100_000, "Bootstrap samples; absent: 500.")),
            (
                "groups",
                List(
                    List(
                        Choice([.. StudyVariableInfo.All.Select(v => v.Name)]),
                        "Inputs that are taken together."
                    ),
                    "Groups; what none names stands by itself."
                )
            )
        );
        yield return Object(
            ["method", "points"],
            ("method", Choice("shapley")),
            ("points", Whole(16, 1 << 24, "Points of each sample.")),
            ("source", source.DeepClone()),
            ("bootstrap", Whole(100, 100_000, "Bootstrap samples; absent: 500."))
        );
        yield return Object(
            ["method", "design", "repetitions"],
            ("method", Choice("morris")),
            ("design", Choice("trajectories", "radial")),
            ("repetitions", Whole(2, 1_000_000, "Trajectories or stars.")),
            ("levels", Whole(4, 1000, "Levels of the grid; absent: 4.")),
            ("edgeProbability", Number(0, 0.49, "Probability left out at each end; absent: 0.01."))
        );
        yield return Object(
            ["method"],
            ("method", Choice("swings")),
            ("low", Number(1e-6, 0.5, "Lower probability; absent: 0.1.")),
            ("high", Number(0.5, 1 - 1e-6, "Upper probability; absent: 0.9."))
        );
        yield return Object(
            ["method"],
            ("method", Choice("reliability")),
            ("draws", Whole(1000, 100_000_000, "Draws of the importance sampling; absent: 65536."))
        );
    }

    private static (string, JsonNode) Copy((string Key, JsonNode Value) member) =>
        (member.Key, member.Value.DeepClone());

    private static JsonObject Object(string[] required, params (string Key, JsonNode Value)[] keys)
    {
        var properties = new JsonObject();
        foreach (var (key, value) in keys)
        {
            properties[key] = value;
        }

        return new()
        {
            ["type"] = "object",
            ["properties"] = properties,
            ["required"] = new JsonArray([.. required.Select(k => (JsonNode)k)]),
            ["additionalProperties"] = false,
        };
    }

    private static JsonObject AnyOf(IEnumerable<JsonObject> forms) =>
        new() { ["anyOf"] = new JsonArray([.. forms]) };

    private static JsonObject List(JsonNode items, string description) =>
        new()
        {
            ["type"] = "array",
            ["minItems"] = 1,
            ["items"] = items,
            ["description"] = description,
        };

    private static JsonObject Choice(params string[] words) =>
        new()
        {
            ["type"] = "string",
            ["enum"] = new JsonArray([.. words.Select(w => (JsonNode)w)]),
        };

    private static JsonObject Text(string description) =>
        new() { ["type"] = "string", ["description"] = description };

    private static JsonObject Number(double least, double most, string description) =>
        new()
        {
            ["type"] = "number",
            ["minimum"] = least,
            ["maximum"] = most,
            ["description"] = description,
        };

    private static JsonObject Whole(long least, long most, string description) =>
        new()
        {
            ["type"] = "integer",
            ["minimum"] = least,
            ["maximum"] = most,
            ["description"] = description,
        };
}
