using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Transport;
using Xunit;

namespace DeckLife.Tests.Projection;

public class SoffitTests
{
    private const double Section = 200;
    private const double D = 60;
    private const double Background = 0.1;
    private const double Top = 6;
    private const double Soffit = 4;
    private const double Exposure = 40;

    private static readonly SoffitFace Face = new(Section, Soffit);

    // Both faces held from a uniform start, by eigenfunctions: another series than the reflections, and exact at any time.
    // Carslaw and Jaeger, Conduction of Heat in Solids, section 3.4 (derived anew): steady line less a sine series.
    private static double TwoSided(double x, double years)
    {
        var sum = Top + (Soffit - Top) * x / Section;
        for (var n = 1; n < 400; n++)
        {
            var start =
                2
                / (n * Math.PI)
                * ((Background - Top) - (n % 2 == 0 ? 1 : -1) * (Background - Soffit));
            sum +=
                start
                * Math.Sin(n * Math.PI * x / Section)
                * Math.Exp(-D * years * n * n * Math.PI * Math.PI / (Section * Section));
        }

        return sum;
    }

    [Theory]
    [InlineData(10)]
    [InlineData(40)]
    [InlineData(115)]
    public void Content_BothFacesHeld_EqualsTheEigenfunctionSeries(double years)
    {
        foreach (var x in new[] { 0, 5, 40, 60, 100, 150, 195, 200 })
        {
            Assert.Equal(
                TwoSided(x, years),
                Face.Content(x, 2 * Math.Sqrt(D * years), Background, Top),
                2e-4
            );
        }
    }

    [Fact]
    public void ContentsAtBars_SaltedUnderside_AreThoseOfTheSlab()
    {
        var covers = new double[] { 20, 60, 110, 170 };
        double[] All(double value) => [.. covers.Select(_ => value)];
        var points = new AreaPoints(covers, All(Top), All(D), All(5), All(0));
        var area = new UntreatedArea(
            points,
            PointDistribution.WithinDeck(UncertainValue.Exactly(1), 0, 0),
            Background,
            new(Exposure),
            Face
        );
        var contents = new double[covers.Length];

        area.ContentsAtBars(70, contents);

        for (var i = 0; i < covers.Length; i++)
        {
            Assert.Equal(TwoSided(covers[i], 70), contents[i], 2e-4);
            Assert.Equal(contents[i], area.ContentAtDepth(i, covers[i], 70), 1e-12);
        }
    }

    [Fact]
    public void Solve_NothingRemovedOrPlaced_GoesOnAlongTheSeries()
    {
        var found = Solved(removedMm: 0, layerMm: 0, barMm: [40, 60, 110, 150]);

        for (var i = 0; i < 4; i++)
        {
            var x = new double[] { 40, 60, 110, 150 }[i];
            // The projection's solver is let off at 0.4 % of the largest content, and the reservoir that stands for the face at a thousandth.
            Assert.Equal(TwoSided(x, Exposure + 25), found[1][i], 0.005 * Top);
            Assert.Equal(TwoSided(x, Exposure + 60), found[2][i], 0.005 * Top);
        }

        // Sealed, the lower places would hold far less.
        Assert.True(found[2][3] > 1.5);
    }

    [Fact]
    public void Solve_OverlayOverSaltedUnderside_EqualsTheTransportEngine()
    {
        var bars = new double[] { 70, 130, 180 };
        var found = Solved(removedMm: 20, layerMm: 40, bars);
        // The whole history in one run of the engine: another mesh, its own face at the bottom.
        var section = new Section
        {
            Layers =
            [
                new()
                {
                    Name = "deck",
                    Thickness = Depth.FromMillimetres(Section),
                    Diffusion = new ConstantDiffusion(
                        DiffusionCoefficient.FromSquareMillimetresPerYear(D)
                    ),
                    InitialChloride = ChlorideContent.FromKilogramsPerCubicMetre(Background),
                },
            ],
            Surface = Held(Top),
            Bottom = BottomFace.Exposed(Held(Soffit)),
            Changes =
            [
                new()
                {
                    At = Age.FromYears(Exposure),
                    Remove = Depth.FromMillimetres(20),
                    Place = new()
                    {
                        Name = "overlay",
                        Thickness = Depth.FromMillimetres(40),
                        Diffusion = new ConstantDiffusion(
                            DiffusionCoefficient.FromSquareMillimetresPerYear(8)
                        ),
                        InitialChloride = ChlorideContent.FromKilogramsPerCubicMetre(0),
                    },
                },
            ],
        };
        var rows = SectionSolver
            .Solve(
                section,
                [
                    .. new double[] { 25, 60 }.SelectMany(t =>
                        bars.Select(b => new IngressQuery(
                            Age.FromYears(Exposure + t),
                            Depth.FromMillimetres(b)
                        ))
                    ),
                ]
            )
            .Rows;

        for (var t = 0; t < 2; t++)
        {
            for (var i = 0; i < bars.Length; i++)
            {
                Assert.Equal(
                    rows[t * bars.Length + i].Chloride.KilogramsPerCubicMetre,
                    found[1 + t][i],
                    0.005 * Top
                );
            }
        }
    }

    [Fact]
    public void Project_SaltedUnderside_NeverLastsLongerThanSealed()
    {
        var deck = ExampleDecks.Plain with
        {
            Strategies = [ExampleDecks.Nothing, ExampleDecks.Overlay("overlay", 0, 25, 50)],
            Thickness = Depth.FromMillimetres(150),
        };
        var sealedBelow = ExampleDecks.Project(deck with { Soffit = new() { Source = "forms" } });
        var unstated = ExampleDecks.Project(deck);
        var salted = ExampleDecks.Project(
            deck with
            {
                Soffit = new() { SurfaceChloride = UncertainValue.Exactly(6), Source = "invented" },
            }
        );

        for (var s = 0; s < 2; s++)
        {
            // Stay-in-place forms say what is otherwise taken for granted: the same numbers.
            Assert.Equal(
                unstated.Strategies[s].Curve.AsEnumerable(),
                sealedBelow.Strategies[s].Curve
            );
            Assert.True(
                salted.Strategies[s].Curve[^1].Damaged.P50
                    >= unstated.Strategies[s].Curve[^1].Damaged.P50
            );
        }

        Assert.True(
            salted.Strategies[1].Curve[^1].Damaged.P50
                > unstated.Strategies[1].Curve[^1].Damaged.P50 + 0.005
        );
        Assert.Single(salted.Assumptions, a => a.Subject == "underside");
    }

    // Contents by time (0, 25, 60 yr after the change) and bar.
    private static double[][] Solved(double removedMm, double layerMm, double[] barMm)
    {
        var batch = new SectionBatch(barMm.Length)
        {
            TimesYr = [0, 25, 60],
            Background = Background,
            SoffitChloride = Soffit,
        };
        for (var i = 0; i < barMm.Length; i++)
        {
            batch.RemovedMm[i] = removedMm;
            batch.LayerThicknessMm[i] = layerMm;
            batch.OldThicknessMm[i] = Section - removedMm;
            batch.BarDepthMm[i] = barMm[i];
            batch.ProfileSpreadMm[i] = 2 * Math.Sqrt(D * Exposure);
            batch.OldSurfaceChloride[i] = batch.SurfaceChloride[i] = Top;
            batch.OldDiffusion[i] = D;
            batch.LayerDiffusion[i] = 8;
        }

        var contents = new double[3 * barMm.Length];
        new BatchedSectionSolver().Solve(batch, contents);
        return [.. contents.Chunk(barMm.Length)];
    }

    private static ConstantSurface Held(double content) =>
        new(ChlorideContent.FromKilogramsPerCubicMetre(content));
}
