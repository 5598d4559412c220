using System.Collections.Immutable;
using DeckLife.Profiles;
using DeckLife.Quantities;

namespace DeckLife.Tests.Fitting;

/// <summary>Cores of the tests, in canonical units.</summary>
internal static class Cores
{
    /// <summary>P1 of the regressions: depths [mm] and contents [kg/m³], 20 yr.</summary>
    public static CoreProfile PointsOne() =>
        Points(
            20,
            [3, 9.5, 16, 22, 31.5, 44.5, 57.5, 70.5],
            [4.31, 4.00, 3.22, 2.72, 1.85, 1.09, 0.58, 0.29]
        );

    public static CoreProfile Points(double years, double[] depthMm, double[] content) =>
        Slices(years, depthMm, depthMm, content);

    public static CoreProfile Slices(
        double years,
        double[] topMm,
        double[] bottomMm,
        double[] content,
        bool[]? nonDetect = null
    ) =>
        new()
        {
            Core = "C1",
            ExposureAge = Age.FromYears(years),
            Slices =
            [
                .. Enumerable
                    .Range(0, content.Length)
                    .Select(i => new ChlorideSlice
                    {
                        Row = i + 2,
                        Top = Depth.FromMillimetres(topMm[i]),
                        Bottom = Depth.FromMillimetres(bottomMm[i]),
                        Content = ChlorideContent.FromKilogramsPerCubicMetre(content[i]),
                        IsNonDetect = nonDetect?[i] ?? false,
                    }),
            ],
        };

    /// <summary>Slices of 0.5 in from 0.25 in down, contents in lb/yd³.</summary>
    public static CoreProfile HalfInch(double years, double[] pounds, bool[]? nonDetect = null) =>
        Slices(
            years,
            [.. pounds.Select((_, i) => (0.25 + (0.5 * i)) * 25.4)],
            [.. pounds.Select((_, i) => (0.75 + (0.5 * i)) * 25.4)],
            [
                .. pounds.Select(p =>
                    ChlorideContent.FromPoundsPerCubicYard(p).KilogramsPerCubicMetre
                ),
            ],
            nonDetect
        );

    public static CoreProfile With(
        this CoreProfile core,
        Func<ChlorideSlice, ChlorideSlice> change
    ) => core with { Slices = [.. core.Slices.Select(change)] };

    public static ImmutableArray<string> Codes(this DeckLife.Fitting.ProfileFit fit) =>
        [.. fit.Flags.Select(f => f.Code)];
}
