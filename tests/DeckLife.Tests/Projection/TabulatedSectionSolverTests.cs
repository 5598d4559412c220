using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.Tests.Projection;

/// <summary>Tables of sections against every section solved by itself: shares of the deck area, draw by draw.</summary>
public class TabulatedSectionSolverTests(ITestOutputHelper output)
{
    private static readonly ExposureClock Clock = new(25, 0.1, 0.2);

    private static readonly Deck Deck = ExampleDecks.Plain with
    {
        AgeingExponent = 0.2,
        ConcreteAgeAtFirstSalt = Age.FromYears(0.1),
        Materials =
        [
            ExampleDecks.Plain.Materials[0] with
            {
                CrackedFraction = 0.05,
                CrackedDiffusionFactor = 6,
                InitialChloride = ChlorideContent.FromKilogramsPerCubicMetre(0.08),
                WithinDeckShare = 0.5,
            },
        ],
    };

    public static TheoryData<string> Works =>
        ["thin", "limit", "deep", "lowered", "twice", "patched first", "milled"];

    [Theory]
    [MemberData(nameof(Works))]
    public void Follow_ByFineTables_MissesSharesByLittle(string works) =>
        Compare(works, 2000, 512, 8e-4, 4e-3);

    [Theory]
    [MemberData(nameof(Works))]
    public void Follow_ByCoarseTables_MissesSharesByLittle(string works) =>
        Compare(works, 100, 64, 2e-3, 2e-2);

    private void Compare(string name, int draws, int count, double tolerance, double ofContents)
    {
        var deck = Deck with
        {
            Analysis = new()
            {
                Draws = draws,
                Points = count,
                Seed = 7,
            },
        };
        var cover = DeckProjector.CheckedCover(deck);
        var sampler = new KnowledgeSampler(deck, ExampleDecks.Fit, cover, 7, draws);
        var (plans, refused) = DeckProjector.Plan(
            deck with
            {
                Strategies = [StrategyOf(name)],
            },
            Clock,
            sampler.Centre(),
            deck.Analysis
        );
        Assert.Empty(refused);
        var tables = new TabulatedSectionSolver(
            SectionDomain.Of(deck, ExampleDecks.Fit, cover)!,
            new BatchedSectionSolver(),
            BatchedSectionSolver.OfNodes()
        );
        var exact = new BatchedSectionSolver(4e-4);
        var largest = 0.0;
        var worst = new BothSolvers(tables, exact);
        foreach (var k in new[] { 3, 17, 31, 44, 58, 77 })
        {
            var draw = sampler.Draw(k);
            var points = AreaPoints.From(
                draw.Population,
                UnitPoints.ForArea(7, k, 256, AreaPoints.Dimensions)
            );
            StrategyDraw Follow(ISectionSolver solver) =>
                new DrawProjector(
                    deck,
                    Clock,
                    solver,
                    ProjectionRun.SolverSteps,
                    draw,
                    points
                ).Follow(plans[0]);
            var both = new BothSolvers(tables, exact);
            var (read, solved) = (Follow(both), Follow(exact));
            worst = both.Largest > worst.Largest ? both : worst;
            for (var j = 0; j < solved.Damaged.Length; j++)
            {
                largest = Math.Max(largest, Math.Abs(read.Damaged[j] - solved.Damaged[j]));
                largest = Math.Max(largest, Math.Abs(read.Initiated[j] - solved.Initiated[j]));
            }
        }

        var made = tables.Tables;
        output.WriteLine(
            $"{name}: shares within {largest:E1}, contents within {worst.Largest:E1} of the surface content ({worst.Where}); {made.Count} tables within "
                + string.Join(", ", made.Select(t => $"{t.Error.Mean:E1}/{t.Error.Largest:E1}"))
        );
        Assert.NotEmpty(made);
        Assert.True(largest <= tolerance, $"{largest}");
        Assert.True(worst.Largest <= ofContents, $"{worst.Largest} at {worst.Where}");
    }

    // Answers as the first solver, and remembers where the second differs most.
    private sealed class BothSolvers(ISectionSolver first, ISectionSolver second) : ISectionSolver
    {
        public double Largest { get; private set; }

        public string Where { get; private set; } = "";

        public void Solve(SectionBatch batch, double[] contents)
        {
            first.Solve(batch, contents);
            var others = new double[contents.Length];
            second.Solve(batch, others);
            for (var t = 1; t < batch.TimesYr.Length; t++)
            {
                for (var i = 0; i < batch.Count; i++)
                {
                    var error =
                        Math.Abs(contents[t * batch.Count + i] - others[t * batch.Count + i])
                        / batch.OldSurfaceChloride[i];
                    if (error > Largest)
                    {
                        Largest = error;
                        Where =
                            $"{batch.TimesYr[t]} yr, {batch.RemovedMm[i]} mm off, bar at {batch.BarDepthMm[i]} mm, D {batch.OldDiffusion[i]} and {batch.LayerDiffusion[i]} mm2/yr";
                    }
                }
            }
        }
    }

    private static Strategy StrategyOf(string name) =>
        name switch
        {
            "thin" => ExampleDecks.Overlay(name, 1, 6, 40),
            "limit" => ExampleDecks.ToLimit(name, 2, 1.0, 50),
            "deep" => ExampleDecks.Overlay(name, 1, 62, 70),
            "lowered" => ExampleDecks.Overlay(name, 1, 90, 30),
            "twice" => new()
            {
                Name = name,
                Interventions =
                [
                    .. ExampleDecks.Overlay("", 1, 10, 40).Interventions,
                    .. ExampleDecks.Overlay("", 30, 30, 50).Interventions,
                ],
            },
            "patched first" => new()
            {
                Name = name,
                Interventions =
                [
                    new() { At = default, Removal = new UnsoundAreaRemoval() },
                    .. ExampleDecks.Overlay("", 8, 10, 40).Interventions,
                ],
            },
            _ => new()
            {
                Name = name,
                Interventions =
                [
                    new()
                    {
                        At = Age.FromYears(1),
                        Removal = new FixedDepthRemoval(Depth.FromMillimetres(12)),
                    },
                ],
            },
        };
}
