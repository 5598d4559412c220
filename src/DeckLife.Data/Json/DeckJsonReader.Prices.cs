using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using DeckLife.Diagnostics;
using DeckLife.Economics;
using DeckLife.Population;
using DeckLife.Quantities;

namespace DeckLife.Data.Json;

/// <summary>Prices of deck.json.</summary>
internal sealed partial class DeckJsonReader
{
    private PriceList? ReadPrices()
    {
        var prices = JsonValues.Object(root, "prices");
        if (prices is null)
        {
            return null;
        }

        var currency = JsonValues.Text(prices, "currency");
        if (currency is not null && !Currency().IsMatch(currency))
        {
            problems.Add(
                DiagnosticCatalogue.QuantityImpossible,
                prices["currency"]!.Line,
                "prices.currency",
                currency,
                "prices.currency",
                currency,
                "a currency is three capital letters (ISO 4217), such as USD, CAD, EUR"
            );
            currency = null;
        }

        var year = values.Whole(prices, "prices", "year", 1950, 2200);
        var life = Years(
            prices,
            "prices",
            "renewalLife",
            1,
            300,
            "a renewed deck lives 1 to 300 yr"
        );
        var items = ImmutableArray.CreateBuilder<UnitPrice>();
        foreach (var (item, path) in JsonValues.Objects(prices, "prices", "items"))
        {
            PriceBasis? basis = JsonValues.Text(item, "per") switch
            {
                "deck-area" => PriceBasis.DeckArea,
                "repaired-area" => PriceBasis.RepairedArea,
                "removed-volume" => PriceBasis.RemovedVolume,
                "placed-volume" => PriceBasis.PlacedVolume,
                "renewed-area" => PriceBasis.RenewedArea,
                "lump-sum" => PriceBasis.LumpSum,
                "removed-area" => PriceBasis.RemovedArea,
                "stage" => PriceBasis.Stage,
                "closure-day" => PriceBasis.ClosureDay,
                "grade-rise" => PriceBasis.GradeRise,
                "year" => PriceBasis.Year,
                "interim-repaired-area" => PriceBasis.InterimRepairedArea,
                _ => null,
            };
            var amount = basis is { } b ? Price(item, path, b, currency) : null;
            var material = Material(item, path, MaterialKinds);
            if (
                basis is { } known
                && amount is { } value
                && JsonValues.Text(item, "item") is { } what
            )
            {
                items.Add(
                    new UnitPrice(what, known, value, material)
                    {
                        CoefficientOfVariation = Spread(item, path, "cov"),
                        PaidBy =
                            JsonValues.Text(item, "paidBy") == "users" ? Payer.Users : Payer.Agency,
                        Includes = JsonValues.Text(item, "includes"),
                        GrowthPerYr = Growth(item, path),
                        FromDepthMm = DepthOfClass(item, path, "fromDepth") ?? 0,
                        ToDepthMm = DepthOfClass(item, path, "toDepth"),
                    }
                );
            }
        }

        return currency is null || year is null
            ? null
            : new PriceList
            {
                Currency = currency,
                PriceYear = (int)year.Value,
                Items = items.ToImmutable(),
                RenewalLifeYr = life?.Years,
                GrowthPerYr = Growth(prices, "prices") ?? 0,
                LevelCoefficientOfVariation = Spread(prices, "prices", "levelCov"),
                QuantityGrowth = ReadQuantityGrowth(prices),
                Stages = (int)(values.Whole(prices, "prices", "stages", 1, 100) ?? 1),
                ClosureDaysPerStage =
                    values.Measure(
                        JsonValues.Object(prices, "closure"),
                        "prices.closure",
                        "perStage",
                        Dimension.Time,
                        0,
                        3,
                        "a closure lies between 0 and 3 yr"
                    ) * UnitFactors.DaysPerYear
                    ?? 0,
                AreaPerClosureDayM2 = values.Measure(
                    JsonValues.Object(prices, "closure"),
                    "prices.closure",
                    "areaPerDay",
                    Dimension.Area,
                    0.1,
                    1e5,
                    "an area done in a day lies between 0.1 and 100 000 m2"
                ),
                InterimRepairEveryYr = Years(
                    prices,
                    "prices",
                    "interimRepairEvery",
                    1,
                    200,
                    "visits are 1 to 200 yr apart"
                )?.Years,
                AfterLimit = ReadAfterLimit(prices, currency),
            };
    }

    private UncertainValue? ReadQuantityGrowth(JsonItem prices)
    {
        var item = JsonValues.Object(prices, "quantityGrowth");
        const string path = "prices.quantityGrowth";
        return
            values.Number(item, path, "mean", 0.2, 10, "a growth lies between 0.2 and 10")
                is { } mean
            ? new(mean, Spread(item, path, "cov"), SpreadShape.Lognormal)
            : null;
    }

    private ImmutableArray<NextAction> ReadAfterLimit(JsonItem prices, string? currency)
    {
        var actions = ImmutableArray.CreateBuilder<NextAction>();
        foreach (var (item, path) in JsonValues.Objects(prices, "prices", "afterLimit"))
        {
            var amount = Price(item, path, PriceBasis.DeckArea, currency);
            var life = values.Uncertain(
                item,
                path,
                "life",
                (v, p) =>
                    values.Measure(v, p, Dimension.Time, 1, 200, "a life lies between 1 and 200 yr")
            );
            if (
                amount is { } perM2
                && life is { } years
                && JsonValues.Text(item, "action") is { } action
            )
            {
                actions.Add(
                    new(action, perM2, years) { CoefficientOfVariation = Spread(item, path, "cov") }
                );
            }
        }

        return actions.ToImmutable();
    }

    private double Spread(JsonItem? item, string path, string key) =>
        values.Fraction(item, path, key, 0, 3, "a coefficient of variation lies between 0 and 3")
        ?? 0;

    private double? Growth(JsonItem item, string path) =>
        values.Fraction(
            item,
            path,
            "growth",
            -0.1,
            0.2,
            "a growth beyond inflation lies between -10 % and 20 % a year"
        );

    private double? DepthOfClass(JsonItem item, string path, string key) =>
        Length(item, path, key, 0, 1500, "a depth of removal lies between 0 and 1500 mm (59 in)");

    private double? Price(JsonItem item, string path, PriceBasis basis, string? currency)
    {
        if (item["price"] is not { Kind: JsonValueKind.String } value)
        {
            return null;
        }

        var here = path + ".price";
        Dimension? dimension = basis switch
        {
            PriceBasis.LumpSum or PriceBasis.Stage or PriceBasis.ClosureDay or PriceBasis.Year =>
                null,
            PriceBasis.GradeRise => Dimension.Length,
            PriceBasis.RemovedVolume or PriceBasis.PlacedVolume => Dimension.Volume,
            _ => Dimension.Area,
        };
        var example =
            basis == PriceBasis.ClosureDay ? "\"8000 per day\""
            : basis == PriceBasis.Year ? "\"2500 per year\""
            : dimension is null ? "\"50000 each\""
            : dimension == Dimension.Length ? "\"20000 per in\""
            : dimension == Dimension.Volume ? "\"450 per yd3\""
            : "\"14 per ft2\"";
        double? No(string why)
        {
            problems.Add(
                DiagnosticCatalogue.QuantityUnreadable,
                value.Line,
                here,
                value.Text,
                here,
                $"'{value.Text.Trim()}' is not a price of this kind: {why}. Write, for example, {example}."
            );
            return null;
        }

        var match = PriceText().Match(value.Text.Length > 80 ? "" : NumberText.Clean(value.Text));
        if (!match.Success)
        {
            return No("a number and what it is per are needed");
        }

        var said = match.Groups["currency"].Value.ToUpperInvariant();
        if (said == "$")
        {
            return No(
                "$ is the sign of many currencies: the currency stands once, under prices.currency"
            );
        }

        if (said.Length > 0 && currency is not null && said != currency)
        {
            return No($"it is in {said}, but prices.currency is {currency}");
        }

        if (
            !NumberText.TryParse(
                match.Groups["number"].Value.Trim(),
                DecimalMark.Unknown,
                false,
                out var number,
                out var problem
            )
        )
        {
            return No(problem);
        }

        if (number < 0 || number > 1e12)
        {
            return No("a price lies between 0 and 1e12");
        }

        var unitText = match.Groups["unit"].Value.Trim();
        if (dimension is null)
        {
            var upper = unitText.ToUpperInvariant();
            return basis switch
            {
                PriceBasis.ClosureDay => upper is "DAY" or "D" ? number : No("it is 'per day'"),
                PriceBasis.Year => upper is "YEAR" or "YR" ? number : No("it is 'per year'"),
                PriceBasis.Stage => upper is "EACH" or "STAGE" ? number : No("it is 'per stage'"),
                _ => upper is "EACH" or "INTERVENTION" or "LUMP SUM" or "LUMP-SUM"
                    ? number
                    : No("a lump sum is 'each'"),
            };
        }

        return Units.TryFind(dimension.Value, unitText, out var unit, out problem)
            ? number / unit.Factor
            : No(problem);
    }

    [GeneratedRegex("^[A-Z]{3}$")]
    private static partial Regex Currency();

    [GeneratedRegex(
        @"^(?:(?<currency>\$)[ \u00A0]*)?(?<number>[\d.,'\u00A0]+(?:[eE]\d+)?)[ \u00A0]*(?<currency>\$|[A-Za-z]{3}(?=[ \u00A0/]))?[ \u00A0]*(?:(?:per\b|/)[ \u00A0]*(?<unit>.+)|(?<unit>each|lump[- ]sum))$",
        RegexOptions.CultureInvariant
    )]
    private static partial Regex PriceText();
}
