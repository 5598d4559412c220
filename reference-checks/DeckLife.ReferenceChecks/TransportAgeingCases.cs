using DeckLife.Numerics.Diffusion;
using DeckLife.Quantities;
using DeckLife.Transport;

namespace DeckLife.ReferenceChecks;

/// <summary>Ageing, temperature and binding factors, and the full deterministic form of fib Bulletin 34.</summary>
public sealed class TransportAgeingCases : IReferenceCaseSet
{
    private static readonly Age TwentyEightDays = Age.FromDays(28);

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
                Apparent(0.2, 1, 6.97564596651),
                Apparent(0.2, 50, 3.405056566268),
                Apparent(0.4, 1, 4.958578536267),
                Apparent(0.4, 10, 2.258208310859),
                Apparent(0.6, 10, 1.157336100685),
                Apparent(0.6, 50, 0.4740178346412),
                new(
                    "instantaneous, m 0.6, t 50",
                    0.2048135482,
                    () => Ageing(0.6).InstantaneousMm2PerYear(0, 50) / UnitsPerPicometre,
                    1e-9
                ),
            ]
        );
        var outer = Activation.FromEnergy(41.8, Temperature.FromKelvin(293.15));
        yield return new ReferenceCase(
            "transport/temperature",
            "Factor of temperature on the coefficient",
            "exp(U/R (1/293.15 - 1/T)) and exp(4800 (1/293 - 1/T)), T in K",
            "Arrhenius' form; constants of Page, Short and El Tarras 1981 and fib Bulletin 34 (from memory)",
            HowGot.ComputedIndependently,
            "the reference is given to 12 digits",
            [
                Factor(
                    Activation.FromEnergy(35, Temperature.FromKelvin(293.15)),
                    "U 35",
                    283.15,
                    0.602215785984
                ),
                Factor(
                    Activation.FromEnergy(40, Temperature.FromKelvin(293.15)),
                    "U 40",
                    298.15,
                    1.31681292318
                ),
                Factor(outer, "U 41.8", 283.15, 0.545709006959),
                Factor(
                    new Activation(4800, Temperature.FromKelvin(293)),
                    "b 4800",
                    283,
                    0.560526822891
                ),
                Factor(
                    new Activation(4800, Temperature.FromKelvin(293)),
                    "b 4800",
                    303,
                    1.71715422683
                ),
            ]
        );
        var langmuir = new LangmuirIsotherm(0.08, 0.39, 0.07);
        var freundlich = new FreundlichIsotherm(0.08, 1.05, 0.36);
        yield return new ReferenceCase(
            "transport/binding",
            "What the coefficient is divided by: 1 + (1/w) dCb/dCf",
            "w 0.08; linear 0.07; Langmuir 0.39, 0.07; Freundlich 1.05, 0.36; Cf in kg/m³ of pore solution",
            "constants as in Martín-Pérez et al. 2000 (from memory)",
            HowGot.ComputedIndependently,
            "the reference is given to 7 digits",
            [
                new("linear", 1.875, () => new LinearIsotherm(0.08, 0.07).Retardation(10), 1e-12),
                new("Langmuir, Cf 1", 5.2580138, () => langmuir.Retardation(1), 1e-7),
                new("Langmuir, Cf 35", 1.4095778, () => langmuir.Retardation(35), 1e-7),
                new("Freundlich, Cf 1", 5.725, () => freundlich.Retardation(1), 1e-12),
                new("Freundlich, Cf 18", 1.743066, () => freundlich.Retardation(18), 1e-6),
            ]
        );
        yield return new ReferenceCase(
            "transport/convection-zone",
            "Full deterministic form with convection zone and apparent ageing, closed form and engine",
            "D_RCM0 10e-12 m²/s, cover 50 mm, Δx 8.9 mm, C_SΔx 4.0, C0 0, t0 0.0767 yr, b 4800 K, Tref 293 K",
            "fib Bulletin 34 (2006) annex B2 / ISO 16204 (from memory), evaluated with 30 digits",
            HowGot.ComputedIndependently,
            "closed form: the reference has 10 digits; engine: its tolerance of 2e-4 of the largest content",
            [
                Bulletin34(0.30, 283, 10, 0.6055045898, isEngine: false),
                Bulletin34(0.30, 283, 100, 2.086476942, isEngine: false),
                Bulletin34(0.60, 283, 10, 0.01157604236, isEngine: false),
                Bulletin34(0.60, 283, 50, 0.1234139536, isEngine: false),
                Bulletin34(0.45, 293, 50, 1.280478082, isEngine: false),
                Bulletin34(0.30, 283, 10, 0.6055045898, isEngine: true),
                Bulletin34(0.30, 283, 50, 1.656161876, isEngine: true),
                Bulletin34(0.60, 283, 100, 0.2407151652, isEngine: true),
                Bulletin34(0.45, 293, 10, 0.4867469193, isEngine: true),
                Bulletin34(0.45, 293, 100, 1.645065616, isEngine: true),
            ]
        );
    }

    private static double UnitsPerPicometre => 31.5576;

    private static InstantaneousAgeing Ageing(double exponent) =>
        new(DiffusionCoefficient.FromSquareMetresPerSecond(10e-12), exponent, TwentyEightDays);

    private static ReferenceValue Apparent(double exponent, double years, double expected) =>
        new(
            FormattableString.Invariant($"apparent, m {exponent}, t {years}"),
            expected,
            () =>
                Ageing(exponent)
                    .ApparentAfter(TwentyEightDays, Age.FromYears(years))
                    .SquareMillimetresPerYear / UnitsPerPicometre,
            1e-11
        );

    private static ReferenceValue Factor(
        Activation activation,
        string name,
        double kelvin,
        double expected
    ) =>
        new(
            FormattableString.Invariant($"{name}, {kelvin} K"),
            expected,
            () => activation.Factor(kelvin - 273.15),
            1e-10
        );

    private static ReferenceValue Bulletin34(
        double exponent,
        double kelvin,
        double years,
        double expected,
        bool isEngine
    )
    {
        var activation = new Activation(4800, Temperature.FromKelvin(293));
        var law = new ApparentAgeing(
            DiffusionCoefficient.FromSquareMetresPerSecond(10e-12),
            exponent,
            Age.FromYears(0.0767)
        );
        var name = FormattableString.Invariant(
            $"{(isEngine ? "engine" : "closed form")}, exponent {exponent}, {kelvin} K, t {years}"
        );
        if (!isEngine)
        {
            return new(
                name,
                expected,
                () =>
                    4
                    * HalfSpace.ConstantSurface(
                        50 - 8.9,
                        activation.Factor(kelvin - 273.15) * law.ClockMm2(0, years)
                    ),
                1e-9
            );
        }

        return new(
            name,
            expected,
            () =>
                SectionSolver
                    .Solve(
                        new Section
                        {
                            Layers =
                            [
                                new ConcreteLayer
                                {
                                    Name = "half space",
                                    Thickness = Depth.FromMillimetres(600),
                                    Diffusion = law,
                                    InitialChloride = default,
                                    Activation = activation,
                                },
                            ],
                            Surface = new ConstantSurface(
                                ChlorideContent.FromKilogramsPerCubicMetre(4)
                            )
                            {
                                ConvectionDepth = Depth.FromMillimetres(8.9),
                            },
                            Bottom = BottomFace.Sealed,
                            Temperature = new ConstantTemperature(Temperature.FromKelvin(kelvin)),
                        },
                        [new IngressQuery(Age.FromYears(years), Depth.FromMillimetres(50))]
                    )
                    .Rows[0]
                    .Chloride.KilogramsPerCubicMetre,
            2e-4 * 4,
            IsAbsolute: true
        );
    }
}
