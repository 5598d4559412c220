using DeckLife.Economics;
using DeckLife.Population;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>Inputs as cells, in both unit systems.</summary>
internal static class InputValue
{
    private static readonly double SquareMetresPerSquareFoot = 1 / UnitScale.Area.UsFactor;

    // 1 yd = 3 ft.
    private static readonly double CubicMetresPerCubicYard = Math.Pow(
        3 * UnitFactors.MillimetresPerFoot / 1000,
        3
    );

    public static ReportCell Quantity(UnitScale scale, double canonical, int digits = 3) =>
        ReportCell.Fragment(
            QuantityHtml.Value(scale, canonical, digits),
            QuantityHtml.Text(scale, canonical, UnitSystem.Si, digits)
        );

    public static ReportCell Years(double years) =>
        ReportCell.Words(NumberNotation.Trimmed(years) + "\u00A0yr");

    public static ReportCell Bars(Deck deck)
    {
        var kind = deck.BarType switch
        {
            BarType.EpoxyCoated => "epoxy-coated",
            BarType.Galvanised => "galvanised",
            BarType.Stainless => "stainless",
            _ => "uncoated",
        };
        var size = Quantity(UnitScale.Depth, deck.TopBarDiameter.Millimetres);
        return ReportCell.Fragment(HtmlFragment.Of($"{kind}, {size.Html}"), $"{kind}, {size.Text}");
    }

    public static ReportCell Spread(UnitScale? scale, UncertainValue value)
    {
        var tail =
            value.CoefficientOfVariation > 0
                ? $", c.o.v. {NumberNotation.Percent(value.CoefficientOfVariation)}, {(value.Shape == SpreadShape.Lognormal ? "lognormal" : "normal")}"
                : "";
        if (scale is null)
        {
            return ReportCell.Words(NumberNotation.Significant(value.Mean) + "\u00A0yr" + tail);
        }

        var mean = Quantity(scale, value.Mean);
        return ReportCell.Fragment(HtmlFragment.Of($"{mean.Html}{tail}"), mean.Text + tail);
    }

    public static ReportCell Intervention(Deck deck, Intervention work)
    {
        var year = NumberNotation.Fixed(deck.SurveyYear + work.At.Years, 0);
        var off = Removal(work.Removal);
        var on = work.Overlay is { } overlay
            ? Quantity(UnitScale.Depth, overlay.Thickness.Millimetres) is var thickness
                ? ReportCell.Fragment(
                    HtmlFragment.Of($"{thickness.Html} of {overlay.Material} on"),
                    $"{thickness.Text} of {overlay.Material} on"
                )
                : default
            : ReportCell.Words("no overlay");
        return ReportCell.Fragment(
            HtmlFragment.Of($"{year}: {off.Html}, {on.Html}"),
            $"{year}: {off.Text}, {on.Text}"
        );
    }

    private static ReportCell Removal(RemovalRule? rule)
    {
        switch (rule)
        {
            case null:
                return ReportCell.Words("nothing off");
            case FixedDepthRemoval f:
                var depth = Quantity(UnitScale.Depth, f.Depth.Millimetres);
                return ReportCell.Fragment(
                    HtmlFragment.Of($"{depth.Html} off"),
                    depth.Text + " off"
                );
            case ChlorideLimitRemoval c:
                var limit = Quantity(UnitScale.Chloride, c.Limit.KilogramsPerCubicMetre);
                var least = Quantity(UnitScale.Depth, c.MinimumDepth.Millimetres);
                var most = Quantity(UnitScale.Depth, c.MaximumDepth.Millimetres);
                return ReportCell.Fragment(
                    HtmlFragment.Of(
                        $"off down to {limit.Html}, at least {least.Html}, at most {most.Html}"
                    ),
                    $"off down to {limit.Text}, at least {least.Text}, at most {most.Text}"
                );
            default:
                return ReportCell.Words("damaged areas off");
        }
    }

    public static ReportCell Price(UnitPrice price, string currency)
    {
        var (si, us, factor) = price.Basis switch
        {
            PriceBasis.LumpSum => ("each", "each", 1),
            PriceBasis.PlacedVolume or PriceBasis.RemovedVolume => (
                "per m³",
                "per yd³",
                CubicMetresPerCubicYard
            ),
            _ => ("per m²", "per ft²", SquareMetresPerSquareFoot),
        };
        var inSi = $"{currency}\u00A0{NumberNotation.Trimmed(price.Amount, 4)} {si}";
        return ReportCell.Fragment(
            QuantityHtml.Both(
                inSi,
                $"{currency}\u00A0{NumberNotation.Trimmed(price.Amount * factor, 4)} {us}"
            ),
            inSi
        );
    }
}
