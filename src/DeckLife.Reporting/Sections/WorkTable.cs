using System.Collections.Immutable;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>What the work involves: depths and areas, bars that the removal would strike, grade and dead load.</summary>
public static class WorkTable
{
    /// <summary>Makes the table; nothing where no intervention does anything.</summary>
    /// <param name="projection">The projection.</param>
    public static ReportTable? Of(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        var rows = projection
            .Strategies.SelectMany(s =>
                s.Interventions.Select(i => Row(projection.Deck, s.Strategy.Name, i))
            )
            .ToImmutableArray();
        return rows.IsEmpty
            ? null
            : new(
                "What the work involves (medians)",
                [
                    new("Strategy"),
                    new("Year", true),
                    new("Depths, with their share of the area")
                    {
                        Basis = SourceAnchor.RemovalDepth,
                    },
                    new("Mean removal", true, UnitScale.Depth)
                    {
                        Basis = SourceAnchor.RemovalDepth,
                    },
                    new("Area repaired", true) { Basis = SourceAnchor.Work },
                    new("Area undercut below the bars", true) { Basis = SourceAnchor.Work },
                    new("Bars struck by the removal", true) { Basis = SourceAnchor.Work },
                    new("Grade rise", true, UnitScale.Depth) { Basis = SourceAnchor.Work },
                    new("Added dead load", true, DeadLoad) { Basis = SourceAnchor.Work },
                ],
                rows
            )
            {
                StacksOnPhones = true,
            };
    }

    private static UnitScale DeadLoad { get; } =
        new(
            "added dead load",
            "kN/m²",
            "lbf/ft²",
            1 / UnitFactors.KilonewtonsPerSquareMetrePerPoundPerSquareFoot
        );

    private static ImmutableArray<ReportCell> Row(
        Deck deck,
        string name,
        InterventionQuantities work
    ) =>
        [
            ReportCell.Words(name),
            ReportCell.Whole((long)Math.Round(deck.SurveyYear + work.AtYr)) with
            {
                Basis = SourceAnchor.Strategy(deck, name),
            },
            Depths(work),
            ReportCell.Quantity(UnitScale.Depth, work.MeanRemovalMm.P50),
            ReportCell.Percent(work.RepairedFraction.P50),
            ReportCell.Percent(work.UndercutFraction.P50),
            ReportCell.Percent(work.StruckFraction.P50),
            ReportCell.Quantity(UnitScale.Depth, work.GradeRiseMm),
            work.AddedDeadLoadKnPerM2 is { } load
                ? ReportCell.Quantity(DeadLoad, load, 2)
                : ReportCell.Missing("no density"),
        ];

    private static ReportCell Depths(InterventionQuantities work) =>
        work.DepthClasses.IsDefaultOrEmpty
            ? ReportCell.Missing("none")
            : ReportCell.Fragment(
                HtmlFragment.Join(
                    work.DepthClasses.Select(c =>
                        HtmlFragment.Of(
                            $"<div>{QuantityHtml.Value(UnitScale.Depth, c.DepthMm)}: {NumberNotation.Percent(c.Fraction)}</div>"
                        )
                    )
                ),
                string.Join(
                    "; ",
                    work.DepthClasses.Select(c =>
                        $"{QuantityHtml.Text(UnitScale.Depth, c.DepthMm, UnitSystem.Si)}: {NumberNotation.Percent(c.Fraction)}"
                    )
                )
            );
}
