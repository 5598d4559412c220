using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using DeckLife.Transport;
using Xunit;

namespace DeckLife.Tests.Projection;

/// <summary>
/// Salt through several interventions, held against the section solver of the transport engine: another mesh, other time steps, the whole
/// history from the first salt in one run. Tolerance: 3e-3 of the surface content.
/// </summary>
public class ColumnSolverTests
{
    private const double Surface = 6;
    private const double Cover = 55;
    private const double Deck = 35;
    private const double Overlay = 25;
    private const double Tolerance = 0.018;

    private static readonly ExposureClock Clock = new(25);

    [Fact]
    public void Solve_TwoOverlaysOneReplaced_AgreesWithTheTransportEngine()
    {
        // 10 mm off and 50 mm on after 3 yr; the overlay and 15 mm more off and 60 mm on after 28 yr.
        var strategy = Two(3, 10, 50, 28, 65, 60);
        var ours = Highest(strategy, renewedAt: -1);

        var section = Section(Change(3, 10, 50), Change(28, 65, 60));
        AssertSame(
            section,
            ours,
            [3, 10, 28, 45, 60],
            t =>
                Cover
                + (
                    t <= 3 ? 0
                    : t <= 28 ? 40
                    : 35
                )
        );
    }

    [Fact]
    public void Solve_RepairedAtTheSecondOverlay_AgreesWithTheTransportEngine()
    {
        var strategy = Two(3, 10, 50, 28, 60, 30);
        var ours = Highest(strategy, renewedAt: 1);

        // Cover of 95 mm at the second intervention; the bar of 16 mm and 19.05 mm under it come out too.
        var deep = Cover + 40 + 16 + BarRule.ClearUnderBarMm;
        var section = Section(Change(3, 10, 50), Change(28, deep, 30 + deep - 60));
        AssertSame(section, ours, [45, 60], _ => Cover + 10, 29);
        Assert.InRange(ours.Highest(0, Cover, 28), 0, 1e-9);
    }

    [Fact]
    public void Solve_BarrierThatEnds_AgreesWithTheTransportEngine()
    {
        var deck = WithBarrier(life: 20);
        var strategy = new Strategy
        {
            Name = "membrane",
            Interventions = [new() { At = Age.FromYears(5), Protection = new("membrane") }],
        };
        var ours = Highest(strategy, renewedAt: -1, deck);

        var section = Section(
            new SectionChange { At = Age.FromYears(30), Surface = new SealedSurface() },
            new SectionChange { At = Age.FromYears(50), Surface = Salt }
        );
        AssertSame(section, ours, [15, 25, 40, 60], _ => Cover);
    }

    [Fact]
    public void Solve_LeakThroughABarrier_IsTheUnprotectedDeck()
    {
        var deck = WithBarrier(life: 20);
        var strategy = new Strategy
        {
            Name = "membrane",
            Interventions = [new() { At = Age.FromYears(5), Protection = new("membrane") }],
        };

        var leak = Highest(strategy, renewedAt: -1, deck, openAt: 0);

        AssertSame(Section(), leak, [10, 30, 60], _ => Cover);
    }

    [Fact]
    public void Solve_Sealer_AgreesWithTheTransportEngine()
    {
        var deck = ExampleDecks.Plain with
        {
            Protections =
            [
                new()
                {
                    Name = "silane",
                    Kind = ProtectionKind.Sealer,
                    PassingFraction = 0.6,
                    ServiceLife = UncertainValue.Exactly(10),
                    Source = "test",
                },
            ],
        };
        var strategy = new Strategy
        {
            Name = "seal",
            Interventions = [new() { At = Age.FromYears(2), Protection = new("silane") }],
        };
        var ours = Highest(strategy, renewedAt: -1, deck);

        var section = Section(
            new SectionChange
            {
                At = Age.FromYears(27),
                Surface = new ConstantSurface(
                    ChlorideContent.FromKilogramsPerCubicMetre(0.6 * Surface)
                ),
            },
            new SectionChange { At = Age.FromYears(37), Surface = Salt }
        );
        AssertSame(section, ours, [12, 30, 60], _ => Cover);
    }

    private static ConstantSurface Salt { get; } =
        new(ChlorideContent.FromKilogramsPerCubicMetre(Surface));

    private static Deck WithBarrier(double life) =>
        ExampleDecks.Plain with
        {
            Protections =
            [
                new()
                {
                    Name = "membrane",
                    Kind = ProtectionKind.Barrier,
                    PassingFraction = 0.05,
                    ServiceLife = UncertainValue.Exactly(life),
                    Source = "test",
                },
            ],
        };

    private static Strategy Two(
        double first,
        double firstRemoval,
        double firstThickness,
        double second,
        double secondRemoval,
        double secondThickness
    ) =>
        new()
        {
            Name = "two",
            Interventions =
            [
                .. ExampleDecks.Overlay("", first, firstRemoval, firstThickness).Interventions,
                .. ExampleDecks.Overlay("", second, secondRemoval, secondThickness).Interventions,
            ],
        };

    private static Column Highest(
        Strategy strategy,
        int renewedAt,
        Deck? on = null,
        int openAt = -1
    )
    {
        var deck = (on ?? ExampleDecks.Plain) with
        {
            Materials =
            [
                ExampleDecks.Plain.Materials[0] with
                {
                    DiffusionCoefficient = UncertainValue.Exactly(Overlay),
                },
            ],
        };
        var draw = new KnowledgeSampler(deck, ExampleDecks.Fit, new(0, 55, 10), 7, 20).Draw(3);
        var points = new AreaPoints([Cover], [Surface], [Deck], [5.0], [0.0]);
        var plan = new StrategyPlanner(deck, draw, points, Clock).Plan(strategy, out var refusal);
        Assert.Null(refusal);
        var untreated = new UntreatedArea(
            points,
            draw.Population.Threshold,
            draw.Population.BackgroundKgPerM3,
            Clock
        );
        var solver = new BatchedSectionSolver();
        var works = new WorkPlanner(deck, Clock, solver, draw, points, untreated).Depths(
            WorkSchedule.For(plan!, draw, 60).Works
        );
        return new ColumnSolver(
            deck,
            Clock,
            solver,
            ProjectionRun.SolverSteps,
            draw,
            points,
            untreated,
            works
        ).Solve(renewedAt, openAt, [0]);
    }

    private static SectionChange Change(double at, double removed, double placed) =>
        new()
        {
            At = Age.FromYears(25 + at),
            Remove = Depth.FromMillimetres(removed),
            Place = new()
            {
                Name = "overlay",
                Thickness = Depth.FromMillimetres(placed),
                Diffusion = new InstantaneousAgeing(
                    DiffusionCoefficient.FromSquareMillimetresPerYear(Overlay),
                    0.2,
                    Age.FromDays(90),
                    Age.FromYears(15)
                ),
                AgeAtStart = Age.FromDays(60),
                InitialChloride = default,
            },
        };

    private static Section Section(params SectionChange[] changes) =>
        new()
        {
            Layers =
            [
                new()
                {
                    Name = "deck",
                    Thickness = ExampleDecks.Plain.Thickness,
                    Diffusion = new ConstantDiffusion(
                        DiffusionCoefficient.FromSquareMillimetresPerYear(Deck)
                    ),
                    InitialChloride = ChlorideContent.FromKilogramsPerCubicMetre(0.1),
                },
            ],
            Surface = Salt,
            Bottom = BottomFace.Sealed,
            Changes = [.. changes],
        };

    // Both as the highest content that the bar has seen, since a year after the bar came to lie where it lies.
    private static void AssertSame(
        Section section,
        Column ours,
        double[] timesYr,
        Func<double, double> barMm,
        double sinceYr = -24
    )
    {
        var years = Enumerable
            .Range(0, (int)(timesYr[^1] - sinceYr) + 1)
            .Select(y => sinceYr + y)
            .ToArray();
        var result = SectionSolver.Solve(
            section,
            [
                .. years.Select(t => new IngressQuery(
                    Age.FromYears(25 + t),
                    Depth.FromMillimetres(barMm(t))
                )),
            ]
        );
        Assert.True(result.IsConverged);
        var highest = 0.0;
        for (var y = 0; y < years.Length; y++)
        {
            highest = Math.Max(highest, result.Rows[y].Chloride.KilogramsPerCubicMetre);
            if (timesYr.Contains(years[y]))
            {
                Assert.Equal(highest, ours.Highest(0, Cover, years[y]), Tolerance);
            }
        }

        Assert.True(highest > 0.05);
    }
}
