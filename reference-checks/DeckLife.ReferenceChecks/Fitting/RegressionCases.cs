using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Quantities;

namespace DeckLife.ReferenceChecks.Fitting;

/// <summary>Regressions of invented erfc profiles, computed independently in 40-digit arithmetic.</summary>
public sealed class RegressionCases : IReferenceCaseSet
{
    private static readonly double[] DepthOne = [3, 9.5, 16, 22, 31.5, 44.5, 57.5, 70.5];
    private static readonly double[] ContentOne = [4.31, 4.00, 3.22, 2.72, 1.85, 1.09, 0.58, 0.29];

    private static readonly double[] DepthTwo = [0.5, 1.5, 2.5, 4, 6, 8, 10.5, 14];
    private static readonly double[] ContentTwo =
    [
        0.79,
        0.745,
        0.668,
        0.561,
        0.425,
        0.313,
        0.196,
        0.089,
    ];

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return Case(
            "deck-profile-held",
            "Deck profile, background 0.10 held, all eight points",
            20,
            DepthOne,
            ContentOne,
            Held(0.10, 0),
            [4.80020676143, 0.09577954954, 32.5278291639, 2.144041562],
            0.0764873047147,
            (-0.654994412, 0.9953933162)
        );
        yield return Case(
            "deck-profile-first-out",
            "Deck profile, background 0.10 held, first point left out",
            20,
            DepthOne,
            ContentOne,
            Held(0.10, 1),
            [5.04783896678, 0.04786188613, 29.568384634, 0.7289679024],
            0.00675892587278,
            (-0.774562201, 0.9994266738)
        );
        yield return Case(
            "deck-profile-free",
            "Deck profile, background free, first point left out",
            20,
            DepthOne,
            ContentOne,
            new ProfileFitOptions { SkipSurface = 1 },
            [
                5.05257751086,
                0.06400580695,
                29.3506408722,
                1.802056946,
                0.108095780923,
                0.06026234619,
            ],
            0.00672923955195
        );
        yield return Case(
            "bulk-diffusion",
            "Bulk-diffusion test of 35 d, background 0.012 held, first point left out",
            35 / 365.25,
            DepthTwo,
            ContentTwo,
            Held(0.012, 1),
            [0.867460645618, 0.00467744897, 377.073639881, 6.24990255],
            0.000113328418627
        );
        yield return Case(
            "bulk-diffusion-all",
            "Bulk-diffusion test of 35 d, background 0.012 held, all eight points",
            35 / 365.25,
            DepthTwo,
            ContentTwo,
            Held(0.012, 0),
            [0.849515405409, double.NaN, 393.803797617, double.NaN],
            0.000898719316055
        );
    }

    private static ProfileFitOptions Held(double background, int skip) =>
        new()
        {
            Background = BackgroundTreatment.Fixed,
            FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(background),
            SkipSurface = skip,
        };

    private static ReferenceCase Case(
        string id,
        string title,
        double years,
        double[] depthMm,
        double[] content,
        ProfileFitOptions options,
        double[] expected,
        double sumOfSquares,
        (double Correlation, double RSquared)? more = null
    )
    {
        var fit = new Lazy<ProfileFit>(() =>
            ProfileFitter.Fit(
                new CoreProfile
                {
                    Core = id,
                    ExposureAge = Age.FromYears(years),
                    Slices =
                    [
                        .. depthMm.Zip(
                            content,
                            (x, c) =>
                                new ChlorideSlice
                                {
                                    Top = Depth.FromMillimetres(x),
                                    Bottom = Depth.FromMillimetres(x),
                                    Content = ChlorideContent.FromKilogramsPerCubicMetre(c),
                                }
                        ),
                    ],
                },
                options
            )
        );
        var values = new List<ReferenceValue>
        {
            new("Cs", expected[0], () => fit.Value.SurfaceChloride!.Value, 1e-11),
            new(
                "s.e. of Cs",
                expected[1],
                () => fit.Value.SurfaceChloride!.StandardError!.Value,
                1e-8
            ),
            new("D [mm2/yr]", expected[2], () => fit.Value.DiffusionCoefficient!.Value, 2e-11),
            new(
                "s.e. of D [mm2/yr]",
                expected[3],
                () => fit.Value.DiffusionCoefficient!.StandardError!.Value,
                1e-8
            ),
        };
        if (expected.Length > 4)
        {
            values.Add(new("C0", expected[4], () => fit.Value.Background!.Value, 1e-10));
            values.Add(
                new(
                    "s.e. of C0",
                    expected[5],
                    () => fit.Value.Background!.StandardError!.Value,
                    1e-8
                )
            );
        }

        values.RemoveAll(v => double.IsNaN(v.Expected));
        values.Add(
            new(
                "sum of squares",
                sumOfSquares,
                () =>
                    fit.Value.DegreesOfFreedom
                    * Math.Pow(fit.Value.ResidualStandardDeviation!.Value, 2),
                1e-10
            )
        );
        if (more is { } m)
        {
            values.Add(
                new(
                    "correlation of Cs and D",
                    m.Correlation,
                    () => fit.Value.Correlation!.Value,
                    2e-9
                )
            );
            values.Add(new("R squared", m.RSquared, () => fit.Value.RSquared!.Value, 2e-10));
        }

        return new ReferenceCase(
            "fitting/" + id,
            title,
            FormattableString.Invariant(
                $"x [mm] {string.Join(", ", depthMm)}; C {string.Join(", ", content)}; {years:G6} yr; unweighted"
            ),
            "C = C0 + (Cs - C0) erfc(x / (2 sqrt(D t))); least squares in 40-digit arithmetic, s.e. = sqrt(s² inv(J'J)), n - p degrees of freedom",
            HowGot.ComputedIndependently,
            "all digits given",
            values
        );
    }
}
