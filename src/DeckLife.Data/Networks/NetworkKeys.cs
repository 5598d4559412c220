using DeckLife.Data.Json;

namespace DeckLife.Data.Networks;

/// <summary>The keys of network.json.</summary>
internal static class NetworkKeys
{
    private static readonly JsonKey Name = new("name", JsonShape.Text, "A name.", true);

    private static readonly JsonKey[] Program =
    [
        new("firstYear", JsonShape.Whole, "First year of the program.", true),
        new("years", JsonShape.Whole, "Number of years in the program.", true),
        new("budget", JsonShape.Whole, "Money for each year, in the currency of the prices.", true),
        new(
            "budgets",
            JsonShape.Objects,
            "Years with another budget.",
            Keys:
            [
                new("year", JsonShape.Whole, "The year.", true),
                new("budget", JsonShape.Whole, "Money for that year.", true),
            ]
        ),
        new("lastYear", JsonShape.Whole, "Last year that the condition is looked at.", true),
        new(
            "startEvery",
            JsonShape.Whole,
            "Work may start in the first year and every so many years after it; absent: every year."
        ),
        new(
            "closures",
            JsonShape.Object,
            "Most decks closed for work at once.",
            Keys:
            [
                new("perYear", JsonShape.Whole, "In one year."),
                new("perCorridorAndYear", JsonShape.Whole, "In one year on one corridor."),
            ]
        ),
        new(
            "condition",
            JsonShape.Object,
            "The condition that the network is to be kept in.",
            Keys:
            [
                new(
                    "damagedAtMost",
                    JsonShape.Fraction,
                    "Most of the network's area that may be damaged, in the mean over what is not known.",
                    true,
                    Example: "8 %"
                ),
                new("from", JsonShape.Whole, "First year that it holds in.", true),
            ]
        ),
    ];

    private static readonly JsonKey[] ExposureClass =
    [
        Name,
        new(
            "surfaceChloride",
            JsonShape.Uncertain,
            "Surface content over places and decks of the class.",
            true,
            Example: "6 kg/m3"
        ),
        new(
            "diffusionCoefficient",
            JsonShape.Uncertain,
            "Apparent diffusion coefficient over places and decks of the class.",
            true,
            Example: "15 mm2/yr"
        ),
        new(
            "withinDeckShare",
            JsonShape.Fraction,
            "Share of each spread that lies within a deck, 0 to 1; absent: one half."
        ),
        new(
            "background",
            JsonShape.Quantity,
            "Background content; absent: 0.",
            Example: "0.1 kg/m3"
        ),
        new("source", JsonShape.Text, "Where the values come from.", true),
    ];

    private static readonly JsonKey[] Deck =
    [
        new("folder", JsonShape.Text, "Name of the deck's folder.", true),
        new("latitude", JsonShape.Number, "Latitude in degrees."),
        new("longitude", JsonShape.Number, "Longitude in degrees."),
        new("corridor", JsonShape.Text, "The road that it is on."),
        new(
            "exposureClass",
            JsonShape.Text,
            "Exposure class that stands in for cores where the folder has none."
        ),
        new(
            "weight",
            JsonShape.Number,
            "How much its area counts in the program, relative to others; absent: 1."
        ),
        new(
            "strategies",
            JsonShape.Objects,
            "Strategies allowed on it; absent: all.",
            Keys: [Name]
        ),
    ];

    /// <summary>All keys, in the order of the documentation.</summary>
    public static readonly JsonKey[] All =
    [
        new("$schema", JsonShape.Text, "The JSON Schema that editors use."),
        Name,
        new("story", JsonShape.Text, "What a reader should know of the network."),
        new("program", JsonShape.Object, "The program of work.", true, Program),
        new(
            "analysis",
            JsonShape.Object,
            "Size and seed of each deck's projection.",
            Keys:
            [
                new("seed", JsonShape.Whole, "Seed; 0 is a seed like any other."),
                new(
                    "draws",
                    JsonShape.Whole,
                    "Draws of what is not known, for each deck; absent: 20."
                ),
                new("points", JsonShape.Whole, "Points of a deck in each draw; absent: 256."),
            ]
        ),
        new(
            "exposureClasses",
            JsonShape.Objects,
            "What is taken of decks without cores.",
            Keys: ExposureClass
        ),
        new(
            "common",
            JsonShape.Object,
            "Facts that hold for every deck whose own deck.json does not give them: the keys of deck.json.",
            Keys: [.. DeckKeys.All.Select(k => k with { IsRequired = false })]
        ),
        new("decks", JsonShape.Objects, "The decks.", true, Deck),
    ];
}
