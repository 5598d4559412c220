using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Fitting;
using DeckLife.Reporting.Notation;
using DeckLife.Reporting.Tables;

namespace DeckLife.Reporting.Sections;

/// <summary>How far each core's D rests on one laboratory result: the smallest and the largest D with one slice left out.</summary>
public static class SliceInfluenceTable
{
    /// <summary>Makes the table: one row a core that was fitted.</summary>
    /// <param name="cores">The fits.</param>
    public static ReportTable Of(ImmutableArray<ProfileFit> cores) =>
        new(
            "Diffusion coefficient with one slice left out in turn",
            [
                new("Core"),
                new("With all", true, UnitScale.Diffusion),
                new("Smallest", true, UnitScale.Diffusion),
                new("Without row"),
                new("Largest", true, UnitScale.Diffusion),
                new("Without row"),
                new("Remark"),
            ],
            [.. cores.Where(c => c.DiffusionCoefficient is not null).Select(Row)]
        );

    private static ImmutableArray<ReportCell> Row(ProfileFit core)
    {
        var found = core
            .Influence.Where(i => i.DiffusionCoefficient is not null)
            .OrderBy(i => i.DiffusionCoefficient)
            .ToArray();
        var none = core.Influence.Where(i => i.DiffusionCoefficient is null).ToArray();
        return
        [
            ReportCell.Words(core.Profile.Core),
            ReportCell.Quantity(UnitScale.Diffusion, core.DiffusionCoefficient!.Value),
            .. found.Length == 0
                ? Enumerable.Repeat(ReportCell.Missing("no slice to spare"), 4)
                :
                [
                    ReportCell.Quantity(UnitScale.Diffusion, found[0].DiffusionCoefficient),
                    ReportCell.Whole(found[0].Row),
                    ReportCell.Quantity(UnitScale.Diffusion, found[^1].DiffusionCoefficient),
                    ReportCell.Whole(found[^1].Row),
                ],
            ReportCell.Words(
                none.Length == 0
                    ? Unspared(core)
                    : "no fit without row "
                        + string.Join(
                            ", or ",
                            none.Select(i => i.Row.ToString(CultureInfo.InvariantCulture))
                        )
            ),
        ];
    }

    // Slices whose loss would leave as many unknowns as measured contents, or fewer contents, are not tried.
    private static string Unspared(ProfileFit core)
    {
        var kept = core.Slices.Length - core.Influence.Length;
        return kept == 0
            ? ""
            : string.Create(
                CultureInfo.InvariantCulture,
                $"{kept} of {core.Slices.Length} slices can't be spared: too few measured ones would be left"
            );
    }
}
