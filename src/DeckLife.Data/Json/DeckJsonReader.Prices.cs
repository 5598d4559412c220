using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using DeckLife.Diagnostics;
using DeckLife.Economics;
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
                items.Add(new UnitPrice(what, known, value, material));
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
            };
    }

    private double? Price(JsonItem item, string path, PriceBasis basis, string? currency)
    {
        if (item["price"] is not { Kind: JsonValueKind.String } value)
        {
            return null;
        }

        var here = path + ".price";
        Dimension? dimension = basis switch
        {
            PriceBasis.LumpSum => null,
            PriceBasis.RemovedVolume or PriceBasis.PlacedVolume => Dimension.Volume,
            _ => Dimension.Area,
        };
        var example =
            dimension is null ? "\"50000 each\""
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
            return
                unitText.ToUpperInvariant() is "EACH" or "INTERVENTION" or "LUMP SUM" or "LUMP-SUM"
                ? number
                : No("a lump sum is 'each'");
        }

        return Units.TryFind(dimension.Value, unitText, out var unit, out problem)
            ? number / unit.Factor
            : No(problem);
    }

    [GeneratedRegex("^[A-Z]{3}$")]
    private static partial Regex Currency();

    [GeneratedRegex(
        @"^(?<number>[\d.,'\u00A0]+(?:[eE]\d+)?)[ \u00A0]*(?<currency>\$|[A-Za-z]{3}(?=[ \u00A0/]))?[ \u00A0]*(?:(?:per\b|/)[ \u00A0]*(?<unit>.+)|(?<unit>each|lump[- ]sum))$",
        RegexOptions.CultureInvariant
    )]
    private static partial Regex PriceText();
}
