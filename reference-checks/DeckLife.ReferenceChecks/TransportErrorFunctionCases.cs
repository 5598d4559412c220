using DeckLife.Numerics.SpecialFunctions;

namespace DeckLife.ReferenceChecks;

/// <summary>erf, erfc, its repeated integrals and its inverse.</summary>
public sealed class TransportErrorFunctionCases : IReferenceCaseSet
{
    private static readonly double[] Arguments = [0, 0.1, 0.25, 0.5, 0.75, 1, 1.5, 2, 3, 5];

    // erf, erfc, then ierfc to i4erfc.
    private static readonly double[][] Table =
    [
        [0, 1, 0.564189583547756, 0.25, 0.0940315972579594, 0.03125],
        [
            0.112462916018284892,
            0.887537083981715108,
            0.469822094996297,
            0.198393166245614,
            0.0716905769578624,
            0.0230068813567552,
        ],
        [
            0.276326390168236933,
            0.723673609831763067,
            0.349088662230116,
            0.137282319679176,
            0.0467412503984214,
            0.0142389618099957,
        ],
        [
            0.520499877813046538,
            0.479500122186953462,
            0.199641228374246,
            0.0699647234531769,
            0.0216127508201781,
            0.00604399657912485,
        ],
        [
            0.711155633653515132,
            0.288844366346484868,
            0.10483225983774,
            0.0328989941474687,
            0.00924729476942282,
            0.00237850649916681,
        ],
        [
            0.842700792949714869,
            0.157299207050285131,
            0.0502545416600122,
            0.0141975309325652,
            0.00364324663248031,
            0.000863879708450568,
        ],
        [
            0.966105146475310727,
            0.0338948535246892729,
            0.00862286432478078,
            0.00200656513758674,
            0.000433861485336761,
            8.81225851970565e-5,
        ],
        [
            0.995322265018952734,
            0.00467773498104726584,
            0.000978022714951495,
            0.000191411030310321,
            3.53964322850351e-5,
            6.22816264627262e-6,
        ],
        [
            0.999977909503001415,
            2.20904969985854414e-5,
            3.3550349776176e-6,
            4.90071783219956e-7,
            6.91007130496444e-8,
            9.43343811526124e-9,
        ],
        [
            0.99999999999846254,
            1.53745979442803485e-12,
            1.48134293368493e-13,
            1.40292151857752e-14,
            1.30702358512356e-15,
            1.19872416817451e-16,
        ],
    ];

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return Computed(
            "error-function",
            "erf and erfc",
            [
                .. Column("erf", 0, ErrorFunction.Erf, 5e-16),
                .. Column("erfc", 1, ErrorFunction.Erfc, 2e-15),
                .. ReferenceGrid.Values(
                    "erfc",
                    [6, 8, 10, 20, 26],
                    [
                        2.1519736712498913e-17,
                        1.1224297172982927e-29,
                        2.0884875837625448e-45,
                        5.3958656116079009e-176,
                        5.6631924088561428e-296,
                    ],
                    ErrorFunction.Erfc,
                    2e-15
                ),
            ]
        );
        yield return Computed(
            "repeated-integrals",
            "Repeated integrals of erfc",
            [
                .. Column("ierfc", 2, RepeatedErfcIntegral.First, 5e-15),
                .. Column("i2erfc", 3, RepeatedErfcIntegral.Second, 5e-15),
                .. Column("i3erfc", 4, x => RepeatedErfcIntegral.Value(3, x), 5e-15),
                .. Column("i4erfc", 5, x => RepeatedErfcIntegral.Value(4, x), 5e-15),
            ]
        );
        yield return Computed(
            "inverse-error-function",
            "Inverse of erfc, and of erf at one point",
            [
                .. ReferenceGrid
                    .Values(
                        "p",
                        [0.001, 0.01, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 0.9, 0.99, 1.5],
                        [
                            2.32675376551352467,
                            1.82138636771844967,
                            1.38590382434967795,
                            1.16308715367667409,
                            0.90619380243682322,
                            0.732869077959216852,
                            0.59511608144999485,
                            0.476936276204469873,
                            0.370807158593557929,
                            0.179143454621291676,
                            0.088855990494257687,
                            0.00886250128095059791,
                            -0.476936276204469873,
                        ],
                        ErrorFunction.InverseErfc,
                        2e-15
                    )
                    // 1 - p loses two digits to rounding of p itself near p = 1.
                    .Select(v => v.Name == "p 0.99" ? v with { Tolerance = 2e-14 } : v),
                new(
                    "inverse of erf at 0.93",
                    1.28121432374906,
                    () => ErrorFunction.InverseErfc(1 - 0.93),
                    5e-15
                ),
            ]
        );
        yield return new ReferenceCase(
            "transport/error-function-printed",
            "erfc, values printed by others",
            "x as named",
            "printed in the documentation of general-purpose mathematics software and of a spreadsheet",
            HowGot.Printed,
            "the printed digits",
            [
                new("erfc(1/2)", 0.4795001222, () => ErrorFunction.Erfc(0.5), 2e-10),
                new("erfc(1.41)", 0.04614756064, () => ErrorFunction.Erfc(1.41), 2e-10),
                new("erfc(sqrt 2)", 0.0455002639, () => ErrorFunction.Erfc(Math.Sqrt(2)), 1e-9),
                new("erfc(3)", 2.209049700e-5, () => ErrorFunction.Erfc(3), 1e-9),
                new("erfc(-1)", 1.84270079294971, () => ErrorFunction.Erfc(-1), 3e-15),
                new("erfc(1)", 0.157299207050285, () => ErrorFunction.Erfc(1), 4e-15),
                new("erfc(12)", 1.3562611692059e-64, () => ErrorFunction.Erfc(12), 4e-14),
            ]
        );
    }

    private static IEnumerable<ReferenceValue> Column(
        string name,
        int column,
        Func<double, double> found,
        double tolerance
    ) =>
        ReferenceGrid.Values(
            name,
            Arguments,
            [.. Table.Select(row => row[column])],
            found,
            tolerance
        );

    private static ReferenceCase Computed(
        string name,
        string title,
        IReadOnlyList<ReferenceValue> values
    ) =>
        new(
            "transport/" + name,
            title,
            "argument as named",
            "DLMF 7.2, 7.17 and 7.18; the quantities of Crank 1975 table 2.1; mpmath, 80 digits",
            HowGot.ComputedIndependently,
            "rounding of doubles, and 15 digits of the reference for the integrals",
            values
        );
}
