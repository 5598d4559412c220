using DeckLife.Numerics.Diffusion;
using DeckLife.Quantities;
using DeckLife.Transport;

namespace DeckLife.ReferenceChecks;

/// <summary>Ageing, temperature and binding factors, and the full deterministic form of fib Bulletin 34.</summary>
public sealed class TransportAgeingCases : IReferenceCaseSet
{
    private static readonly Age TwentyEightDays = Age.FromDays(28);
    private static readonly double[] Exponents = [0, 0.2, 0.4, 0.6];
    private static readonly double[] Exposures = [1, 10, 50];

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return new ReferenceCase(
            "transport/ageing",
            "Apparent coefficient from an instantaneous law and an exposure that starts later",
            "Dref 10e-12 m²/s, tref = tex = 28 d; values in 1e-12 m²/s",
            "Tang and Gulikers 2007; formula as printed in Tran, Bastidas-Arteaga, Schoefs and Bonnet 2017 (doi 10.1080/15732479.2017.1377737), eqs 6-7",
            HowGot.ComputedIndependently,
            "the reference is given to 13 digits",
            [
                .. ReferenceGrid.Values(
                    ("apparent, m", Exponents),
                    ("t", Exposures),
                    [
                        [10, 10, 10],
                        [6.97564596651, 4.651805078858, 3.405056566268],
                        [4.958578536267, 2.258208310859, 1.223230019108],
                        [3.598080055272, 1.157336100685, 0.4740178346412],
                    ],
                    (m, t) =>
                        Ageing(m)
                            .ApparentAfter(TwentyEightDays, Age.FromYears(t))
                            .SquareMillimetresPerYear / UnitsPerPicometre,
                    ReferenceGrid.Digits(13)
                ),
                .. ReferenceGrid.Values(
                    ("instantaneous, m", Exponents),
                    ("age", Exposures),
                    [
                        [10, 10, 10],
                        [5.982925036, 3.774970493, 2.736021844],
                        [3.579539199, 1.425040222, 0.7485815533],
                        [2.141611469, 0.5379484791, 0.2048135482],
                    ],
                    (m, t) => Ageing(m).InstantaneousMm2PerYear(0, t) / UnitsPerPicometre,
                    ReferenceGrid.Digits(10)
                ),
            ]
        );
        yield return new ReferenceCase(
            "transport/ageing-by-binder",
            "Apparent coefficient for three binders, one of them with an exponent above 1",
            "D28 and m: Portland cement 8e-12, 0.1; fly ash 6e-12, 0.7; slag 25e-12 m²/s, 1.2; exposure from 28 d; values in 1e-12 m²/s",
            "inputs of Thomas and Bamforth 1999, Cement and Concrete Research 29:487-495 (from memory); the integral by mpmath's quadrature, 30 digits",
            HowGot.ComputedIndependently,
            "the reference is given to 13 digits",
            [
                .. Binder("Portland cement", 8, 0.1, [5.430927276337, 4.642297615049]),
                .. Binder("fly ash", 6, 0.7, [0.5092361246181, 0.183698200321]),
                .. Binder("slag", 25, 1.2, [0.5970641428935, 0.1392298822583]),
            ]
        );
        yield return new ReferenceCase(
            "transport/temperature",
            "Factor of temperature on the coefficient",
            "exp(U/R (1/293.15 - 1/T)) and exp(4800 (1/293 - 1/T)), T in K",
            "Arrhenius' form; constants of Page, Short and El Tarras 1981 and fib Bulletin 34 (from memory)",
            HowGot.ComputedIndependently,
            "the reference is given to 12 digits, with R to ten (8.314462618 J/(mol K))",
            [
                .. ReferenceGrid.Values(
                    ("U", [35, 40, 41.8]),
                    ("T", [283.15, 298.15]),
                    [
                        [0.602215785984, 1.27228254822],
                        [0.560129124596, 1.31681292318],
                        [0.545709006959, 1.33322258986],
                    ],
                    (energy, kelvin) =>
                        Activation
                            .FromEnergy(energy, Temperature.FromKelvin(293.15))
                            .Factor(kelvin - 273.15),
                    2e-11
                ),
                .. ReferenceGrid.Values(
                    "b 4800, T",
                    [283, 288, 303],
                    [0.560526822891, 0.75245498335, 1.71715422683],
                    kelvin => Bulletin34Activation.Factor(kelvin - 273.15),
                    ReferenceGrid.Digits(12)
                ),
            ]
        );
        yield return new ReferenceCase(
            "transport/humidity",
            "Share of the coefficient left at a humidity of the pores",
            "1/(1 + (1-h)⁴/(1-0.75)⁴)",
            "Saetta, Scotta and Vitaliani 1993, ACI Materials Journal 90:441-451 (form from memory)",
            HowGot.ComputedIndependently,
            "the reference is given to 12 digits",
            [
                .. ReferenceGrid.Values(
                    "h",
                    [0.5, 0.65, 0.75, 0.85, 0.9, 1],
                    [0.0588235294118, 0.206543291474, 0.5, 0.885269121813, 0.97503900156, 1],
                    SaettaEtAl1993.HumidityFactor,
                    ReferenceGrid.Digits(12)
                ),
            ]
        );
        yield return new ReferenceCase(
            "transport/mix-relations",
            "Coefficient from the proportions of a mix",
            "first: kD 1 [mm²/yr]; second: rc 3.16, ra 2.6, a/c 3, D in water 1.6e-9 m²/s [1e-12 m²/s]",
            "Frederiksen et al. 1997, HETEK report 83; Papadakis et al. 1996 as used by Vu and Stewart 2000 (both from memory)",
            HowGot.ComputedIndependently,
            "the reference is given to 10 digits",
            [
                .. ReferenceGrid.Values(
                    "Frederiksen et al., w/c",
                    [0.35, 0.4, 0.45, 0.5],
                    [119.2719602, 168.448675, 224.210624, 285.5722748],
                    w => FrederiksenEtAl1997.FirstYearCoefficient(w).SquareMillimetresPerYear,
                    ReferenceGrid.Digits(10)
                ),
                .. ReferenceGrid.Values(
                    "Papadakis et al., w/c",
                    [0.4, 0.5],
                    [0.5621608976, 2.252789236],
                    w => PapadakisEtAl1996.Coefficient(w, 3).SquareMetresPerSecond / 1e-12,
                    ReferenceGrid.Digits(10)
                ),
            ]
        );
        var linear = new LinearIsotherm(0.08, 0.07);
        var langmuir = new LangmuirIsotherm(0.08, 0.39, 0.07);
        var freundlich = new FreundlichIsotherm(0.08, 1.05, 0.36);
        yield return new ReferenceCase(
            "transport/binding",
            "What the coefficient is divided by: 1 + (1/w) dCb/dCf",
            "w 0.08; linear 0.07; Langmuir 0.39, 0.07; Freundlich 1.05, 0.36; Cf in kg/m³ of pore solution",
            "constants as in Martín-Pérez et al. 2000 (from memory)",
            HowGot.ComputedIndependently,
            "the reference is given to 7 or 8 digits",
            [
                .. Bracket("linear", linear, [1.875, 1.875, 1.875, 1.875]),
                .. Bracket("Langmuir", langmuir, [5.2580138, 2.6868512, 1.95446, 1.4095778]),
                .. Bracket("Freundlich", freundlich, [5.725, 2.082435, 1.743066, 1.4855101]),
            ]
        );
        yield return new ReferenceCase(
            "transport/convection-zone",
            "Full deterministic form with convection zone and apparent ageing, closed form and engine",
            "D_RCM0 10e-12 m²/s, cover 50 mm, Δx 8.9 mm, C_SΔx 4.0, C0 0, t0 0.0767 yr, b 4800 K, Tref 293 K",
            "fib Bulletin 34 (2006) annex B2 / ISO 16204 (from memory), evaluated with 30 digits",
            HowGot.ComputedIndependently,
            "closed form: the reference has 10 digits, the coefficient [mm²/yr] 9; engine: its tolerance of 2e-4 of the largest content",
            [
                .. Bulletin34(0.30, 283, 10, 41.0335391, 0.6055045898),
                .. Bulletin34(0.30, 283, 50, 25.3190831, 1.656161876),
                .. Bulletin34(0.30, 283, 100, 20.5654859, 2.086476942),
                .. Bulletin34(0.60, 283, 10, 9.51869881, 0.01157604236),
                .. Bulletin34(0.60, 283, 50, 3.6240617, 0.1234139536),
                .. Bulletin34(0.60, 283, 100, 2.39098904, 0.2407151652),
                .. Bulletin34(0.45, 293, 10, 35.2583416, 0.4867469193),
                .. Bulletin34(0.45, 293, 50, 17.0893435, 1.280478082),
                .. Bulletin34(0.45, 293, 100, 12.5101317, 1.645065616),
            ]
        );
    }

    private static double UnitsPerPicometre => 31.5576;

    private static InstantaneousAgeing Ageing(double exponent) =>
        new(DiffusionCoefficient.FromSquareMetresPerSecond(10e-12), exponent, TwentyEightDays);

    private static Activation Bulletin34Activation => new(4800, Temperature.FromKelvin(293));

    private static IEnumerable<ReferenceValue> Binder(
        string name,
        double picometres,
        double exponent,
        double[] expected
    ) =>
        ReferenceGrid.Values(
            name + ", t",
            [10, 50],
            expected,
            t =>
                new InstantaneousAgeing(
                    DiffusionCoefficient.FromSquareMetresPerSecond(picometres * 1e-12),
                    exponent,
                    TwentyEightDays
                )
                    .ApparentAfter(TwentyEightDays, Age.FromYears(t))
                    .SquareMillimetresPerYear / UnitsPerPicometre,
            ReferenceGrid.Digits(13)
        );

    private static IEnumerable<ReferenceValue> Bracket(
        string name,
        BindingIsotherm isotherm,
        double[] expected
    ) =>
        ReferenceGrid.Values(
            name + ", Cf",
            [1, 10, 18, 35],
            expected,
            isotherm.Retardation,
            ReferenceGrid.Digits(7)
        );

    private static IEnumerable<ReferenceValue> Bulletin34(
        double exponent,
        double kelvin,
        double years,
        double coefficient,
        double content
    )
    {
        var law = new ApparentAgeing(
            DiffusionCoefficient.FromSquareMetresPerSecond(10e-12),
            exponent,
            Age.FromYears(0.0767)
        );
        double Clock() => Bulletin34Activation.Factor(kelvin - 273.15) * law.ClockMm2(0, years);
        var name = FormattableString.Invariant($"exponent {exponent}, {kelvin} K, t {years}");
        yield return new(
            "coefficient, " + name,
            coefficient,
            () => Clock() / years,
            ReferenceGrid.Digits(9)
        );
        yield return new(
            "closed form, " + name,
            content,
            () => 4 * HalfSpace.ConstantSurface(50 - 8.9, Clock()),
            ReferenceGrid.Digits(10)
        );
        yield return new(
            "engine, " + name,
            content,
            () =>
                SectionSolver
                    .Solve(
                        Bulletin34Section(law, kelvin),
                        [new IngressQuery(Age.FromYears(years), Depth.FromMillimetres(50))]
                    )
                    .Rows[0]
                    .Chloride.KilogramsPerCubicMetre,
            2e-4 * 4,
            IsAbsolute: true
        );
    }

    private static Section Bulletin34Section(ApparentAgeing law, double kelvin) =>
        new()
        {
            Layers =
            [
                new ConcreteLayer
                {
                    Name = "half space",
                    Thickness = Depth.FromMillimetres(600),
                    Diffusion = law,
                    InitialChloride = default,
                    Activation = Bulletin34Activation,
                },
            ],
            Surface = new ConstantSurface(ChlorideContent.FromKilogramsPerCubicMetre(4))
            {
                ConvectionDepth = Depth.FromMillimetres(8.9),
            },
            Bottom = BottomFace.Sealed,
            Temperature = new ConstantTemperature(Temperature.FromKelvin(kelvin)),
        };
}
