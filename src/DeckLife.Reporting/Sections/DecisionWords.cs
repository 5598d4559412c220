using DeckLife.Decisions;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;

namespace DeckLife.Reporting.Sections;

/// <summary>Decisions in words, for the first screen.</summary>
internal static class DecisionWords
{
    /// <summary>The best depth and thickness, with its caution; nothing without a map.</summary>
    public static HtmlFragment BestDepth(DepthMap? map)
    {
        if (map is null)
        {
            return HtmlFragment.Empty;
        }

        if (map.Choice is not { } choice)
        {
            return HtmlFragment.Of(
                $"<p class=\"dl-decision\"><b>How deep:</b> of {map.Cells.Length} removal depths and overlays, none keeps all limits. <a href=\"#how-deep-and-how-thick\">Basis</a></p>"
            );
        }

        return HtmlFragment.Of(
            $"<p class=\"dl-decision\"><b>How deep:</b> of {map.Cells.Length} removal depths and overlays, {Place(choice.Best)} is the best within the limits: {Years(choice.Best)}{Cost(map, choice.Best)}.{Ties(choice)}{OneMoreYear(map, choice)} <a href=\"#how-deep-and-how-thick\">Basis</a></p>{Caution(choice)}"
        );
    }

    /// <summary>The same for a terminal.</summary>
    public static string BestDepthText(DepthMap? map) =>
        map?.Choice is { } choice
            ? $"How deep: {PlaceText(choice.Best)} is the best within the limits: {Years(choice.Best)}{Cost(map, choice.Best)}.{Ties(choice)}{(choice.Best.NeedsStructuralCheck ? " It takes concrete from below top bars: a structural check, staging and shoring come first." : "")}\n"
            : "";

    /// <summary>By how much the leading strategy leads, and what decides it; nothing where strategies are not ranked.</summary>
    public static HtmlFragment HowSure(DecisionAnalysis? decision) =>
        decision?.Drivers is { } drivers
            ? HtmlFragment.Of(
                $"<p class=\"dl-decision\"><b>How sure:</b> {Lead(decision, drivers)} <a href=\"#how-firm-the-decision-is\">Basis</a></p>"
            )
            : HtmlFragment.Empty;

    /// <summary>What knowing more would be worth; nothing where strategies are not ranked.</summary>
    public static HtmlFragment BeforeDeciding(DecisionAnalysis? decision) =>
        decision?.Information is { } information
            ? HtmlFragment.Of(
                $"<div class=\"dl-decision\"><p><b>Before deciding,</b> knowing more would be worth at most {NumberNotation.Money(information.Perfect, information.Currency)} (±{Amount(information.ErrorOfPerfect)}). <a href=\"#how-firm-the-decision-is\">Basis</a></p><ul>{HtmlFragment.Join(Lines(decision, information).Select(l => HtmlFragment.Of($"<li>{l}</li>")))}</ul></div>"
            )
            : HtmlFragment.Empty;

    /// <summary>Both for a terminal.</summary>
    public static string HowSureText(DecisionAnalysis? decision) =>
        (decision?.Drivers is { } drivers ? $"How sure: {Lead(decision, drivers)}\n" : "")
        + (
            decision?.Information is { } information
                ? $"Before deciding, knowing more would be worth at most {NumberNotation.Money(information.Perfect, information.Currency)} (±{Amount(information.ErrorOfPerfect)})\n{string.Concat(Lines(decision, information).Select(l => $"- {l}\n"))}"
                : ""
        );

    private static IEnumerable<string> Lines(
        DecisionAnalysis decision,
        ValueOfInformation information
    ) =>
        information
            .Offers.Select(o =>
                $"{DecisionPhrases.Of(o.Offer)}: {Amount(Math.Max(0, o.Value))} (±{Amount(o.ErrorOfValue)})"
                + (o.Offer.Price is { } price ? $", at a price of {Amount(price)}" : "")
            )
            .Concat(
                decision.Waits.Select(w =>
                    $"waiting {NumberNotation.Fixed(w.WaitYears, 0)} years, then {DecisionPhrases.Rule(w)}: {(w.Gain >= 0 ? "saves" : "costs")} {Amount(Math.Abs(w.Gain))} (±{Amount(w.ErrorOfGain)}) against {w.Now} now"
                )
            );

    private static string Lead(DecisionAnalysis decision, RankDrivers drivers)
    {
        var currency = decision.Information?.Currency ?? "";
        var drivenBy = drivers.Drivers.FirstOrDefault(d => d.Share > 2 * d.ErrorOfShare);
        return $"{drivers.Lead} costs {NumberNotation.Money(drivers.MeanDifference, currency)} (±{Amount(drivers.ErrorOfDifference)}) less than {drivers.Next} in the mean, and is the cheaper of the two with probability {NumberNotation.Percent(drivers.LeadProbability)}."
            + (
                drivenBy is null
                    ? " No single input decides it."
                    : $" It hangs most on {drivenBy.Input}: the lead holds with probability {NumberNotation.Percent(drivenBy.LeadsWhenLow)} where that is low, {NumberNotation.Percent(drivenBy.LeadsWhenHigh)} where it is high."
            );
    }

    private static string Amount(double amount) => NumberNotation.Money(amount, "").TrimStart();

    /// <summary>Depth, thickness and material.</summary>
    public static HtmlFragment Place(DepthMapCell cell) =>
        HtmlFragment.Of(
            $"{QuantityHtml.Value(UnitScale.Depth, cell.Removal.Millimetres)} off and {QuantityHtml.Value(UnitScale.Depth, cell.Thickness.Millimetres)} of {cell.Material} on"
        );

    private static string PlaceText(DepthMapCell cell) =>
        $"{QuantityHtml.Text(UnitScale.Depth, cell.Removal.Millimetres, UnitSystem.Si)} off and {QuantityHtml.Text(UnitScale.Depth, cell.Thickness.Millimetres, UnitSystem.Si)} of {cell.Material} on";

    private static string Years(DepthMapCell cell) =>
        $"{LifeText.Years(cell.ExpectedYears ?? 0)} years in the mean";

    private static string Cost(DepthMap map, DepthMapCell cell) =>
        cell.ExpectedPresentValue is { } pv && map.Deck.Prices is { } prices
            ? $", mean present value {NumberNotation.Money(pv, prices.Currency)}"
            : "";

    private static string Ties(DepthChoice choice) =>
        choice.Indistinguishable.IsEmpty
            ? ""
            : $" {NumberNotation.Fixed(choice.Indistinguishable.Length, 0)} other{(choice.Indistinguishable.Length == 1 ? " is" : "s are")} within the Monte Carlo error of it.";

    private static HtmlFragment OneMoreYear(DepthMap map, DepthChoice choice) =>
        choice.OneMoreYear is { } year && map.Deck.Prices is { } prices
            ? HtmlFragment.Of(
                $" One more year costs {NumberNotation.Money(year.PerYear, prices.Currency)} at first (Monte Carlo error {NumberNotation.Money(year.ErrorOfPerYear, "").TrimStart()}), by {Place(year.Next)}."
            )
            : HtmlFragment.Empty;

    private static HtmlFragment Caution(DepthChoice choice) =>
        choice.Best.NeedsStructuralCheck
            ? HtmlFragment.Of(
                $"<p class=\"dl-cautions-head\">This depth takes concrete from below top bars: a structural check, staging and shoring come first.</p>"
            )
            : HtmlFragment.Empty;
}
