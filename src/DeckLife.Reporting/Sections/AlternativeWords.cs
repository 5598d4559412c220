using DeckLife.Decisions;
using DeckLife.Projection;
using DeckLife.Reporting.Notation;

namespace DeckLife.Reporting.Sections;

/// <summary>What a search beyond the listed strategies finds, in words around the place that it finds.</summary>
/// <param name="Head">What it is.</param>
/// <param name="Before">Before the place.</param>
/// <param name="After">After it: why it may differ from the recommendation, and what it gains.</param>
/// <param name="BrokenByLead">Limits that the recommendation itself does not keep; absent: it keeps all, or is not on the map.</param>
internal sealed record AlternativeWords(
    string Head,
    string Before,
    string After,
    string? BrokenByLead
)
{
    /// <summary>Finds the words.</summary>
    public static AlternativeWords Of(
        DepthMap map,
        DepthChoice choice,
        DeckProjection projection,
        StrategyProjection lead
    )
    {
        var name = lead.Strategy.Name;
        var onMap = map.Points.FirstOrDefault(p => p.Name == name);
        var advantage = map.AdvantageOver(projection, name);
        var broken = onMap is { Broken.IsEmpty: false }
            ? $"The recommended strategy breaks the stated limit on {Listed([.. onMap.Broken.Select(b => b.Limit)])}."
            : null;
        var isLead =
            onMap is not null
            && (onMap.Material, onMap.Removal, onMap.Thickness)
                == (choice.Best.Material, choice.Best.Removal, choice.Best.Thickness);
        if (isLead || advantage is { IsWorse: true })
        {
            return new(
                "Beyond the listed strategies, nothing better.",
                "The best there, ",
                $"{(isLead ? ", is the recommendation itself." : $", {Against(map, advantage!)} the recommendation.")} {Why(map, projection, "that search covers")}",
                broken
            );
        }

        var gain = advantage is null
            ? ""
            : $" Against the recommendation it {Gain(map, advantage)}{(advantage.IsBetter ? "" : ": too little for these draws to tell from nothing")}.";
        return new(
            "Alternative to consider:",
            "",
            $". {Why(map, projection, "this comes from searching")}{gain} Its numbers are coarser: list it in the deck's file to have it compared in full.",
            broken
        );
    }

    private static string Why(DepthMap map, DeckProjection projection, string search)
    {
        var limits = map.Plan.Limits.Stated.ToArray();
        return $"The recommendation is chosen among the {NumberNotation.Fixed(projection.Strategies.Length, 0)} strategies listed in the deck's file; {search} {NumberNotation.Fixed(map.Cells.Length, 0)} removal depths and overlay thicknesses beyond them, {(limits.Length == 0 ? "with no limit stated" : $"under the stated limits on {Listed(limits)}")}.";
    }

    private static string Gain(DepthMap map, DepthAdvantage advantage)
    {
        var years =
            $"{(advantage.YearsMore >= 0 ? "lasts" : "ends")} {LifeText.Years(Math.Abs(advantage.YearsMore))} years (±{LifeText.Years(advantage.ErrorOfYears)}) {(advantage.YearsMore >= 0 ? "longer" : "sooner")} in the mean";
        return advantage.Saved is null ? years : $"{Money(map, advantage)} and {years}";
    }

    private static string Against(DepthMap map, DepthAdvantage advantage) =>
        advantage.Saved is null
            ? $"ends {LifeText.Years(-advantage.YearsMore)} years (±{LifeText.Years(advantage.ErrorOfYears)}) before"
            : $"{Money(map, advantage)} against";

    private static string Money(DepthMap map, DepthAdvantage advantage) =>
        $"{DecisionPhrases.SavesOrCosts(advantage.Saved!.Value)} {NumberNotation.Money(Math.Abs(advantage.Saved.Value), map.Deck.Prices!.Currency)} (±{NumberNotation.Money(advantage.ErrorOfSaved!.Value, "").TrimStart()}) of mean present value";

    private static string Listed(string[] names) =>
        names.Length == 1 ? names[0] : $"{string.Join(", ", names[..^1])} and {names[^1]}";
}
