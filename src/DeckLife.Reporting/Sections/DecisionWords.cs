using DeckLife.Decisions;
using DeckLife.Diagnostics;
using DeckLife.Projection;
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
            ? $"How deep: {PlaceText(choice.Best)} is the best within the limits: {Years(choice.Best)}{Cost(map, choice.Best)}.{Ties(choice)}{string.Concat(Structural(choice).Select(f => " " + f.Text))}\n"
            : "";

    /// <summary>What a search beyond the listed strategies finds, and why it may differ from the recommendation; nothing without a map.</summary>
    /// <param name="map">The map.</param>
    /// <param name="projection">The projection of the listed strategies.</param>
    /// <param name="lead">The one that is recommended.</param>
    public static HtmlFragment Alternative(
        DepthMap? map,
        DeckProjection projection,
        StrategyProjection lead
    )
    {
        if (map?.Choice is not { } choice)
        {
            return BestDepth(map);
        }

        var words = AlternativeWords.Of(map, choice, projection, lead);
        return HtmlFragment.Of(
            $"<p class=\"dl-decision\"><b>{words.Head}</b> {words.Before}{Place(choice.Best)}{words.After}{Ties(choice)} <a href=\"#how-deep-and-how-thick\">Basis</a></p>{Caution(choice, "Of this alternative: ")}{(words.BrokenByLead is { } broken ? HtmlFragment.Of($"<p class=\"dl-cautions-head\">{broken}</p>") : HtmlFragment.Empty)}"
        );
    }

    /// <summary>The same for a terminal.</summary>
    /// <param name="map">The map.</param>
    /// <param name="projection">The projection of the listed strategies.</param>
    /// <param name="lead">The one that is recommended.</param>
    public static string AlternativeText(
        DepthMap? map,
        DeckProjection projection,
        StrategyProjection lead
    )
    {
        if (map?.Choice is not { } choice)
        {
            return "";
        }

        var words = AlternativeWords.Of(map, choice, projection, lead);
        return $"{words.Head} {words.Before}{PlaceText(choice.Best)}{words.After}{Ties(choice)}{string.Concat(Structural(choice).Select(f => " " + f.Text))}{(words.BrokenByLead is { } broken ? " " + broken : "")}\n";
    }

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
                    $"waiting {NumberNotation.Fixed(w.WaitYears, 0)} years, then {DecisionPhrases.Rule(w)}: {DecisionPhrases.SavesOrCosts(w.Gain)} {Amount(Math.Abs(w.Gain))} (±{Amount(w.ErrorOfGain)}) against {w.Now} now; {DecisionPhrases.Split(w, Amount)}"
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

    // The flags themselves tell what exposes the bars: the planned depth, or repairs.
    private static IEnumerable<Diagnostic> Structural(DepthChoice choice) =>
        choice.Best.Projection?.StructuralFlags ?? [];

    private static HtmlFragment Caution(DepthChoice choice, string about = "") =>
        HtmlFragment.Join(
            Structural(choice)
                .Select(f =>
                    HtmlFragment.Of($"<p class=\"dl-cautions-head\">{about}{MessageHtml.Of(f)}</p>")
                )
        );
}
