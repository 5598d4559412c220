using System.Collections.Immutable;
using DeckLife.Profiles;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;
using static System.FormattableString;

namespace DeckLife.Reporting.Sections;

/// <summary>Every input of a deck, one row each.</summary>
internal static class InputRows
{
    private const string NoSource = "the deck folder gives no source";

    public static ImmutableArray<InputRow> Of(Deck deck) =>
        [
            .. Facts(deck),
            .. Tables(deck),
            .. Corrosion(deck),
            .. deck.Materials.SelectMany((_, i) => Material(deck, i)),
            .. deck.Strategies.Select((_, i) => Strategy(deck, i)),
            .. Money(deck),
            .. Settings(deck),
        ];

    private static IEnumerable<InputRow> Facts(Deck deck)
    {
        const string records = "the deck's records";
        yield return new(
            SourceAnchor.Area,
            "Area of the deck",
            InputValue.Quantity(UnitScale.Area, deck.AreaM2, 4),
            ["area"],
            records
        );
        yield return new(
            SourceAnchor.Slab,
            "Slab",
            InputValue.Quantity(UnitScale.Depth, deck.Thickness.Millimetres),
            ["deckThickness"],
            records
        );
        yield return new(
            "basis-bars",
            "Top bars",
            InputValue.Bars(deck),
            ["topBars.diameter"],
            records
        );
        yield return new(
            SourceAnchor.Survey,
            "Year of the surveys",
            ReportCell.Whole(deck.SurveyYear),
            ["surveyDate"],
            records
        );
        yield return new(
            SourceAnchor.Exposure,
            "Exposure to salt before the surveys",
            InputValue.Years(deck.ExposureAge.Years),
            ["firstSalt.age", "firstSalt.date"],
            records
        );
        yield return new(
            "basis-concrete-age",
            "Age of the concrete at its first salt",
            InputValue.Years(deck.ConcreteAgeAtFirstSalt.Years),
            ["firstSalt.concreteAge"],
            records,
            "taken as 0; it matters where diffusion ages",
            "age of the concrete at its first salt"
        );
        if (deck.ConcreteDensityKgPerM3 is { } density)
        {
            yield return new(
                SourceAnchor.Density,
                "Density of the deck's concrete",
                InputValue.Quantity(UnitScale.Density, density, 4),
                ["concrete.density", "concrete.density.assumed"],
                records
            );
        }

        if (deck.BinderContentKgPerM3 is { } binder)
        {
            yield return new(
                "basis-binder",
                "Binder content of the deck's concrete",
                InputValue.Quantity(UnitScale.Density, binder, 4),
                ["concrete.binderContent", "concrete.binderContent.assumed"],
                records
            );
        }

        yield return new(
            "basis-ageing",
            "Ageing exponent of the deck's concrete",
            ReportCell.Number(deck.AgeingExponent),
            ["concrete.ageingExponent"],
            NoSource,
            "the diffusion coefficient stays as fitted",
            "ageing of the deck's concrete"
        );
    }

    private static IEnumerable<InputRow> Tables(Deck deck)
    {
        yield return new(
            SourceAnchor.Chlorides,
            "Chloride samples",
            ReportCell.Words(
                Invariant(
                    $"{deck.Cores.Sum(c => c.Slices.Length)} slices of {deck.Cores.Length} cores"
                )
            ),
            ["chlorides"],
            "laboratory"
        );
        for (var i = 0; i < deck.Cores.Length; i++)
        {
            yield return Core(deck, i);
        }

        yield return Survey(SourceAnchor.Covers, "Cover readings", deck.Covers.Length, "cover");
        yield return Survey(
            SourceAnchor.HalfCells,
            "Half-cell nodes",
            deck.HalfCells.Length,
            "half-cell"
        );
        yield return Survey(
            SourceAnchor.Soundings,
            "Sounded areas",
            deck.Soundings.Length,
            "sounding"
        );
    }

    private static InputRow Core(Deck deck, int index)
    {
        var core = deck.Cores[index];
        var rows = core.Slices.Select(s => s.Row).Where(r => r > 0).ToList();
        return new(
            SourceAnchor.Core(index),
            "Core " + core.Core,
            ReportCell.Words(
                $"{core.Slices.Length} slices, {NumberNotation.Trimmed(core.ExposureAge.Years)}\u00A0yr of exposure"
            ),
            ["chlorides"],
            rows.Count == 0
                ? "laboratory"
                : Invariant($"laboratory; lines {rows.Min()} to {rows.Max()}")
        );
    }

    private static InputRow Survey(string anchor, string name, int count, string table) =>
        new(
            anchor,
            name,
            ReportCell.Whole(count),
            [table],
            "survey of the deck",
            "no such survey: what is missing for it is said under data quality"
        );

    private static IEnumerable<InputRow> Corrosion(Deck deck)
    {
        yield return new(
            SourceAnchor.Threshold,
            "Chloride threshold",
            InputValue.Spread(UnitScale.Chloride, deck.Threshold.Content),
            ["threshold.content.mean", "threshold.content"],
            Said(deck.Threshold.Source)
        );
        yield return new(
            "basis-threshold-share",
            "Share of the threshold's spread that varies within the deck",
            ReportCell.Percent(deck.Threshold.WithinDeckShare),
            ["threshold.withinDeckShare"],
            Said(deck.Threshold.Source),
            "one half; the rest is taken as ignorance",
            "share of the threshold's spread within the deck"
        );
        yield return new(
            SourceAnchor.Propagation,
            "Propagation period",
            InputValue.Spread(null, deck.Propagation.Period),
            ["propagation.period.mean", "propagation.period"],
            Said(deck.Propagation.Source)
        );
        yield return new(
            "basis-propagation-share",
            "Share of the period's spread that varies within the deck",
            ReportCell.Percent(deck.Propagation.WithinDeckShare),
            ["propagation.withinDeckShare"],
            Said(deck.Propagation.Source),
            "all of it is taken as ignorance, which widens the band",
            "propagation"
        );
        yield return new(
            "basis-rate-under-overlay",
            "Corrosion rate under an overlay, against before",
            ReportCell.Number(deck.CorrosionRateUnderOverlay),
            ["propagation.rateUnderOverlay"],
            Said(deck.Propagation.Source),
            "as fast as before: an overlay is not trusted to slow bars that corrode"
        );
    }

    private static IEnumerable<InputRow> Material(Deck deck, int index)
    {
        var material = deck.Materials[index];
        var path = Invariant($"materials[{index}].");
        var anchor = SourceAnchor.Material(index);
        InputRow Row(
            string suffix,
            string what,
            ReportCell value,
            string @default,
            params string[] keys
        ) =>
            new(
                anchor + suffix,
                $"{material.Name}: {what}",
                value,
                [.. keys.Select(k => path + k)],
                Said(material.Source),
                @default
            );
        yield return Row(
            "",
            $"diffusion coefficient at {NumberNotation.Trimmed(material.ReferenceAge.Days)} days",
            InputValue.Spread(UnitScale.Diffusion, material.DiffusionCoefficient),
            "",
            "diffusion.coefficient.mean",
            "diffusion.coefficient"
        );
        yield return Row(
            "-ageing",
            "ageing exponent",
            ReportCell.Number(material.AgeingExponent),
            "taken as 0: the coefficient stays constant",
            "diffusion.ageingExponent"
        );
        yield return Row(
            "-chloride",
            "chloride when new",
            InputValue.Quantity(
                UnitScale.Chloride,
                material.InitialChloride.KilogramsPerCubicMetre
            ),
            "taken as 0",
            "initialChloride"
        );
        if (material.ServiceLife is { } life)
        {
            yield return Row(
                "-life",
                "life of its own",
                InputValue.Spread(null, life),
                "",
                "serviceLife.mean",
                "serviceLife"
            );
        }

        if (material.DensityKgPerM3 is { } density)
        {
            yield return Row(
                "-density",
                "density",
                InputValue.Quantity(UnitScale.Density, density, 4),
                "",
                "density"
            );
        }
    }

    private static InputRow Strategy(Deck deck, int index)
    {
        var strategy = deck.Strategies[index];
        var works = strategy.Interventions.Select(i => InputValue.Intervention(deck, i)).ToList();
        return new(
            SourceAnchor.Strategy(deck, strategy.Name),
            "Strategy " + strategy.Name,
            works.Count == 0
                ? ReportCell.Words("no work")
                : ReportCell.Fragment(
                    Html.HtmlFragment.Join(
                        works.Select(w => Html.HtmlFragment.Of($"<div>{w.Html}</div>"))
                    ),
                    string.Join("; ", works.Select(w => w.Text))
                ),
            [Invariant($"strategies[{index}].name")],
            "a choice to be compared"
        );
    }

    private static IEnumerable<InputRow> Money(Deck deck)
    {
        if (deck.Prices is { } prices)
        {
            for (var i = 0; i < prices.Items.Length; i++)
            {
                yield return new(
                    SourceAnchor.Price(i),
                    "Price: " + prices.Items[i].Item,
                    InputValue.Price(prices.Items[i], prices.Currency),
                    [Invariant($"prices.items[{i}].price")],
                    Invariant($"the deck folder's price list, prices of {prices.PriceYear}")
                );
            }

            if (prices.RenewalLifeYr is { } life)
            {
                yield return new(
                    "basis-renewal-life",
                    "Life of a renewed deck",
                    InputValue.Years(life),
                    ["prices.renewalLife"],
                    "the deck folder's price list"
                );
            }
        }

        yield return new(
            SourceAnchor.Discount,
            "Real discount rate",
            ReportCell.Percent(deck.DiscountRate),
            ["discountRate"],
            "the owner's choice",
            "0: money at all dates counts alike",
            "discount rate"
        );
    }

    private static IEnumerable<InputRow> Settings(Deck deck)
    {
        yield return new(
            SourceAnchor.DamageLimit,
            "Damage limit",
            ReportCell.Percent(deck.DamageLimit),
            ["damageLimit"],
            "the owner's choice"
        );
        yield return new(
            SourceAnchor.Horizon,
            "Horizon",
            InputValue.Years(deck.Horizon.Years),
            ["horizon"],
            "the owner's choice"
        );
        yield return new(
            SourceAnchor.Analysis,
            "Draws of what is not known, and points of the deck in each",
            ReportCell.Words(Invariant($"{deck.Analysis.Draws} × {deck.Analysis.Points}")),
            ["analysis.draws", "analysis.points"],
            "a choice: more draws, less sampling error",
            "the usual number of this program"
        );
        yield return new(
            "basis-seed",
            "Seed of the random streams",
            ReportCell.Words(Invariant($"{deck.Analysis.Seed}")),
            ["analysis.seed"],
            "arbitrary; the same seed gives the same numbers",
            "1; the same seed gives the same numbers"
        );
    }

    private static string Said(string source) => source.Length > 0 ? source : NoSource;
}
