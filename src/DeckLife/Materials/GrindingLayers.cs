using System.Collections.Immutable;

namespace DeckLife.Materials;

/// <summary>Depths between which a specimen of a bulk diffusion test is ground, by water to cementitious material.</summary>
/// <remarks>Source: the table of NT Build 443 and ASTM C1556 (from memory). The first layer stays out of the fit.</remarks>
public static class GrindingLayers
{
    private static readonly (double Ratio, ImmutableArray<double> LimitsMm)[] Table =
    [
        (0.25, [0, 1, 2, 3, 4, 5, 6, 8, 10]),
        (0.30, [0, 1, 2, 3, 4, 6, 8, 10, 12]),
        (0.35, [0, 1, 2, 3, 5, 7, 9, 12, 16]),
        (0.40, [0, 1, 3, 5, 7, 10, 13, 16, 20]),
        (0.50, [0, 1, 3, 5, 8, 12, 16, 20, 25]),
        (0.60, [0, 1, 3, 6, 10, 15, 20, 25, 30]),
        (0.70, [0, 1, 5, 10, 15, 20, 25, 30, 35]),
    ];

    /// <summary>The limits of the nearest tabulated ratio; halfway between two, those of the higher, which reach deeper.</summary>
    /// <param name="waterCementitiousRatio">Water by cementitious material, by mass: 0.2 to 0.8.</param>
    /// <returns>Nine depths [mm], rising from 0: the limits of eight layers.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The ratio lies outside what the table is for.</exception>
    public static ImmutableArray<double> LimitsMm(double waterCementitiousRatio)
    {
        if (!(waterCementitiousRatio is >= 0.2 and <= 0.8))
        {
            throw new ArgumentOutOfRangeException(
                nameof(waterCementitiousRatio),
                waterCementitiousRatio,
                "The table is for ratios from 0.2 to 0.8."
            );
        }

        // Rounded, so that 0.375 is halfway although it has no exact form as a difference.
        return Table
            .OrderBy(t => Math.Round(Math.Abs(t.Ratio - waterCementitiousRatio), 9))
            .ThenByDescending(t => t.Ratio)
            .First()
            .LimitsMm;
    }
}
