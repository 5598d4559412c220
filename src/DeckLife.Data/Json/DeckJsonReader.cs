using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Propagation;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using DeckLife.Surveys;

namespace DeckLife.Data.Json;

/// <summary>Reads deck.json into a draft of the deck; every problem is reported at its key.</summary>
internal sealed partial class DeckJsonReader(JsonItem root, ProblemList problems)
{
    private const string SliceRange = "it must lie between 0 and 500 mm (20 in)";

    private readonly JsonValues values = new(problems);
    private readonly DeckDraft draft = new();

    public static DeckDraft Read(JsonItem root, ProblemList problems)
    {
        JsonCheck.Check(root, DeckKeys.All, "", problems);
        return new DeckJsonReader(root, problems).Read();
    }

    private DeckDraft Read()
    {
        draft.SurveyDate = values.Date(root, "", "surveyDate");
        var exposure = ReadFirstSalt(out var concreteAge);
        ReadConcrete(out var ageing);
        var overlay = ReadExistingOverlay();
        ReadTables();
        var area = values.Measure(
            root,
            "",
            "area",
            Dimension.Area,
            1,
            1e6,
            "a deck has 1 to 1 000 000 m2"
        );
        var thickness = Length(
            root,
            "",
            "deckThickness",
            50,
            1500,
            "a slab is 50 to 1500 mm (2 to 59 in) thick"
        );
        var bars = JsonValues.Object(root, "topBars");
        var diameter = Length(
            bars,
            "topBars",
            "diameter",
            4,
            65,
            "a bar is 4 to 65 mm (1/6 to 2 1/2 in) thick"
        );
        var threshold = ReadThreshold();
        var propagation = ReadPropagation(out var rate);
        var materials = ReadMaterials(out var protections);
        var halo = ReadHalo();
        var soffit = ReadSoffit();
        var horizon = Years(root, "", "horizon", 1, 200, "a horizon is 1 to 200 yr");
        var strategies = ReadStrategies(materials, thickness, horizon);
        var prices = ReadPrices();
        var discount = values.Fraction(
            root,
            "",
            "discountRate",
            -0.05,
            0.3,
            "a real rate lies between -5 % and 30 % a year: write 0.03 or \"3 %\""
        );
        if (root["discountRate"] is null)
        {
            Assume(
                "discount rate",
                "0 % a year: no rate is given, so that money at all dates counts alike"
            );
        }

        var limit = values.Fraction(
            root,
            "",
            "damageLimit",
            0.001,
            1,
            "a limit lies between 0.1 % and 100 % of the area: write 0.10 or \"10 %\""
        );
        var analysis = ReadAnalysis();
        var length = Metres(root, "", "length");
        var width = Metres(root, "", "width");
        if (area is { } a && length is { } l && width is { } w && (a / (l * w) is > 1.5 or < 0.67))
        {
            problems.Add(
                DiagnosticCatalogue.AreaDisagrees,
                root["area"]!.Line,
                "area",
                root["area"]!.Text,
                Round(a),
                Round(l * w)
            );
        }

        if (
            JsonValues.Text(root, "name") is not { Length: > 0 } name
            || area is null
            || thickness is null
            || diameter is null
            || draft.SurveyDate is not { } survey
            || exposure is null
            || threshold is null
            || propagation is null
            || horizon is null
            || limit is null
        )
        {
            return draft;
        }

        draft.Deck = new Deck
        {
            Name = name,
            Story = JsonValues.Text(root, "story"),
            Exposure = JsonValues.Text(root, "exposure"),
            AreaM2 = area.Value,
            LengthM = length,
            WidthM = width,
            Thickness = Depth.FromMillimetres(thickness.Value),
            Structure = JsonValues.Text(root, "structure") switch
            {
                "precast" => StructureKind.Precast,
                "post-tensioned" => StructureKind.PostTensioned,
                _ => StructureKind.CastInPlace,
            },
            BarType = JsonValues.Text(bars, "type") switch
            {
                "epoxy-coated" => BarType.EpoxyCoated,
                "galvanised" => BarType.Galvanised,
                "stainless" => BarType.Stainless,
                _ => BarType.Bare,
            },
            TopBarDiameter = Depth.FromMillimetres(diameter.Value),
            SurveyYear = survey.Year,
            SurveyDate = survey,
            ExposureAge = exposure.Value,
            ConcreteAgeAtFirstSalt = concreteAge ?? default,
            AgeingExponent = ageing ?? 0,
            ConcreteDensityKgPerM3 = draft.Mix.DensityKgPerM3,
            BinderContentKgPerM3 = draft.Mix.BinderContentKgPerM3,
            Extraction = draft.Extraction,
            ExistingOverlay = overlay,
            ChlorideDepthsFrom = draft.DepthsFrom ?? MeasuringSurface.PresentSurface,
            CoversFrom = draft.CoversFrom ?? MeasuringSurface.PresentSurface,
            Threshold = threshold,
            Propagation = propagation,
            CorrosionRateUnderOverlay = rate ?? 1,
            Materials = materials,
            Protections = protections,
            Halo = halo,
            Soffit = soffit,
            Strategies = strategies,
            RemovalTolerance = Length(
                root,
                "",
                "removalTolerance",
                0,
                50,
                "a tolerance is 0 to 50 mm (2 in)"
            )
                is { } t
                ? Depth.FromMillimetres(t)
                : default,
            Prices = prices,
            Horizon = horizon.Value,
            DiscountRate = discount ?? 0,
            DamageLimit = limit.Value,
            InformationOffers = ReadInformation(),
            DepthSearch = ReadDepthSearch(thickness.Value, horizon.Value),
            Analysis = analysis,
            Zones = ReadZones(),
            Surveys = ReadSurveyModel(),
            StatedCoverMm = values.Uncertain(
                JsonValues.Object(root, "cover"),
                "cover",
                "stated",
                (v, p) =>
                    values.Measure(v, p, Dimension.Length, 1, 300, "a cover is 1 to 300 mm (12 in)")
            ),
        };
        return draft;
    }

    private Age? ReadFirstSalt(out Age? concreteAge)
    {
        var salt = JsonValues.Object(root, "firstSalt");
        concreteAge = Years(
            salt,
            "firstSalt",
            "concreteAge",
            0,
            200,
            "it must lie between 0 and 200 yr"
        );
        if (salt is null)
        {
            return null;
        }

        if (salt["concreteAge"] is null)
        {
            Assume(
                "age of the concrete at its first salt",
                "0 yr: not given; it matters where diffusion is taken to age"
            );
        }

        var date = values.Date(salt, "firstSalt", "date");
        draft.ExposureAge = Years(
            salt,
            "firstSalt",
            "age",
            1e-6,
            200,
            "an exposure age is above 0 and at most 200 yr"
        );
        if ((salt["date"] is null) == (salt["age"] is null))
        {
            problems.Add(
                DiagnosticCatalogue.OneOfTwo,
                salt.Line,
                "firstSalt",
                null,
                "firstSalt",
                "date",
                "age",
                salt["date"] is null ? "not neither" : "not both"
            );
            return null;
        }

        if (date is { } first && draft.SurveyDate is { } survey)
        {
            draft.FirstSalt = first;
            var years = (survey.DayNumber - first.DayNumber) / UnitFactors.DaysPerYear;
            if (years is <= 0 or > 200)
            {
                problems.Add(
                    DiagnosticCatalogue.QuantityImpossible,
                    salt["date"]!.Line,
                    "firstSalt.date",
                    salt["date"]!.Text,
                    "firstSalt.date",
                    salt["date"]!.Text,
                    "the first salt comes before the surveys, by at most 200 yr"
                );
                return null;
            }

            draft.ExposureAge = Age.FromYears(years);
        }

        return draft.ExposureAge;
    }

    private void ReadConcrete(out double? ageing)
    {
        var concrete = JsonValues.Object(root, "concrete");
        var density = Assumable(
            concrete,
            "density",
            1000,
            3500,
            "the density of concrete lies between 1000 and 3500 kg/m3 (1700 and 5900 lb/yd3)",
            "every content stated by mass of concrete, and all that is computed from them, moves in proportion: unit weights of "
                + "ordinary deck concrete differ by 2 to 4 %"
        );
        var binder = Assumable(
            concrete,
            "binderContent",
            100,
            1000,
            "a binder content lies between 100 and 1000 kg/m3 (170 and 1700 lb/yd3)",
            "every content stated by mass of binder moves in proportion: 10 % more binder, 10 % higher contents"
        );
        draft.Mix = new ConcreteMix(density, binder);
        ageing = values.Number(
            concrete,
            "concrete",
            "ageingExponent",
            0,
            0.99,
            "an ageing exponent lies between 0 and below 1"
        );
        if (concrete?["ageingExponent"] is null)
        {
            Assume(
                "ageing of the deck's concrete",
                "none from now on: the diffusion coefficient stays as fitted"
            );
        }
    }

    private double? Assumable(
        JsonItem? concrete,
        string key,
        double least,
        double most,
        string allowed,
        string effect
    )
    {
        var path = "concrete." + key;
        if (concrete?[key] is not { } value)
        {
            return null;
        }

        if (value.Kind == System.Text.Json.JsonValueKind.String)
        {
            return values.Measure(value, path, Dimension.Density, least, most, allowed);
        }

        if (value["assumed"] is not { Kind: System.Text.Json.JsonValueKind.String } assumed)
        {
            return null;
        }

        var number = values.Measure(
            assumed,
            path + ".assumed",
            Dimension.Density,
            least,
            most,
            allowed
        );
        if (number is { } n)
        {
            draft.Assumptions.Add(
                new(
                    key == "density" ? "density of the concrete" : "binder content of the concrete",
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{assumed.Text.Trim()} ({n:G5} kg/m3), assumed; {effect}"
                    ),
                    JsonValues.Text(value, "source") ?? "deck.json, without a source"
                )
            );
        }

        return number;
    }

    private ExistingOverlay? ReadExistingOverlay()
    {
        const string path = "existingOverlay";
        var item = JsonValues.Object(root, path);
        if (item is null)
        {
            return null;
        }

        draft.WearsOverlay = true;
        var thickness = Length(
            item,
            path,
            "thickness",
            1,
            300,
            "an overlay is 1 to 300 mm (12 in) thick"
        );
        var removed = Length(
            item,
            path,
            "removedBefore",
            0,
            300,
            "it must lie between 0 and 300 mm (12 in)"
        );
        var placed = values.Date(item, path, "placed");
        if (placed is not { } date || draft.SurveyDate is not { } survey || thickness is not { } t)
        {
            return null;
        }

        if (date > survey)
        {
            problems.Add(
                DiagnosticCatalogue.QuantityImpossible,
                item["placed"]!.Line,
                path + ".placed",
                item["placed"]!.Text,
                path + ".placed",
                item["placed"]!.Text,
                "an existing overlay was placed before the surveys; a planned one belongs in strategies"
            );
            return null;
        }

        return new ExistingOverlay
        {
            Material = JsonValues.Text(item, "material"),
            Thickness = Depth.FromMillimetres(t),
            AgeAtSurvey = Age.FromDays(survey.DayNumber - date.DayNumber),
            RemovedBefore = removed is { } r ? Depth.FromMillimetres(r) : null,
        };
    }

    private ThresholdInput? ReadThreshold()
    {
        var item = JsonValues.Object(root, "threshold");
        draft.ThresholdExtraction = Extraction(item);
        draft.ThresholdRow = item?["extraction"]?.Line;
        var content = values.Uncertain(
            item,
            "threshold",
            "content",
            (v, p) => values.Chloride(v, p, draft.Mix)
        );
        var share = values.Fraction(
            item,
            "threshold",
            "withinDeckShare",
            0,
            1,
            "a share lies between 0 and 1"
        );
        if (content is null)
        {
            return null;
        }

        if (content.Value.Mean <= 0)
        {
            problems.Add(
                DiagnosticCatalogue.QuantityImpossible,
                item!["content"]!.Line,
                "threshold.content",
                item["content"]!.Text,
                "threshold.content",
                item["content"]!.Show(),
                "a threshold is above 0"
            );
            return null;
        }

        if (item!["withinDeckShare"] is null && content.Value.CoefficientOfVariation > 0)
        {
            Assume(
                "share of the threshold's spread within the deck",
                "one half (0.5): not given; the rest is taken as ignorance"
            );
        }

        return new ThresholdInput
        {
            Content = content.Value,
            WithinDeckShare = share ?? 0.5,
            Extraction = Extraction(item),
            Source = JsonValues.Text(item, "source") ?? "",
        };
    }

    private PropagationInput? ReadPropagation(out double? rate)
    {
        var item = JsonValues.Object(root, "propagation");
        rate = values.Number(
            item,
            "propagation",
            "rateUnderOverlay",
            0,
            10,
            "a relative rate lies between 0 and 10"
        );
        var period = values.Uncertain(
            item,
            "propagation",
            "period",
            (v, p) =>
                values.Measure(v, p, Dimension.Time, 0, 200, "a period lies between 0 and 200 yr")
        );
        var share = values.Fraction(
            item,
            "propagation",
            "withinDeckShare",
            0,
            1,
            "a share lies between 0 and 1"
        );
        return period is { } p
            ? new PropagationInput
            {
                Period = p,
                WithinDeckShare = share ?? 0,
                Source = JsonValues.Text(item, "source") ?? "",
            }
            : null;
    }

    private AnalysisSettings ReadAnalysis()
    {
        var item = JsonValues.Object(root, "analysis");
        var settings = new AnalysisSettings();
        var seed = values.Whole(item, "analysis", "seed", 0, long.MaxValue);
        var draws = values.Whole(item, "analysis", "draws", 100, 1_000_000);
        var points = values.Whole(item, "analysis", "points", 16, 1_000_000);
        return settings with
        {
            Seed = seed is { } s ? (ulong)s : settings.Seed,
            Draws = (int)(draws ?? settings.Draws),
            Points = (int)(points ?? settings.Points),
        };
    }

    private static ChlorideExtraction Extraction(JsonItem? item) =>
        JsonValues.Text(item, "extraction") switch
        {
            "acid-soluble" => ChlorideExtraction.AcidSoluble,
            "water-soluble" => ChlorideExtraction.WaterSoluble,
            _ => ChlorideExtraction.NotStated,
        };

    private void Assume(string subject, string text) =>
        draft.Assumptions.Add(new(subject, text, "default of the deck folder"));

    private double? Length(
        JsonItem? item,
        string path,
        string key,
        double least,
        double most,
        string allowed
    ) => values.Measure(item, path, key, Dimension.Length, least, most, allowed);

    private double? Metres(JsonItem? item, string path, string key) =>
        Length(item, path, key, 500, 2e7, "it must lie between 0.5 m and 20 km") / 1000;

    private Age? Years(
        JsonItem? item,
        string path,
        string key,
        double least,
        double most,
        string allowed
    ) =>
        values.Measure(item, path, key, Dimension.Time, least, most, allowed) is { } years
            ? Age.FromYears(years)
            : null;

    private static string Round(double value) => value.ToString("G4", CultureInfo.InvariantCulture);
}
