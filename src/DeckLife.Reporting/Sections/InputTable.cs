using System.Collections.Immutable;
using DeckLife.Population;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>The inputs that the answer is most sensitive to, as the deck folder gives them.</summary>
public static class InputTable
{
    /// <summary>Makes the table.</summary>
    /// <param name="deck">The deck.</param>
    public static ReportTable Of(Deck deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        var rows = new List<ImmutableArray<ReportCell>>
        {
            Row(
                "Chloride threshold",
                Spread(UnitScale.Chloride, deck.Threshold.Content),
                $"{deck.Threshold.Source}; {NumberNotation.Percent(deck.Threshold.WithinDeckShare)} of the spread varies within the deck, the rest is ignorance"
            ),
            Row(
                "Propagation period",
                Spread(null, deck.Propagation.Period),
                deck.Propagation.Source
            ),
            Row("Top bars", Bars(deck), "deck folder"),
            Row("Slab", Quantity(UnitScale.Depth, deck.Thickness.Millimetres), "deck folder"),
            Row(
                "Ageing exponent of the deck's concrete",
                ReportCell.Number(deck.AgeingExponent),
                deck.AgeingExponent == 0 ? "D is taken as constant" : "deck folder"
            ),
            Row("Real discount rate", ReportCell.Percent(deck.DiscountRate), "deck folder"),
            Row("Damage limit", ReportCell.Percent(deck.DamageLimit), "deck folder"),
        };
        rows.AddRange(
            deck.Materials.Select(m =>
                Row(
                    $"Overlay {m.Name}: diffusion coefficient at {NumberNotation.Trimmed(m.ReferenceAge.Days)} days",
                    Spread(UnitScale.Diffusion, m.DiffusionCoefficient),
                    m.Source
                )
            )
        );
        return new("Main inputs", [new("Input"), new("Value", true), new("Source")], [.. rows]);
    }

    private static ImmutableArray<ReportCell> Row(string name, ReportCell value, string source) =>
        [ReportCell.Words(name), value, ReportCell.Words(source)];

    private static ReportCell Quantity(UnitScale scale, double canonical) =>
        new(
            QuantityHtml.Value(scale, canonical),
            QuantityHtml.Text(scale, canonical, UnitSystem.Si),
            null
        );

    private static ReportCell Bars(Deck deck)
    {
        var kind = deck.BarType switch
        {
            BarType.EpoxyCoated => "epoxy-coated",
            BarType.Galvanised => "galvanised",
            BarType.Stainless => "stainless",
            _ => "uncoated",
        };
        return new(
            HtmlFragment.Of(
                $"{kind}, {QuantityHtml.Value(UnitScale.Depth, deck.TopBarDiameter.Millimetres)}"
            ),
            $"{kind}, {QuantityHtml.Text(UnitScale.Depth, deck.TopBarDiameter.Millimetres, UnitSystem.Si)}",
            null
        );
    }

    private static ReportCell Spread(UnitScale? scale, UncertainValue value)
    {
        var tail =
            value.CoefficientOfVariation > 0
                ? $", c.o.v. {NumberNotation.Percent(value.CoefficientOfVariation)}, {(value.Shape == SpreadShape.Lognormal ? "lognormal" : "normal")}"
                : "";
        return scale is null
            ? ReportCell.Words(NumberNotation.Significant(value.Mean) + "\u00A0yr" + tail)
            : new(
                HtmlFragment.Of($"{QuantityHtml.Value(scale, value.Mean)}{tail}"),
                QuantityHtml.Text(scale, value.Mean, UnitSystem.Si) + tail,
                null
            );
    }
}
