namespace DeckLife.Data.Json;

/// <summary>The keys of deck.json.</summary>
internal static class DeckKeys
{
    private static readonly JsonKey Source = new(
        "source",
        JsonShape.Text,
        "Where the values come from: a publication, tests, a specification, judgement.",
        true
    );

    private static readonly JsonKey[] MaterialTest =
    [
        new(
            "cov",
            JsonShape.Fraction,
            "Coefficient of variation of the placed material about the test's mean; absent: the specimens' own scatter, of two or more."
        ),
        new(
            "bulkDiffusion",
            JsonShape.Object,
            "Bulk diffusion: specimens of one material tested alike.",
            Keys:
            [
                new("method", JsonShape.Text, "The method with its year.", true),
                new(
                    "ageAtStart",
                    JsonShape.Quantity,
                    "Age at the start of the immersion.",
                    true,
                    Example: "28 d"
                ),
                new("immersion", JsonShape.Quantity, "Its length.", true, Example: "90 d"),
                new(
                    "specimens",
                    JsonShape.Objects,
                    "One a specimen.",
                    true,
                    Keys:
                    [
                        new(
                            "coefficient",
                            JsonShape.Quantity,
                            "Its apparent coefficient over the immersion.",
                            true,
                            Example: "6e-12 m2/s"
                        ),
                    ]
                ),
            ]
        ),
        new(
            "migration",
            JsonShape.Object,
            "Rapid migration after NT Build 492.",
            Keys:
            [
                new(
                    "citation",
                    JsonShape.Text,
                    "Who says that a migration coefficient stands for a diffusion coefficient.",
                    true
                ),
                new("age", JsonShape.Quantity, "Age at the test.", true, Example: "28 d"),
                new(
                    "form",
                    JsonShape.Choice,
                    "simplified (2 and 0.07 mol/L) or full expression; absent: simplified.",
                    Choices: ["simplified", "full"]
                ),
                new(
                    "specimens",
                    JsonShape.Objects,
                    "One a specimen.",
                    true,
                    Keys:
                    [
                        new("appliedVolts", JsonShape.Number, "Voltage applied [V].", true),
                        new(
                            "temperature",
                            JsonShape.Quantity,
                            "Mean temperature of the anolyte.",
                            true,
                            Example: "21 degC"
                        ),
                        new("thickness", JsonShape.Quantity, "Thickness.", true, Example: "50 mm"),
                        new(
                            "penetration",
                            JsonShape.Quantity,
                            "Mean depth of the colour change.",
                            true,
                            Example: "18 mm"
                        ),
                        new("duration", JsonShape.Quantity, "Duration.", true, Example: "1 d"),
                        new(
                            "catholyteMolPerL",
                            JsonShape.Number,
                            "Chloride of the catholyte [mol/L] (full); absent: 2."
                        ),
                        new(
                            "colourChangeMolPerL",
                            JsonShape.Number,
                            "Chloride at the colour change [mol/L] (full); absent: 0.07."
                        ),
                    ]
                ),
            ]
        ),
        new(
            "indicator",
            JsonShape.Object,
            "Charge passed, resistivity or the like, through a published relation: none is built in.",
            Keys:
            [
                new("what", JsonShape.Text, "What it is, with its unit.", true),
                new("value", JsonShape.Number, "What was measured, in that unit.", true),
                new(
                    "relation",
                    JsonShape.Object,
                    "Median D = coefficientAtOne × value^exponent, lognormal about it.",
                    true,
                    Keys:
                    [
                        new("citation", JsonShape.Text, "Author, title, year, equation.", true),
                        new(
                            "coefficientAtOne",
                            JsonShape.Quantity,
                            "Median D at an indicator of 1.",
                            true,
                            Example: "0.02 mm2/yr"
                        ),
                        new("exponent", JsonShape.Number, "Exponent of the indicator.", true),
                        new(
                            "sdOfLn",
                            JsonShape.Number,
                            "Standard deviation of ln D about the relation, above 0.",
                            true
                        ),
                        new(
                            "least",
                            JsonShape.Number,
                            "Least indicator that it was fitted for.",
                            true
                        ),
                        new(
                            "greatest",
                            JsonShape.Number,
                            "Greatest indicator that it was fitted for.",
                            true
                        ),
                        new(
                            "age",
                            JsonShape.Quantity,
                            "Age at which it holds.",
                            true,
                            Example: "28 d"
                        ),
                    ]
                ),
            ]
        ),
    ];

    private static readonly JsonKey[] Diffusion =
    [
        new(
            "coefficient",
            JsonShape.Uncertain,
            "Instantaneous diffusion coefficient at referenceAge; or give a test.",
            Example: "8 mm2/yr"
        ),
        new(
            "test",
            JsonShape.Object,
            "A laboratory test in place of the coefficient, brought to referenceAge by the ageing exponent: one of bulkDiffusion, migration, indicator.",
            Keys: MaterialTest
        ),
        new(
            "ageingExponent",
            JsonShape.Number,
            "m of D(t) = Dref (tref/t)^m, 0 to below 1; absent: no ageing."
        ),
        new(
            "referenceAge",
            JsonShape.Quantity,
            "Age at which the coefficient holds.",
            true,
            Example: "90 d"
        ),
        new(
            "ageAtExposure",
            JsonShape.Quantity,
            "Age of the material when salt first reaches it.",
            true,
            Example: "28 d"
        ),
        new(
            "constantAfter",
            JsonShape.Quantity,
            "Age after which the coefficient stays constant.",
            Example: "20 yr"
        ),
    ];

    private static readonly JsonKey[] Removal =
    [
        new(
            "rule",
            JsonShape.Choice,
            "fixed-depth: the whole surface to one depth; chloride-limit: to where the content falls below a limit; unsound-areas: what is damaged and no more; half-cell-limit: to under the bars where the potential is beyond a limit.",
            true,
            Choices: ["fixed-depth", "chloride-limit", "unsound-areas", "half-cell-limit"]
        ),
        new(
            "depth",
            JsonShape.Quantity,
            "Depth taken off (fixed-depth); elsewhere than beyond the limit (half-cell-limit; absent: nothing).",
            Example: "1 in"
        ),
        new(
            "limit",
            JsonShape.Quantity,
            "Chloride content that may stay (chloride-limit).",
            Example: "1.2 lb/yd3"
        ),
        new(
            "minimumDepth",
            JsonShape.Quantity,
            "Depth taken off everywhere (chloride-limit).",
            Example: "1/4 in"
        ),
        new(
            "maximumDepth",
            JsonShape.Quantity,
            "Depth that removal never passes (chloride-limit).",
            Example: "2 in"
        ),
        new(
            "potential",
            JsonShape.Quantity,
            "Half-cell potential beyond which, in the negative direction, concrete comes out to under the bars (half-cell-limit).",
            Example: "-350 mV CSE"
        ),
    ];

    private static readonly JsonKey[] Interventions =
    [
        new("at", JsonShape.Quantity, "When, counted from the survey.", true, Example: "2 yr"),
        new("remove", JsonShape.Object, "What comes off.", Keys: Removal),
        new(
            "overlay",
            JsonShape.Object,
            "What goes on.",
            Keys:
            [
                new("material", JsonShape.Text, "Name of one of the materials.", true),
                new(
                    "thickness",
                    JsonShape.Quantity,
                    "Thickness above the removed surface.",
                    true,
                    Example: "1 1/2 in"
                ),
            ]
        ),
        new(
            "protect",
            JsonShape.Object,
            "A barrier or sealer that goes on last.",
            Keys:
            [
                new("material", JsonShape.Text, "Name of one of the materials.", true),
                new(
                    "thickness",
                    JsonShape.Quantity,
                    "Its thickness, for grade and dead load; absent: 0.",
                    Example: "3/8 in"
                ),
            ]
        ),
        new(
            "when",
            JsonShape.Choice,
            "on-date: at the date; overlay-ends: when the overlay in place ends by itself, not before the date. Absent: on-date.",
            Choices: ["on-date", "overlay-ends"]
        ),
        new(
            "damage",
            JsonShape.Choice,
            "Whether damaged places are repaired. Absent: they are, unless nothing is removed and nothing but a sealer goes on.",
            Choices: ["repair", "leave"]
        ),
    ];

    private static JsonKey Steps(string name, string description) =>
        new(
            name,
            JsonShape.Object,
            description,
            Keys:
            [
                new("from", JsonShape.Quantity, "The least.", true, Example: "1/4 in"),
                new("to", JsonShape.Quantity, "The greatest.", true, Example: "3 in"),
                new("step", JsonShape.Quantity, "Distance between two.", true, Example: "1/2 in"),
            ]
        );

    private static readonly JsonKey[] DepthSearch =
    [
        new(
            "at",
            JsonShape.Quantity,
            "When the intervention takes place; absent: with the first overlay of the strategies.",
            Example: "2 yr"
        ),
        Steps("removal", "Depths of removal to try; absent: 1/4 to 3 1/2 in."),
        Steps("thickness", "Thicknesses of overlay to try; absent: 1 1/4 to 4 in."),
        new(
            "limits",
            JsonShape.Object,
            "Limits that the answer must keep; one that is absent does not hold.",
            Keys:
            [
                new(
                    "gradeRise",
                    JsonShape.Quantity,
                    "Greatest rise of the finished grade.",
                    Example: "1 in"
                ),
                new(
                    "addedDeadLoad",
                    JsonShape.Quantity,
                    "Greatest added dead load, mean over the deck.",
                    Example: "10 lbf/ft2"
                ),
                new(
                    "barClearance",
                    JsonShape.Quantity,
                    "Least distance between the removed surface and the top of the bars.",
                    Example: "1/2 in"
                ),
                new(
                    "barClearanceShare",
                    JsonShape.Fraction,
                    "Share of the deck over which barClearance is kept; absent: 95 %."
                ),
                new(
                    "budget",
                    JsonShape.Number,
                    "Greatest present value of the intervention, in the currency of the prices."
                ),
                new(
                    "remainingThickness",
                    JsonShape.Quantity,
                    "Least thickness of old concrete left where removal goes deepest.",
                    Example: "5 in"
                ),
                new(
                    "barsExposed",
                    JsonShape.Fraction,
                    "Greatest share of the bars exposed at once, repairs counted."
                ),
            ]
        ),
    ];

    /// <summary>All keys, in the order of the documentation.</summary>
    public static readonly JsonKey[] All =
    [
        new("$schema", JsonShape.Text, "The JSON Schema that editors use."),
        new("name", JsonShape.Text, "The deck's name.", true),
        new("story", JsonShape.Text, "What a reader should know of the deck, in a few sentences."),
        new("surveyDate", JsonShape.Date, "Date of the surveys: time 0 of every projection.", true),
        new("area", JsonShape.Quantity, "Area of the deck.", true, Example: "19900 ft2"),
        new(
            "length",
            JsonShape.Quantity,
            "Length along the deck, for checking positions.",
            Example: "500 ft"
        ),
        new(
            "width",
            JsonShape.Quantity,
            "Width across the deck, for checking positions.",
            Example: "40 ft"
        ),
        new(
            "startStation",
            JsonShape.Text,
            "Station of x = 0, where surveys use stations.",
            Example: "12+50 ft"
        ),
        new(
            "deckThickness",
            JsonShape.Quantity,
            "Thickness of the slab without an overlay.",
            true,
            Example: "8 in"
        ),
        new(
            "structure",
            JsonShape.Choice,
            "How the deck carries load.",
            true,
            Choices: ["cast-in-place", "precast", "post-tensioned"]
        ),
        new(
            "topBars",
            JsonShape.Object,
            "The top bars.",
            true,
            [
                new(
                    "type",
                    JsonShape.Choice,
                    "Kind of the top bars.",
                    true,
                    Choices: ["bare", "epoxy-coated", "galvanised", "stainless"]
                ),
                new(
                    "diameter",
                    JsonShape.Quantity,
                    "Diameter of the top bars.",
                    true,
                    Example: "5/8 in"
                ),
            ]
        ),
        new(
            "firstSalt",
            JsonShape.Object,
            "When salt first reached the deck: a date, or the age of exposure at the surveys.",
            true,
            [
                new("date", JsonShape.Date, "Date of the first salt."),
                new(
                    "age",
                    JsonShape.Quantity,
                    "Time from the first salt to the surveys.",
                    Example: "34 yr"
                ),
                new(
                    "concreteAge",
                    JsonShape.Quantity,
                    "Age of the concrete at its first salt.",
                    Example: "60 d"
                ),
            ]
        ),
        new(
            "exposure",
            JsonShape.Text,
            "What the deck is exposed to, in words for the report; the surface content itself comes from the cores."
        ),
        new(
            "concrete",
            JsonShape.Object,
            "The deck's concrete.",
            Keys:
            [
                new(
                    "density",
                    JsonShape.Assumable,
                    "Density (unit weight), for contents by mass of concrete.",
                    Example: "3915 lb/yd3"
                ),
                new(
                    "binderContent",
                    JsonShape.Assumable,
                    "Binder content, all cementitious material, for contents by mass of binder.",
                    Example: "658 lb/yd3"
                ),
                new(
                    "ageingExponent",
                    JsonShape.Number,
                    "Ageing exponent from now on; absent: 0, D stays as fitted."
                ),
            ]
        ),
        new(
            "existingOverlay",
            JsonShape.Object,
            "An overlay that the deck already wears.",
            Keys:
            [
                new("material", JsonShape.Text, "What it is."),
                new("thickness", JsonShape.Quantity, "Its thickness.", true, Example: "1 1/2 in"),
                new("placed", JsonShape.Date, "When it was placed.", true),
                new(
                    "removedBefore",
                    JsonShape.Quantity,
                    "Depth of old concrete that came off before it was placed.",
                    Example: "1/4 in"
                ),
            ]
        ),
        new(
            "chlorides",
            JsonShape.Object,
            "How chlorides.csv is to be read.",
            Keys:
            [
                new("file", JsonShape.Text, "Name of the chloride table, if not chlorides.csv."),
                new(
                    "extraction",
                    JsonShape.Choice,
                    "How the laboratory extracted the chloride.",
                    Choices: ["acid-soluble", "water-soluble"]
                ),
                new(
                    "depthsFrom",
                    JsonShape.Choice,
                    "Surface from which depths count; needed where the deck wears an overlay.",
                    Choices: ["present-surface", "deck-concrete"]
                ),
                new(
                    "detectionLimit",
                    JsonShape.Quantity,
                    "Limit of non-detects without a number.",
                    Example: "0.01 % of concrete"
                ),
                new(
                    "columns",
                    JsonShape.TextMap,
                    "Heads of the laboratory's sheet and the known column each stands for."
                ),
            ]
        ),
        new(
            "cover",
            JsonShape.Object,
            "How the cover is known.",
            Keys:
            [
                new("file", JsonShape.Text, "Name of the cover table, if not cover.csv."),
                new(
                    "measuredFrom",
                    JsonShape.Choice,
                    "Surface from which covers count; needed where the deck wears an overlay.",
                    Choices: ["present-surface", "deck-concrete"]
                ),
                new(
                    "stated",
                    JsonShape.Uncertain,
                    "Cover where there is no survey (a drawing, a specification).",
                    Example: "2 in"
                ),
            ]
        ),
        new(
            "halfCell",
            JsonShape.Object,
            "How half-cell.csv is to be read.",
            Keys:
            [
                new("file", JsonShape.Text, "Name of the half-cell table, if not half-cell.csv."),
                new(
                    "electrode",
                    JsonShape.Text,
                    "Reference electrode, if not named in the table: CSE, SCE, Ag/AgCl."
                ),
                new(
                    "electrodeAgainstCse",
                    JsonShape.Quantity,
                    "The electrode's own potential against CSE, from its certificate.",
                    Example: "-77 mV"
                ),
                new(
                    "readings",
                    JsonShape.Choice,
                    "The answer to a question that check asks: the numbers are as written, the sign was left out, they are volts, or both.",
                    Choices: ["as-written", "sign-left-out", "volts", "volts-sign-left-out"]
                ),
            ]
        ),
        new(
            "sounding",
            JsonShape.Object,
            "How sounding.csv is to be read.",
            Keys: [new("file", JsonShape.Text, "Name of the sounding table, if not sounding.csv.")]
        ),
        new(
            "threshold",
            JsonShape.Object,
            "Chloride content at which corrosion starts.",
            true,
            [
                new(
                    "content",
                    JsonShape.Uncertain,
                    "The content, with its spread.",
                    true,
                    Example: "1.2 lb/yd3"
                ),
                new(
                    "withinDeckShare",
                    JsonShape.Fraction,
                    "Share of the spread that varies within a deck, 0 to 1; the rest is ignorance."
                ),
                new(
                    "extraction",
                    JsonShape.Choice,
                    "Extraction behind the value; the same as the laboratory's.",
                    Choices: ["acid-soluble", "water-soluble"]
                ),
                Source,
            ]
        ),
        new(
            "propagation",
            JsonShape.Object,
            "Time from the start of corrosion to damage at the surface.",
            true,
            [
                new(
                    "period",
                    JsonShape.Uncertain,
                    "The period, with its spread.",
                    true,
                    Example: "6 yr"
                ),
                new(
                    "withinDeckShare",
                    JsonShape.Fraction,
                    "Share of the spread that varies within a deck, 0 to 1."
                ),
                new(
                    "rateUnderOverlay",
                    JsonShape.Number,
                    "Rate of corrosion under a new overlay relative to before; absent: 1."
                ),
                Source,
            ]
        ),
        new(
            "materials",
            JsonShape.Objects,
            "Materials that the strategies place.",
            Keys:
            [
                new("name", JsonShape.Text, "Its name in the strategies.", true),
                new(
                    "diffusion",
                    JsonShape.Object,
                    "Its resistance to chloride, where it is a layer that salt diffuses through.",
                    Keys: Diffusion
                ),
                new(
                    "barrier",
                    JsonShape.Object,
                    "A membrane or thin polymer overlay: no salt passes, but where it leaks.",
                    Keys:
                    [
                        new(
                            "leakFraction",
                            JsonShape.Fraction,
                            "Share of the area where it leaks, 0 to 1.",
                            true
                        ),
                    ]
                ),
                new(
                    "sealer",
                    JsonShape.Object,
                    "A penetrating sealer: the surface takes on less salt.",
                    Keys:
                    [
                        new(
                            "passingFraction",
                            JsonShape.Fraction,
                            "Share of the surface content that is left, 0 to 1.",
                            true
                        ),
                    ]
                ),
                new(
                    "cracked",
                    JsonShape.Object,
                    "Where an overlay is cracked from the start.",
                    Keys:
                    [
                        new(
                            "fraction",
                            JsonShape.Fraction,
                            "Share of the area where it is cracked, 0 to 1.",
                            true
                        ),
                        new(
                            "diffusionFactor",
                            JsonShape.Number,
                            "Diffusion coefficient there, relative to sound material; at least 1.",
                            true
                        ),
                    ]
                ),
                new(
                    "leastThickness",
                    JsonShape.Quantity,
                    "Least thickness of its specification.",
                    Example: "1 1/4 in"
                ),
                new(
                    "withinDeckShare",
                    JsonShape.Fraction,
                    "Share of the coefficient's spread that varies within one placement, 0 to 1."
                ),
                new(
                    "initialChloride",
                    JsonShape.Quantity,
                    "Chloride in the new material; absent: 0.",
                    Example: "0.1 kg/m3"
                ),
                new(
                    "serviceLife",
                    JsonShape.Uncertain,
                    "Its own life by bond, cracking and wear.",
                    Example: "25 yr"
                ),
                new(
                    "waterCementitiousRatio",
                    JsonShape.Number,
                    "Water by cementitious material, by mass, for the check against the specification."
                ),
                new(
                    "specification",
                    JsonShape.Object,
                    "Limits of the agency's specification for this material; they differ between agencies.",
                    Keys:
                    [
                        new(
                            "waterCementitiousRatio",
                            JsonShape.Number,
                            "Greatest water by cementitious material, by mass."
                        ),
                        new(
                            "leastThickness",
                            JsonShape.Quantity,
                            "Least thickness.",
                            Example: "1 1/4 in"
                        ),
                        new(
                            "greatestThickness",
                            JsonShape.Quantity,
                            "Greatest thickness.",
                            Example: "3 in"
                        ),
                        Source,
                    ]
                ),
                new(
                    "density",
                    JsonShape.Quantity,
                    "Density, for the added dead load.",
                    Example: "3900 lb/yd3"
                ),
                Source,
            ]
        ),
        new(
            "halo",
            JsonShape.Object,
            "Faster corrosion in a rim around repaired places (incipient anodes); absent: not counted, and said so.",
            Keys:
            [
                new(
                    "patchSide",
                    JsonShape.Quantity,
                    "Side of a typical patch.",
                    true,
                    Example: "1 m"
                ),
                new("width", JsonShape.Quantity, "Width of the rim.", true, Example: "150 mm"),
                new(
                    "rateFactor",
                    JsonShape.Number,
                    "Rate of corrosion in the rim relative to the rest of the deck.",
                    true
                ),
                Source,
            ]
        ),
        new(
            "soffit",
            JsonShape.Object,
            "What the underside is exposed to; absent: taken as sealed, and said so.",
            Keys:
            [
                new(
                    "exposure",
                    JsonShape.Choice,
                    "sealed: stay-in-place forms or a dry soffit, no salt comes or goes; salted: salt stands on it (leaking joints, gutters, spray from below).",
                    true,
                    Choices: ["sealed", "salted"]
                ),
                new(
                    "surfaceChloride",
                    JsonShape.Uncertain,
                    "Content at the underside since the first salt, of the whole deck (salted).",
                    Example: "2 kg/m3"
                ),
                Source,
            ]
        ),
        new(
            "removalTolerance",
            JsonShape.Quantity,
            "Extra depth that a mill may take.",
            Example: "1/4 in"
        ),
        new(
            "strategies",
            JsonShape.Objects,
            "Strategies to compare; one without interventions does nothing.",
            Keys:
            [
                new("name", JsonShape.Text, "The strategy's name.", true),
                new("interventions", JsonShape.Objects, "Dated actions.", Keys: Interventions),
            ]
        ),
        new(
            "information",
            JsonShape.Objects,
            "What could be learned before deciding, with its price; absent: more cores, more cover readings and another sounding, unpriced.",
            Keys:
            [
                new(
                    "kind",
                    JsonShape.Choice,
                    "What.",
                    true,
                    Choices: ["cores", "cover-readings", "sounding"]
                ),
                new(
                    "count",
                    JsonShape.Whole,
                    "How many cores, readings, or independent places of a sounding.",
                    true
                ),
                new(
                    "price",
                    JsonShape.Number,
                    "What it costs altogether, in the currency of the prices."
                ),
            ]
        ),
        new(
            "depthSearch",
            JsonShape.Object,
            "Search for the best removal depth and overlay thickness.",
            Keys: DepthSearch
        ),
        new(
            "prices",
            JsonShape.Object,
            "Unit prices.",
            Keys:
            [
                new(
                    "currency",
                    JsonShape.Text,
                    "Currency, three letters (ISO 4217).",
                    true,
                    Example: "USD"
                ),
                new("year", JsonShape.Whole, "Year of the prices.", true),
                new(
                    "growth",
                    JsonShape.Fraction,
                    "Growth of all prices a year beyond inflation; absent: 0."
                ),
                new(
                    "levelCov",
                    JsonShape.Fraction,
                    "Coefficient of variation of the level of all prices that the agency pays; absent: 0."
                ),
                new(
                    "quantityGrowth",
                    JsonShape.Object,
                    "Unsound area that re-sounding on the day of the survey would find, relative to what the sounding found; absent: 1 over its detection probability. Growth between survey and work is computed and not in it.",
                    Keys:
                    [
                        new("mean", JsonShape.Number, "Its mean.", true),
                        new("cov", JsonShape.Fraction, "Its coefficient of variation."),
                    ]
                ),
                new(
                    "stages",
                    JsonShape.Whole,
                    "Stages in which an intervention is built; absent: 1."
                ),
                new(
                    "closure",
                    JsonShape.Object,
                    "How long an intervention closes lanes or the bridge.",
                    Keys:
                    [
                        new(
                            "perStage",
                            JsonShape.Quantity,
                            "Time for each stage, whatever its area.",
                            Example: "4 d"
                        ),
                        new(
                            "areaPerDay",
                            JsonShape.Quantity,
                            "Area of deck done in a day.",
                            Example: "600 ft2"
                        ),
                    ]
                ),
                new(
                    "interimRepairEvery",
                    JsonShape.Quantity,
                    "Time between visits for interim repairs; absent: none.",
                    Example: "5 yr"
                ),
                new(
                    "afterLimit",
                    JsonShape.Objects,
                    "What is done at the damage limit before the deck is renewed, in order.",
                    Keys:
                    [
                        new("action", JsonShape.Text, "What is done.", true),
                        new(
                            "price",
                            JsonShape.Price,
                            "Its price by area of deck.",
                            true,
                            Example: "45 per ft2"
                        ),
                        new("cov", JsonShape.Fraction, "Coefficient of variation of the price."),
                        new(
                            "life",
                            JsonShape.Uncertain,
                            "How long it lasts.",
                            true,
                            Example: "18 yr"
                        ),
                    ]
                ),
                new(
                    "renewalLife",
                    JsonShape.Quantity,
                    "Life of a renewed deck, for what is left at the horizon.",
                    Example: "75 yr"
                ),
                new(
                    "items",
                    JsonShape.Objects,
                    "The prices.",
                    true,
                    [
                        new("item", JsonShape.Text, "What is paid.", true),
                        new(
                            "per",
                            JsonShape.Choice,
                            "What it is paid for.",
                            true,
                            Choices:
                            [
                                "deck-area",
                                "repaired-area",
                                "removed-volume",
                                "placed-volume",
                                "renewed-area",
                                "lump-sum",
                                "removed-area",
                                "stage",
                                "closure-day",
                                "grade-rise",
                                "year",
                                "interim-repaired-area",
                            ]
                        ),
                        new(
                            "price",
                            JsonShape.Price,
                            "The price with its unit.",
                            true,
                            Example: "14 per ft2"
                        ),
                        new(
                            "material",
                            JsonShape.Text,
                            "Material that it belongs to; absent: any."
                        ),
                        new(
                            "cov",
                            JsonShape.Fraction,
                            "Coefficient of variation of the price, lognormal; absent: the price is known."
                        ),
                        new(
                            "paidBy",
                            JsonShape.Choice,
                            "Who pays; absent: agency.",
                            Choices: ["agency", "users"]
                        ),
                        new("includes", JsonShape.Text, "What the price includes."),
                        new(
                            "growth",
                            JsonShape.Fraction,
                            "Growth of this price a year beyond inflation; absent: that of all prices."
                        ),
                        new(
                            "fromDepth",
                            JsonShape.Quantity,
                            "Removal deeper than this (removed-area); absent: 0.",
                            Example: "1 in"
                        ),
                        new(
                            "toDepth",
                            JsonShape.Quantity,
                            "Removal up to this (removed-area); absent: any deeper.",
                            Example: "2 in"
                        ),
                    ]
                ),
            ]
        ),
        new(
            "horizon",
            JsonShape.Quantity,
            "How far the projection looks ahead.",
            true,
            Example: "75 yr"
        ),
        new("discountRate", JsonShape.Fraction, "Real discount rate a year.", Example: "3 %"),
        new(
            "damageLimit",
            JsonShape.Fraction,
            "Share of the area damaged at which the service life ends.",
            true,
            Example: "10 %"
        ),
        new(
            "zones",
            JsonShape.Objects,
            "Parts of the deck in plan that are looked at by themselves: a gutter line, a wheel path, a span. Absent: the strips along its edges.",
            Keys:
            [
                new("name", JsonShape.Text, "What the zone is.", true),
                new(
                    "from",
                    JsonShape.Quantity,
                    "Where it begins along the deck.",
                    true,
                    Example: "0 ft"
                ),
                new(
                    "to",
                    JsonShape.Quantity,
                    "Where it ends along the deck.",
                    true,
                    Example: "80 ft"
                ),
                new(
                    "low",
                    JsonShape.Quantity,
                    "Where it begins across the deck.",
                    true,
                    Example: "0 ft"
                ),
                new(
                    "high",
                    JsonShape.Quantity,
                    "Where it ends across the deck.",
                    true,
                    Example: "4 ft"
                ),
            ]
        ),
        new(
            "surveyModel",
            JsonShape.Object,
            "What sounding and half-cell are taken to see; each value has a documented default.",
            Keys:
            [
                new(
                    "learn",
                    JsonShape.Choice,
                    "Whether the projection learns from the surveys. Absent: yes.",
                    Choices: ["yes", "no"]
                ),
                new(
                    "detectionProbability",
                    JsonShape.Fraction,
                    "Probability that sounding finds a damaged place. Absent: 0.9."
                ),
                new(
                    "soundingAreaError",
                    JsonShape.Fraction,
                    "Relative error of the whole hollow area that sounding marks, where its areas have corners. Absent: 0.1."
                ),
                new(
                    "modelDiscrepancy",
                    JsonShape.Number,
                    "What the model's form gets wrong: standard deviation of the shift of every share's normal score. Absent: 0.2."
                ),
                new(
                    "correlationLength",
                    JsonShape.Quantity,
                    "Distance over which places go together. Absent: estimated from the surveys.",
                    Example: "5 ft"
                ),
                new(
                    "passiveMean_mv_cse",
                    JsonShape.Number,
                    "Mean potential over passive bars. Absent: -207."
                ),
                new(
                    "passiveSd_mv",
                    JsonShape.Number,
                    "Standard deviation of the potential over passive bars. Absent: 80.4."
                ),
                new(
                    "activeMean_mv_cse",
                    JsonShape.Number,
                    "Mean potential over active bars. Absent: -354."
                ),
                new(
                    "activeSd_mv",
                    JsonShape.Number,
                    "Standard deviation of the potential over active bars. Absent: 69.7."
                ),
            ]
        ),
        new(
            "analysis",
            JsonShape.Object,
            "Size and seed of the projection.",
            Keys:
            [
                new("seed", JsonShape.Whole, "Seed; 0 is a seed like any other."),
                new("draws", JsonShape.Whole, "Draws of what is not known."),
                new("points", JsonShape.Whole, "Points of the deck in each draw."),
            ]
        ),
    ];
}
