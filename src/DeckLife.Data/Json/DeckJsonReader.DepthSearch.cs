using System.Collections.Immutable;
using DeckLife.Decisions;
using DeckLife.Diagnostics;
using DeckLife.Materials;
using DeckLife.Quantities;

namespace DeckLife.Data.Json;

/// <summary>The search for the best removal depth of deck.json.</summary>
internal sealed partial class DeckJsonReader
{
    private const int MostSteps = 40;

    private DepthSearch? ReadDepthSearch(double deckThicknessMm, Age horizon)
    {
        const string path = "depthSearch";
        if (JsonValues.Object(root, path) is not { } item)
        {
            return null;
        }

        return new()
        {
            At = Years(
                item,
                path,
                "at",
                0,
                horizon.Years,
                "it must lie between the survey and the horizon"
            ),
            RemovalDepths = Steps(
                item,
                path,
                "removal",
                0,
                deckThicknessMm,
                "a depth of removal lies between 0 and the thickness of the deck"
            ),
            Thicknesses = Steps(
                item,
                path,
                "thickness",
                1,
                300,
                "an overlay is 1 to 300 mm (12 in) thick"
            ),
            Limits = ReadLimits(item, path, deckThicknessMm),
        };
    }

    private ImmutableArray<InformationOffer> ReadInformation()
    {
        var offers = ImmutableArray.CreateBuilder<InformationOffer>();
        foreach (var (item, path) in JsonValues.Objects(root, "", "information"))
        {
            InformationKind? kind = JsonValues.Text(item, "kind") switch
            {
                "cores" => InformationKind.Cores,
                "cover-readings" => InformationKind.CoverReadings,
                "sounding" => InformationKind.Sounding,
                _ => null,
            };
            var count = values.Whole(
                item,
                path,
                "count",
                kind == InformationKind.CoverReadings ? 2 : 1,
                10_000
            );
            var price = values.Number(
                item,
                path,
                "price",
                0,
                1e12,
                "a price lies between 0 and 1e12"
            );
            if (kind is { } what && count is { } many)
            {
                offers.Add(new(what, (int)many, price));
            }
        }

        return offers.ToImmutable();
    }

    private DepthLimits ReadLimits(JsonItem search, string above, double deckThicknessMm)
    {
        var item = JsonValues.Object(search, "limits");
        var path = above + ".limits";
        Depth? Limit(string key, double least, double most, string allowed) =>
            Length(item, path, key, least, most, allowed) is { } mm
                ? Depth.FromMillimetres(mm)
                : null;
        return new()
        {
            GradeRise = Limit(
                "gradeRise",
                0,
                500,
                "a grade rise lies between 0 and 500 mm (20 in)"
            ),
            AddedDeadLoadKnPerM2 = values.Measure(
                item,
                path,
                "addedDeadLoad",
                Dimension.SurfaceLoad,
                0,
                20,
                "an added dead load lies between 0 and 20 kN/m2 (418 lbf/ft2)"
            ),
            BarClearance = Limit(
                "barClearance",
                0,
                300,
                "a clearance lies between 0 and 300 mm (12 in)"
            ),
            BarClearanceShare =
                values.Fraction(
                    item,
                    path,
                    "barClearanceShare",
                    0.5,
                    0.999,
                    "a share kept lies between 50 % and 99.9 %"
                ) ?? 0.95,
            Budget = values.Number(
                item,
                path,
                "budget",
                0,
                1e12,
                "a budget lies between 0 and 1e12"
            ),
            RemainingThickness = Limit(
                "remainingThickness",
                0,
                deckThicknessMm,
                "what is left lies between 0 and the thickness of the deck"
            ),
            BarsExposed = values.Fraction(
                item,
                path,
                "barsExposed",
                0,
                1,
                "a share lies between 0 and 1"
            ),
        };
    }

    private double? Ratio(JsonItem? item, string path) =>
        values.Number(
            item,
            path,
            "waterCementitiousRatio",
            0.15,
            1,
            "water by cementitious material lies between 0.15 and 1"
        );

    private MixSpecification? ReadSpecification(JsonItem material, string above, string name)
    {
        if (
            JsonValues.Object(material, "specification") is not { } item
            || JsonValues.Text(item, "source") is not { Length: > 0 } source
        )
        {
            return null;
        }

        var path = above + ".specification";
        const string Allowed = "a thickness of an overlay lies between 1 and 300 mm (12 in)";
        return new()
        {
            Material = name,
            Source = source,
            GreatestWaterCementitiousRatio = Ratio(item, path),
            LeastThickness = Length(item, path, "leastThickness", 1, 300, Allowed) is { } least
                ? Depth.FromMillimetres(least)
                : null,
            GreatestThickness = Length(item, path, "greatestThickness", 1, 300, Allowed) is { } most
                ? Depth.FromMillimetres(most)
                : null,
        };
    }

    private ImmutableArray<Depth> Steps(
        JsonItem search,
        string above,
        string key,
        double least,
        double most,
        string allowed
    )
    {
        if (JsonValues.Object(search, key) is not { } item)
        {
            return [];
        }

        var path = $"{above}.{key}";
        var from = Length(item, path, "from", least, most, allowed);
        var to = Length(item, path, "to", least, most, allowed);
        var step = Length(
            item,
            path,
            "step",
            0.1,
            500,
            "a step lies between 0.1 and 500 mm (20 in)"
        );
        if (from is not { } a || to is not { } b || step is not { } s)
        {
            return [];
        }

        var count = Math.Floor(((b - a) / s) + 1e-9) + 1;
        if (b < a || count > MostSteps)
        {
            problems.Add(
                DiagnosticCatalogue.QuantityImpossible,
                item.Line,
                path,
                null,
                path,
                item["to"]!.Text,
                $"'to' is not below 'from', and there are at most {MostSteps} steps"
            );
            return [];
        }

        return
        [
            .. Enumerable
                .Range(0, (int)count)
                .Select(i => Depth.FromMillimetres(Math.Min(b, a + (i * s)))),
        ];
    }
}
