using DeckLife.Fitting;
using DeckLife.Quantities;

namespace DeckLife.ReferenceChecks.Fitting;

/// <summary>A dozen cores of marine bridges with the agency's own fits, and the four that disagree; MARINE-PROFILES.md has all 148.</summary>
public sealed class MarineTypedCases : IReferenceCaseSet
{
    private const string Source =
        "Florida Department of Transportation, final report, State Job 99700-3515-020, Contract BA502 (31 Dec 2001), Tables 4 and 5";

    // Core number of the report, age [yr], slices left out at the surface, centres [in], contents [lb/yd³], published D [in²/yr].
    private sealed record Core(
        string Number,
        double Years,
        int Skip,
        double[] CentreInches,
        double[] Pounds,
        double PublishedD
    );

    private static Core[] Agreeing =>
        [
            new(
                "526",
                11,
                0,
                [0.11, 0.38, 0.75, 1.5, 2.52],
                [27.43, 8.23, 0.55, 0.08, 0.11],
                0.0038
            ),
            new("567", 8, 0, [0.11, 0.38, 0.75, 1.5, 2.52], [9.35, 7.02, 3.42, 0.78, 0.14], 0.035),
            new("598", 8, 0, [0.11, 0.38, 0.75, 1.5, 2.52], [8.84, 5.72, 1.8, 0.24, 0.14], 0.019),
            new(
                "650",
                11,
                1,
                [0.04, 0.19, 0.45, 0.7, 0.95, 1.33, 6.09],
                [16.18, 22.8, 18.69, 7.12, 1.94, 0.72, 0.16],
                0.017
            ),
            new(
                "660",
                11,
                1,
                [0.04, 0.19, 0.45, 0.7, 0.95, 1.33, 5.31],
                [2.391, 3.75, 4.07, 3.38, 2.42, 1.91, 0.2],
                0.126
            ),
            new(
                "667",
                11,
                1,
                [0.08, 0.26, 0.53, 0.78, 1.03, 1.41, 6.17],
                [4.354, 1.33, 0.36, 0.26, 0.31, 0.15, 0.16],
                0.0031
            ),
            new(
                "708",
                7,
                0,
                [0.19, 0.45, 0.7, 0.95, 1.33, 2.79],
                [6.14, 3.62, 0.4, 0.5, 0.47, 0.29],
                0.013
            ),
            new(
                "749",
                10,
                1,
                [0.04, 0.19, 0.45, 0.7, 0.95, 1.33, 2.98],
                [2.94, 21.76, 11.84, 9.42, 6.36, 1.27, 0.04],
                0.027
            ),
            new(
                "783",
                10,
                1,
                [0.06, 0.22, 0.49, 0.74, 0.99, 1.37, 3.97],
                [7.53, 11.15, 11.52, 7.9, 6.35, 7.18, 1.75],
                0.132
            ),
            new(
                "823",
                7,
                1,
                [0.06, 0.22, 0.49, 0.74, 0.99, 1.37, 1.75],
                [32.94, 24.76, 14.38, 8.78, 2.1, 0.68, 1.2],
                0.025
            ),
            new(
                "850",
                14,
                1,
                [0.04, 0.19, 0.45, 0.7, 0.95, 1.33, 5.19],
                [21.79, 15.93, 11.92, 11.07, 7.54, 3.3, 0.29],
                0.043
            ),
            new(
                "895",
                14,
                1,
                [0.04, 0.19, 0.45, 0.7, 0.95, 1.33, 7.31],
                [23.16, 20.1, 23.85, 21.11, 16.57, 7.97, 0.14],
                0.103
            ),
        ];

    private static Core[] Disagreeing =>
        [
            new("550", 6, 0, [0.11, 0.38, 0.75, 1.5, 2.52], [8.41, 12.98, 2.07, 0.15, 0.07], 0.042),
            new("552", 6, 0, [0.11, 0.38, 0.75, 1.5, 2.52], [16.74, 19.6, 0.42, 0.21, 0.18], 0.024),
            new("577", 6, 0, [0.11, 0.38, 0.75, 1.5, 2.52], [36.42, 16.41, 6.8, 0.43, 0.35], 0.028),
            new("572", 2, 0, [0.11, 0.38, 0.75, 1.5, 2.52], [29.8, 33.78, 4.68, 0.61, 0.3], 0.095),
        ];

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return new ReferenceCase(
            "fitting/marine-cores",
            "Apparent D of twelve marine cores against the agency's own fits",
            "contents at slice centres, slice A left out in schemes 3 to 6, background fitted at least 0",
            Source,
            HowGot.Printed,
            "the report prints D to two digits and does not say how its program weighted or bounded; 15 %",
            [.. Agreeing.Select(c => Value(c, 0.15))]
        );
        yield return new ReferenceCase(
            "fitting/marine-cores-that-disagree",
            "The four of 97 published fits whose D differs by more than 25 %",
            "as for the other cores",
            Source,
            HowGot.Printed,
            "25 %, the band within which the other 93 lie",
            [.. Disagreeing.Select(c => Value(c, 0.25))]
        )
        {
            KnownDisagreement =
                "Three cores have their largest content in the second slice, so that no curve comes near both; the published D is not a least-squares minimum of the printed contents even with the background held as published. The fourth has a published Cs (31.4 lb/yd3) below the content of its own first slice (36.42 lb/yd3), so the first slice can't have counted fully.",
        };
    }

    private static ReferenceValue Value(Core core, double tolerance) =>
        new(
            $"D of core {core.Number} [in2/yr]",
            core.PublishedD,
            () =>
                ProfileFitter
                    .Fit(
                        MarineProfiles.Make(
                            core.Number,
                            core.Years,
                            core.CentreInches,
                            core.Pounds
                        ),
                        MarineProfiles.AsPublished(core.Skip)
                    )
                    .DiffusionCoefficient!.Value / UnitFactors.SquareMillimetresPerSquareInch,
            tolerance
        );
}
