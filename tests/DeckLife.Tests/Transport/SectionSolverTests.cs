using DeckLife.Numerics.Diffusion;
using DeckLife.Quantities;
using DeckLife.Transport;
using Xunit;

namespace DeckLife.Tests.Transport;

public class SectionSolverTests
{
    [Fact]
    public void Solve_FalseOrderOfRemovalDepth_PermeableOverlayBringsTheBarNearer()
    {
        // 38 mm overlay of D 30 on concrete whose profile was 6 erfc at 30·20; bar at 60 mm; 50 yr under the overlay.
        // More removal looks better and is not: content at the bar rises with it.
        double At(double removal) =>
            Content(
                Deck() with
                {
                    Changes =
                    [
                        new SectionChange
                        {
                            At = Age.FromYears(20),
                            Remove = Mm(removal),
                            Place = Layer("overlay", 38, 30),
                        },
                    ],
                },
                70,
                60 - removal + 38
            );

        var (least, some, most) = (At(7), At(30), At(45));
        Assert.True(least < some && some < most, $"{least}, {some}, {most}");
    }

    [Fact]
    public void Solve_SurfaceNamedByNoChange_GoesOnWithItsOwnTime()
    {
        // The law's time is not restarted by a change that names none: the ramp ends 10 yr after time 0, not after 16.
        var section = Deck() with
        {
            Surface = GrowingSurface.ToPlateau(C(6), Age.FromYears(10), 1),
            Changes = [new SectionChange { At = Age.FromYears(6), Remove = Mm(3) }],
        };

        Assert.Equal(3.6, Content(section, 6, 0), 1e-9);
        Assert.Equal(6, Content(section, 10, 0), 1e-9);
    }

    [Fact]
    public void Solve_LinearIsotherm_IsTheRescaledLinearProblemExactly()
    {
        var bound = Deck() with
        {
            Layers = [Layer("deck", 200, 56.25) with { Isotherm = new LinearIsotherm(0.08, 0.07) }],
        };

        // 1 + 0.07/0.08 = 1.875: D 56.25/1.875 = 30.
        foreach (var depth in new[] { 0.0, 10, 50, 120 })
        {
            Assert.Equal(
                6 * FiniteSlab.Content(200 - depth, 200, 30 * 25),
                Content(bound, 25, depth),
                6 * 2e-4
            );
        }
    }

    [Fact]
    public void Solve_ConvectionZone_ShiftsTheOriginAndHoldsTheLawAbove()
    {
        var section = Deck() with
        {
            Surface = new ConstantSurface(C(6)) { ConvectionDepth = Mm(10) },
        };
        var result = SectionSolver.Solve(section, [Ask(20, 4), Ask(20, 10), Ask(20, 50)]);

        Assert.Equal(6, result.Rows[0].Chloride.KilogramsPerCubicMetre, 1e-9);
        Assert.Equal(6, result.Rows[1].Chloride.KilogramsPerCubicMetre, 1e-9);
        Assert.Equal(
            6 * FiniteSlab.Content(150, 190, 600),
            result.Rows[2].Chloride.KilogramsPerCubicMetre,
            6 * 2e-4
        );
        Assert.Equal("DL3010", Assert.Single(result.Diagnostics).Code);
    }

    [Fact]
    public void Solve_CoarserThanItsTolerance_SaysHowFarOff()
    {
        var result = SectionSolver.Solve(
            Deck(),
            [Ask(20, 30)],
            new LayeredOptions { MaximumLevel = 1, RelativeTolerance = 1e-9 }
        );

        Assert.False(result.IsConverged);
        Assert.Equal("DL3009", Assert.Single(result.Diagnostics).Code);
        var exact = 6 * FiniteSlab.Content(170, 200, 600);
        Assert.InRange(
            Math.Abs(result.Rows[0].Chloride.KilogramsPerCubicMetre - exact),
            0,
            result.ErrorEstimateKgPerM3
        );
    }

    [Fact]
    public void Solve_NumbersBeyondAnyConcrete_NoContentRatherThanAWrongOne()
    {
        var result = SectionSolver.Solve(
            Deck() with
            {
                Layers =
                [
                    Layer("deck", 200, 1e308) with
                    {
                        Isotherm = new LinearIsotherm(0.1, 1e308),
                    },
                ],
            },
            [Ask(20, 30)]
        );

        Assert.False(result.IsComplete);
        Assert.Empty(result.Rows);
        Assert.Equal("DL3011", Assert.Single(result.Diagnostics).Code);
    }

    [Theory]
    [InlineData(1e300, 0.36)]
    [InlineData(1.0001e4, 0.36)]
    [InlineData(double.NaN, 0.36)]
    [InlineData(-1, 0.36)]
    [InlineData(1.05, 1e-300)]
    [InlineData(1.05, 0.0499)]
    [InlineData(1.05, 1.0001)]
    [InlineData(1.05, double.NaN)]
    public void FreundlichIsotherm_BeyondWhatCanBeComputed_Refused(double alpha, double beta) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new FreundlichIsotherm(0.08, alpha, beta));

    [Theory]
    [InlineData(1e300, 1)]
    [InlineData(-1, 1)]
    [InlineData(1, 1e300)]
    [InlineData(double.NaN, 1)]
    public void LangmuirIsotherm_BeyondWhatCanBeComputed_Refused(double alpha, double beta) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new LangmuirIsotherm(0.08, alpha, beta));

    public static TheoryData<BindingIsotherm> AtTheirBounds =>
        [
            new FreundlichIsotherm(
                0.08,
                FreundlichSorption.LargestAlpha,
                FreundlichSorption.LeastBeta
            ),
            new FreundlichIsotherm(0.08, FreundlichSorption.LargestAlpha, 1),
            new FreundlichIsotherm(0.08, 1e-300, FreundlichSorption.LeastBeta),
            new FreundlichIsotherm(0.08, 1e-300, 1),
            new LangmuirIsotherm(0.08, LangmuirSorption.Largest, LangmuirSorption.Largest),
            new LangmuirIsotherm(0.08, LangmuirSorption.Largest, 1e-300),
        ];

    // Nothing passes either face, so the content that the layer starts with stays, whatever binds it.
    [Theory]
    [MemberData(nameof(AtTheirBounds))]
    public void Solve_IsothermAtItsBounds_HoldsWhatItHeld(BindingIsotherm isotherm)
    {
        var layer = Layer("deck", 200, 30) with { Isotherm = isotherm, InitialChloride = C(0.2) };
        var sealedDeck = Deck() with { Layers = [layer], Surface = new SealedSurface() };

        Assert.Equal(0.2, Content(sealedDeck, 25, 30), 1e-9);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.2)]
    public void Solve_FreundlichThatBindsNextToNothing_IsTheOneThatBindsNothing(double initial)
    {
        Section With(BindingIsotherm isotherm) =>
            Deck() with
            {
                Layers =
                [
                    Layer("deck", 200, 30) with
                    {
                        Isotherm = isotherm,
                        InitialChloride = C(initial),
                    },
                ],
            };

        Assert.Equal(
            Content(With(new LinearIsotherm(0.08, 0)), 25, 30),
            Content(With(new FreundlichIsotherm(0.08, 1e-300, 0.36)), 25, 30),
            6 * 4e-4
        );
    }

    [Fact]
    public void Problems_OfEachKind_AreFound()
    {
        var deck = Deck();
        string Code(Section section, params IngressQuery[] queries) =>
            Assert.Single(SectionSolver.Problems(section, queries)).Code;

        Assert.Equal("DL3001", Code(deck with { Layers = [] }));
        Assert.Equal(
            "DL3002",
            Code(deck with { Layers = [Layer("thin", 0, 1), Layer("deck", 100, 1)] })
        );
        Assert.Equal(
            "DL3003",
            Code(
                deck with
                {
                    Layers =
                    [
                        Layer("deck", 100, 1) with
                        {
                            Diffusion = new InstantaneousAgeing(D(8), 1.2, Age.FromDays(28)),
                        },
                    ],
                }
            )
        );
        Assert.Equal(
            "DL3004",
            Code(
                deck with
                {
                    Layers =
                    [
                        Layer("deck", 100, 1) with
                        {
                            Activation = new Activation(4800, Temperature.FromCelsius(20)),
                        },
                    ],
                }
            )
        );
        Assert.Equal(
            "DL3005",
            Code(
                deck with
                {
                    Layers =
                    [
                        Layer("a", 50, 1) with
                        {
                            Isotherm = new LinearIsotherm(0.1, 0),
                        },
                        Layer("b", 50, 1),
                    ],
                }
            )
        );
        Assert.Equal(
            "DL3006",
            Code(
                deck with
                {
                    Changes = [new SectionChange { At = Age.FromYears(1), Remove = Mm(195) }],
                }
            )
        );
        Assert.Equal(
            "DL3007",
            Code(deck with { Surface = new ConstantSurface(C(6)) { ConvectionDepth = Mm(195) } })
        );
        Assert.Equal("DL3008", Code(deck, Ask(10, 200.5)));
        Assert.Empty(SectionSolver.Problems(deck, [Ask(10, 200)]));
    }

    [Fact]
    public void Problems_RemovalBelowWhatAnEarlierOverlayAdded_CountsIt()
    {
        // 200 - 25 + 50 = 225: removing 215 leaves the last 10 mm, removing 216 does not.
        Section With(double second) =>
            Deck() with
            {
                Changes =
                [
                    new SectionChange
                    {
                        At = Age.FromYears(5),
                        Remove = Mm(25),
                        Place = Layer("overlay", 50, 10),
                    },
                    new SectionChange { At = Age.FromYears(9), Remove = Mm(second) },
                ],
            };

        Assert.Empty(SectionSolver.Problems(With(215), [Ask(10, 10)]));
        Assert.Equal("DL3006", SectionSolver.Problems(With(216), [])[0].Code);
        Assert.Equal(10, Content(With(215), 10, 10) >= 0 ? 10 : 0);
    }

    [Fact]
    public void Solve_TwoChangesAtOneTime_ApplyInTheOrderListed()
    {
        var section = Deck() with
        {
            Changes =
            [
                new SectionChange
                {
                    At = Age.FromYears(5),
                    Remove = Mm(20),
                    Place = Layer("first", 30, 10),
                },
                new SectionChange
                {
                    At = Age.FromYears(5),
                    Remove = Mm(10),
                    Place = Layer("second", 40, 10),
                },
            ],
        };
        var result = SectionSolver.Solve(section, [Ask(6, 40), Ask(6, 41), Ask(6, 61)]);

        // 40 mm of the second over what is left of the first, 20 mm, over the deck.
        Assert.Equal(["second", "first", "deck"], result.Rows.Select(r => r.Layer));
    }

    [Fact]
    public void Solve_Twice_SameBytes()
    {
        var once = SectionSolver.Solve(Deck(), [Ask(20, 30)]).Rows[0];
        var again = SectionSolver.Solve(Deck(), [Ask(20, 30)]).Rows[0];
        Assert.Equal(once, again);
    }

    private static double Content(Section section, double years, double depth) =>
        SectionSolver.Solve(section, [Ask(years, depth)]).Rows[0].Chloride.KilogramsPerCubicMetre;

    private static IngressQuery Ask(double years, double depth) =>
        new(Age.FromYears(years), Mm(depth));

    private static Section Deck() =>
        new()
        {
            Layers = [Layer("deck", 200, 30)],
            Surface = new ConstantSurface(C(6)),
            Bottom = BottomFace.Sealed,
        };

    private static ConcreteLayer Layer(string name, double thickness, double coefficient) =>
        new()
        {
            Name = name,
            Thickness = Mm(thickness),
            Diffusion = new ConstantDiffusion(D(coefficient)),
            InitialChloride = default,
        };

    private static Depth Mm(double value) => Depth.FromMillimetres(value);

    private static DiffusionCoefficient D(double value) =>
        DiffusionCoefficient.FromSquareMillimetresPerYear(value);

    private static ChlorideContent C(double value) =>
        ChlorideContent.FromKilogramsPerCubicMetre(value);
}
