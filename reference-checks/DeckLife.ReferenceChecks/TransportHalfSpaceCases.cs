using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.RootFinding;
using DeckLife.Numerics.SpecialFunctions;
using DeckLife.Quantities;

namespace DeckLife.ReferenceChecks;

/// <summary>The half space under constant and growing surface contents.</summary>
public sealed class TransportHalfSpaceCases : IReferenceCaseSet
{
    private const double Coefficient = 30;
    private static readonly double Exact = ReferenceGrid.Digits(13);

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases() =>
        [ConstantSurface(), FirstCrossing(), Initiation(), GrowingSurfaces(), PowerLaw()];

    private static ReferenceCase ConstantSurface() =>
        Case(
            "half-space",
            "Half space, constant surface content",
            "Cs 5, C0 0.1, D 30 mm²/yr",
            "Crank 1975 eq. 2.45 (from memory; the equation also read in Tran et al. 2017), evaluated with 30 digits",
            "the reference is given to 13 digits (uptake and flux 14)",
            [
                .. ReferenceGrid.Values(
                    ("t", [5, 10, 20, 40]),
                    ("x", [0, 10, 25, 50, 75, 100]),
                    [
                        [
                            5,
                            2.862144022089,
                            0.829681898576,
                            0.1190728439016,
                            0.1000730214454,
                            0.1000000380438,
                        ],
                        [
                            5,
                            3.447147851717,
                            1.606427413044,
                            0.3020114833521,
                            0.1107782705995,
                            0.100218329744,
                        ],
                        [
                            5,
                            3.886866964154,
                            2.405383468088,
                            0.829681898576,
                            0.2488758276852,
                            0.1190728439016,
                        ],
                        [
                            5,
                            4.207456783291,
                            3.088186814,
                            1.606427413044,
                            0.7163534807308,
                            0.3020114833521,
                        ],
                    ],
                    (t, x) => Content(x, t),
                    Exact
                ),
                new(
                    "Cs 0.003, x 0.03 m, D 1e-12 m²/s, t 3e8 s",
                    0.00066201408575954,
                    () => 0.003 * HalfSpace.ConstantSurface(0.03, 3e-4),
                    ReferenceGrid.Digits(14)
                ),
                new(
                    "flux into the surface, t 20",
                    3.3858426648191,
                    () => 4.9 * HalfSpace.SurfaceFlux(Coefficient, 600),
                    ReferenceGrid.Digits(14)
                ),
                new(
                    "uptake, t 20",
                    135.43370659276,
                    () => 4.9 * HalfSpace.Uptake(600),
                    ReferenceGrid.Digits(14)
                ),
                .. new[]
                {
                    (0.0, 6.0, 4.662259661588),
                    (6, 13, 3.942860002572),
                    (13, 19, 3.258446126629),
                    (19, 25, 2.676861038965),
                    (25, 38, 1.893315550146),
                    (38, 51, 1.087643193406),
                }.Select(slice => new ReferenceValue(
                    FormattableString.Invariant($"mean {slice.Item1}-{slice.Item2} mm, t 20"),
                    slice.Item3,
                    () =>
                        0.1 + (4.9 * SliceMean.Value(slice.Item1, slice.Item2, 2 * Math.Sqrt(600))),
                    Exact
                )),
            ]
        );

    private static ReferenceCase FirstCrossing() =>
        Case(
            "first-crossing",
            "Time at which a content is reached, closed form and bracketed root",
            "Cs 5, C0 0.1, D 30 mm²/yr; cover [mm] and content as named",
            "inverse of Crank 1975 eq. 2.45, 30 digits",
            "the reference is given to 14 digits; the root is bracketed to 1e-12 yr",
            [
                .. Crossings("closed form, ", Crossing, 2e-13),
                .. Crossings("bracketed, ", BracketedCrossing, 1e-12),
            ]
        );

    private static IEnumerable<ReferenceValue> Crossings(
        string how,
        Func<double, double, double> found,
        double tolerance
    ) =>
        ReferenceGrid.Values(
            (how + "content", [0.71, 1.2]),
            ("cover", [38, 50, 63.5, 70]),
            [
                [10.198152027235, 17.656080379563, 28.477492044197, 34.605917543943],
                [16.311550340531, 28.240218733606, 45.548648795433, 55.350828717868],
            ],
            (content, cover) => found(cover, content),
            tolerance,
            " [yr]"
        );

    // The classes of surface content and two of the coefficients that US practice has long used, in its own units.
    private static ReferenceCase Initiation()
    {
        (double Coefficient, double Cover, double[] Expected)[] rows =
        [
            (0.05, 2.00, [56.4711489, 24.35498242, 17.75206476, 14.50370206]),
            (0.05, 2.75, [106.7657659, 46.04613863, 33.56249744, 27.42106171]),
            (0.13, 2.00, [21.71967265, 9.367300929, 6.827717216, 5.578346946]),
            (0.13, 2.75, [41.06375611, 17.71005332, 12.90865286, 10.54656219]),
        ];
        double[] surfaces = [3.0, 6.0, 9.0, 12.4];
        return Case(
            "initiation-us-units",
            "Time to initiation over classes of surface content, in US customary units",
            "threshold 1.2 lb/yd3, background 0; D [in2/yr], cover [in] and Cs [lb/yd3] as named, converted by the library's own units",
            "t = x²/(4 D z²), erfc z = Ct/Cs (inverse of Crank 1975 eq. 2.45), 30 digits; classes as in Weyers 1998 (from memory)",
            "printed to 9 or 10 digits",
            [
                .. rows.SelectMany(r =>
                    surfaces.Select(
                        (s, i) =>
                            new ReferenceValue(
                                FormattableString.Invariant(
                                    $"D {r.Coefficient}, cover {r.Cover}, Cs {s} [yr]"
                                ),
                                r.Expected[i],
                                () => YearsToInitiation(r.Coefficient, r.Cover, s),
                                5e-9
                            )
                    )
                ),
            ]
        );
    }

    private static double YearsToInitiation(double squareInches, double inches, double pounds)
    {
        var share =
            ChlorideContent.FromPoundsPerCubicYard(1.2).KilogramsPerCubicMetre
            / ChlorideContent.FromPoundsPerCubicYard(pounds).KilogramsPerCubicMetre;
        var reach = Depth.FromInches(inches).Millimetres / (2 * ErrorFunction.InverseErfc(share));
        return reach
            * reach
            / DiffusionCoefficient.FromSquareInchesPerYear(squareInches).SquareMillimetresPerYear;
    }

    private static ReferenceCase GrowingSurfaces() =>
        Case(
            "surface-laws",
            "Half space, growing surface content",
            "D 30 mm²/yr; linear 0.25/yr; square root 1/yr^0.5; exponential 6(1-exp(-0.1t)); linear to 6 in 15 yr, then held",
            "Crank 1975 ch. 3, Carslaw and Jaeger 2.5 (from memory), 30 digits; exponential also by Talbot's Laplace inversion",
            "the reference is given to 13 digits, the exponential law to 11 on which two methods agree",
            [
                .. Law(
                    "linear, t",
                    [10, 20, 30],
                    [0, 25, 50],
                    [
                        [2.5, 0.3598524562692, 0.02552923463951],
                        [5, 1.358633521611, 0.2638817666575],
                        [7.5, 2.650587508031, 0.7531747212488],
                    ],
                    (t, x) => 0.25 * HalfSpace.LinearSurface(x, Coefficient, t),
                    Exact
                ),
                .. Law(
                    "square root, t",
                    [10, 20, 30],
                    [0, 25, 50],
                    [
                        [3.162277660168, 0.6348852029078, 0.06021979849854],
                        [4.472135955, 1.543668073319, 0.37332930601],
                        [5.477225575052, 2.356490665663, 0.8048206376689],
                    ],
                    (t, x) => HalfSpace.SquareRootSurface(x, Coefficient, t),
                    Exact
                ),
                .. Law(
                    "exponential, t",
                    [10, 30],
                    [25, 50],
                    [
                        [0.6559163064417, 0.05155938910077],
                        [2.650389399495, 0.9224911105186],
                    ],
                    (t, x) => 6 * HalfSpace.ExponentialSurface(x, Coefficient, t, 0.1),
                    1e-11
                ),
                .. Law(
                    "held, t",
                    [10, 15, 30, 50],
                    [0, 25, 50],
                    [
                        [4, 0.5757639300308, 0.04084677542321],
                        [6, 1.294891658824, 0.176953193846],
                        [6, 2.946048354025, 1.028126360152],
                        [6, 3.715706590484, 1.924972488673],
                    ],
                    (t, x) => 6 * HalfSpace.LinearThenHeldSurface(x, Coefficient, t, 15),
                    Exact
                ),
            ]
        );

    private static ReferenceCase PowerLaw() =>
        Case(
            "power-law",
            "Mejlbro and Poulsen's function",
            "Psi_p(z) = Gamma(p+1) 4^p i^(2p)erfc(z)",
            "Mejlbro 1996 (from memory); the integral form evaluated with 30 digits agrees with the series to 14",
            "the reference is given to 12 digits",
            [
                .. ReferenceGrid.Values(
                    ("p", [0, 0.1, 0.2, 0.3, 0.5, 0.75, 1]),
                    ("z", [0.1, 0.2, 0.4, 0.6, 0.8, 1, 1.5, 2]),
                    [
                        [
                            0.887537083982,
                            0.77729741079,
                            0.571607644953,
                            0.396143909152,
                            0.257899035292,
                            0.15729920705,
                            0.0338948535247,
                            0.00467773498105,
                        ],
                        [
                            0.874566421794,
                            0.755065708494,
                            0.540318243642,
                            0.365026199484,
                            0.232051558883,
                            0.138429910317,
                            0.0283996917176,
                            0.00375997353837,
                        ],
                        [
                            0.86280320974,
                            0.735134413126,
                            0.512877820745,
                            0.338296192274,
                            0.210276865466,
                            0.122821949987,
                            0.0240372154452,
                            0.00305674032239,
                        ],
                        [
                            0.852016943949,
                            0.717058561806,
                            0.48851289144,
                            0.315032212748,
                            0.191680200713,
                            0.109727296324,
                            0.0205215362993,
                            0.00250945863262,
                        ],
                        [
                            0.832737981517,
                            0.685244681342,
                            0.446884520364,
                            0.276388247697,
                            0.161601113444,
                            0.0890738558908,
                            0.0152836290783,
                            0.00173350012739,
                        ],
                        [
                            0.8118565658,
                            0.651526583789,
                            0.404583635393,
                            0.238670239666,
                            0.133349386286,
                            0.0703719677351,
                            0.0109217935208,
                            0.00113331511983,
                        ],
                        [
                            0.793572664982,
                            0.622654246232,
                            0.369905571803,
                            0.209021464713,
                            0.112021171461,
                            0.0567901237303,
                            0.00802626055035,
                            0.000765644121241,
                        ],
                    ],
                    HalfSpace.MejlbroPoulsen,
                    ReferenceGrid.Digits(12)
                ),
            ]
        );

    private static IEnumerable<ReferenceValue> Law(
        string name,
        double[] times,
        double[] depths,
        double[][] expected,
        Func<double, double, double> found,
        double tolerance
    ) => ReferenceGrid.Values((name, times), ("x", depths), expected, found, tolerance);

    private static double Content(double depth, double years) =>
        0.1 + (4.9 * HalfSpace.ConstantSurface(depth, Coefficient * years));

    private static double Crossing(double depth, double content)
    {
        var u = ErrorFunction.InverseErfc((content - 0.1) / 4.9);
        return depth * depth / (4 * u * u * Coefficient);
    }

    private static double BracketedCrossing(double depth, double content)
    {
        BracketedRoot.TryFind(t => Content(depth, t) - content, 0.01, 200, 1e-12, out var root);
        return root;
    }

    private static ReferenceCase Case(
        string name,
        string title,
        string inputs,
        string source,
        string why,
        IReadOnlyList<ReferenceValue> values
    ) => new("transport/" + name, title, inputs, source, HowGot.ComputedIndependently, why, values);
}
