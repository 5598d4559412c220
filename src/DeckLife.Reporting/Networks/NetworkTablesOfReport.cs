using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Network.Results;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Networks;

/// <summary>Tables of a network's report.</summary>
internal static class NetworkTablesOfReport
{
    /// <summary>One row a deck; what has no answer says why.</summary>
    public static SortableTable Decks(NetworkResult result) =>
        new(
            new ReportTable(
                $"Decks of {result.Network.Name}",
                [
                    new("Deck"),
                    new("Name"),
                    new("Area", true, UnitScale.Area),
                    new("Weight", true),
                    new("Corridor"),
                    new($"Damaged {result.Network.FirstYear}", true, IsShare: true),
                    new("5 to 95 %"),
                    new($"Untreated {result.Network.LastYear}", true, IsShare: true),
                    new("Best program"),
                    new("Year", true),
                    new("Expected cost", true, FixedUnit: result.Prices),
                    new($"Then {result.Network.LastYear}", true, IsShare: true),
                    new("Worst first"),
                    new("Known from, or why no answer"),
                ],
                [.. result.Decks.Select(Row)]
            ),
            $"decks of {result.Network.Name}"
        );

    /// <summary>Decks and area in each condition class, in the first and last year, under each program.</summary>
    public static ReportTable Classes(NetworkResult result)
    {
        var rows = ImmutableArray.CreateBuilder<ImmutableArray<ReportCell>>();
        foreach (var plan in result.Plans)
        {
            foreach (
                var year in plan.Condition.Length == 0
                    ? []
                    : new[] { plan.Condition[0], plan.Condition[^1] }
            )
            {
                for (var c = 0; c < year.DecksByClass.Length; c++)
                {
                    var decks = year.DecksByClass[c].Together;
                    rows.Add([
                        ReportCell.Words(plan.Name),
                        ReportCell.Whole(year.Year),
                        ReportCell.Words(ClassName(result, c)),
                        ReportCell.Number(decks.P50),
                        ReportCell.Words(
                            $"{NumberNotation.Trimmed(decks.P05)} to {NumberNotation.Trimmed(decks.P95)}"
                        ),
                        ReportCell.Percent(year.AreaByClass[c].Together.P50),
                    ]);
                }
            }
        }

        return new(
            "Decks by condition class, decks erring together",
            [
                new("Program"),
                new("Year", true),
                new("Share of the deck damaged"),
                new("Decks, median", true),
                new("Decks, 5 to 95 %"),
                new("Share of the area, median", true, IsShare: true),
            ],
            rows.ToImmutable()
        );
    }

    /// <summary>What a program does with a deck, in words.</summary>
    public static string Words(DeckChoice? choice) =>
        choice?.Strategy is { } strategy
            ? string.Create(CultureInfo.InvariantCulture, $"{choice.StartYear}: {strategy}")
            : "nothing";

    private static ImmutableArray<ReportCell> Row(DeckRow row)
    {
        var failed = row.Failure is not null;
        ReportCell Share(double? value) =>
            failed ? ReportCell.Missing() : ReportCell.Percent(value);
        return
        [
            ReportCell.Words(row.Member.Folder),
            ReportCell.Words(row.Name),
            ReportCell.Quantity(UnitScale.Area, row.AreaM2),
            ReportCell.Number(row.Member.Weight, 2),
            ReportCell.Words(row.Member.Corridor),
            Share(row.DamagedFirstYear?.P50),
            failed
                ? ReportCell.Missing()
                : OnOneLine(
                    $"{NumberNotation.Percent(row.DamagedFirstYear!.Value.P05)} to {NumberNotation.Percent(row.DamagedFirstYear.Value.P95)}"
                ),
            Share(row.Nothing?.DamagedLastYear.P50),
            failed ? ReportCell.Words("no answer") : ReportCell.Words(row.Best!.Strategy ?? "–"),
            row.Best?.StartYear is { } year ? ReportCell.Whole(year) : ReportCell.Missing(),
            row.Best?.Strategy is null ? ReportCell.Missing() : ReportCell.Amount(row.Best.Cost),
            Share(row.Best?.DamagedLastYear.P50),
            failed ? ReportCell.Missing() : ReportCell.Words(Words(row.WorstFirst)),
            ReportCell.Words(row.Failure ?? row.Evidence),
        ];
    }

    private static ReportCell OnOneLine(string text) =>
        ReportCell.Fragment(HtmlFragment.Of($"<span class=\"dl-se\">{text}</span>"), text);

    private static string ClassName(NetworkResult result, int place)
    {
        var limits = result.Network.ClassLimits;
        return place == 0 ? $"under {NumberNotation.Percent(limits[0])}"
            : place == limits.Length ? $"{NumberNotation.Percent(limits[^1])} and more"
            : $"{NumberNotation.Percent(limits[place - 1])} to {NumberNotation.Percent(limits[place])}";
    }
}
