using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using Xunit;

namespace DeckLife.Tests.Projection;

public class DeckProjectorTests
{
    private static readonly Deck Plain = ExampleDecks.Plain;

    [Fact]
    public void Project_InterventionThatRemovesAndPlacesNothing_EqualsDoingNothingBitForBit()
    {
        var deck = Plain with
        {
            Strategies =
            [
                ExampleDecks.Nothing,
                new() { Name = "idle", Interventions = [new() { At = Age.FromYears(3) }] },
                new()
                {
                    Name = "idle by 0 mm",
                    Interventions =
                    [
                        new()
                        {
                            At = Age.FromYears(3),
                            Removal = new FixedDepthRemoval(Depth.FromMillimetres(0)),
                        },
                    ],
                },
            ],
        };

        var result = ExampleDecks.Project(deck);

        foreach (var idle in result.Strategies.Skip(1))
        {
            Assert.Equal(result.Strategies[0].Curve.AsEnumerable(), idle.Curve);
            Assert.Equal(result.Strategies[0].ServiceLife, idle.ServiceLife);
            Assert.Equal(result.Strategies[0].Cost, idle.Cost);
        }
    }

    [Fact]
    public void Project_EqualStrategies_DifferByExactlyZero()
    {
        var deck = Plain with
        {
            Strategies =
            [
                ExampleDecks.Overlay("a", 2, 10, 50),
                ExampleDecks.Overlay("b", 2, 10, 50),
            ],
        };

        var result = ExampleDecks.Project(deck);

        Assert.Equal(result.Strategies[0].Curve.AsEnumerable(), result.Strategies[1].Curve);
        Assert.Equal(result.Strategies[0].Cost, result.Strategies[1].Cost);
        Assert.Equal(0.5, result.Strategies[0].CheapestProbability);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(8)]
    public void Project_AnyNumberOfThreads_SameNumbers(int threads)
    {
        var one = ExampleDecks.Project(
            Plain with
            {
                Analysis = Plain.Analysis with { Threads = 1, Seed = 0 },
            }
        );
        var many = ExampleDecks.Project(
            Plain with
            {
                Analysis = Plain.Analysis with { Threads = threads, Seed = 0 },
            }
        );

        Assert.Equal(
            one.Strategies.SelectMany(s => s.Curve),
            many.Strategies.SelectMany(s => s.Curve)
        );
        Assert.Equal(
            one.Strategies.Select(s => (s.ServiceLife, s.Cost, s.CheapestProbability)),
            many.Strategies.Select(s => (s.ServiceLife, s.Cost, s.CheapestProbability))
        );
    }

    [Fact]
    public void Project_NothingUnknown_BandCollapses()
    {
        var deck = Plain with
        {
            Threshold = Plain.Threshold with { WithinDeckShare = 1 },
            Propagation = Plain.Propagation with { Period = UncertainValue.Exactly(5) },
            Materials =
            [
                Plain.Materials[0] with
                {
                    DiffusionCoefficient = UncertainValue.Exactly(8),
                },
            ],
            // The draws still move the point set: 1024 points leave 8e-4 (one standard deviation) of that in a share.
            Analysis = Plain.Analysis with
            {
                Draws = 20,
                Points = 1024,
            },
            Strategies = [Plain.Strategies[0], Plain.Strategies[1]],
        };

        var result = ExampleDecks.Project(deck, ExampleDecks.Fitted(0));

        foreach (var point in result.Strategies.SelectMany(s => s.Curve))
        {
            Assert.InRange(point.Damaged.P95 - point.Damaged.P05, 0, 4e-3);
            Assert.InRange(point.Initiated.P95 - point.Initiated.P05, 0, 4e-3);
        }
    }

    [Fact]
    public void Project_NoSpreadAndNothingUnknown_EqualsTheClosedForm()
    {
        var deck = Plain with
        {
            StatedCoverMm = UncertainValue.Exactly(55),
            Threshold = Plain.Threshold with { Content = UncertainValue.Exactly(1.5) },
            Propagation = Plain.Propagation with { Period = UncertainValue.Exactly(4) },
            Strategies = [ExampleDecks.Nothing],
            Horizon = Age.FromYears(100),
        };

        var result = ExampleDecks.Project(deck, ExampleDecks.Fitted(0, 0));

        // t = x² / (4 D erfc⁻¹((Ct − C0)/(Cs − C0))²), 25 yr of exposure at the survey, 4 yr to damage.
        var inverse = MathNet.Numerics.SpecialFunctions.ErfcInv((1.5 - 0.1) / (6 - 0.1));
        var end = 55.0 * 55 / (4 * 35 * inverse * inverse) - 25 + 4;
        var damaged = result.Strategies[0].Curve.First(p => p.Damaged.P50 > 0).TimeYr;
        Assert.True(end > 0);
        Assert.Equal(Math.Ceiling(end), damaged);
        Assert.All(
            result.Strategies[0].Curve,
            p => Assert.Equal(p.TimeYr >= end ? 1.0 : 0.0, p.Damaged.P05)
        );
    }

    [Fact]
    public void Project_DefaultStrategies_SharesRiseAndBandsAreOrdered()
    {
        var result = ExampleDecks.Project(Plain);

        Assert.Equal(3, result.Strategies.Length);
        foreach (var strategy in result.Strategies)
        {
            for (var j = 0; j < strategy.Curve.Length; j++)
            {
                var p = strategy.Curve[j];
                Assert.InRange(p.Damaged.P05, 0, p.Damaged.P50);
                Assert.InRange(p.Damaged.P95, p.Damaged.P50, 1);
                Assert.InRange(p.Damaged.P50, 0, p.Initiated.P50 + 1e-12);
                if (j >= 2)
                {
                    Assert.InRange(p.Damaged.P50, strategy.Curve[j - 1].Damaged.P50, 1);
                }
            }
        }

        Assert.Equal(1, result.Strategies.Sum(s => s.CheapestProbability!.Value), 12);
    }

    [Fact]
    public void Project_DamagedShareAtTheIntervention_IsRepaired()
    {
        var result = ExampleDecks.Project(
            Plain with
            {
                Strategies = [ExampleDecks.Nothing, ExampleDecks.Overlay("overlay", 10, 10, 50)],
            }
        );

        var nothing = result.Strategies[0].Curve;
        var overlay = result.Strategies[1].Curve;
        Assert.Equal(nothing.Take(11), overlay.Take(11));
        Assert.True(overlay[11].Damaged.P50 < 0.5 * nothing[11].Damaged.P50);
        Assert.True(
            overlay[11].Damaged.P50 > 0,
            "active bars that are not undercut go on corroding"
        );
        Assert.Equal(
            nothing[10].Damaged.P50,
            result.Strategies[1].Interventions[0].RepairedFraction.P50,
            12
        );
    }

    [Theory]
    [InlineData(StructureKind.PostTensioned)]
    [InlineData(StructureKind.Precast)]
    public void Project_RemovalBelowTopBarsOfSuchADeck_IsRefusedWithItsReason(StructureKind kind)
    {
        var result = ExampleDecks.Project(
            Plain with
            {
                Structure = kind,
                Strategies = [ExampleDecks.Nothing, ExampleDecks.Overlay("deep", 0, 80, 80)],
            }
        );

        Assert.Single(result.Strategies);
        Assert.Equal("DL4003", Assert.Single(result.Refused).Reason.Code);
    }

    [Fact]
    public void Project_UnusableDeck_EveryReasonAtOnce()
    {
        var refused = Assert.Throws<ProjectionRefusedException>(() =>
            ExampleDecks.Project(
                Plain with
                {
                    StatedCoverMm = null,
                    DamageLimit = 0,
                    Extraction = ChlorideExtraction.WaterSoluble,
                }
            )
        );

        Assert.Equal(["DL4001", "DL4002", "DL4014"], refused.Problems.Select(p => p.Code).Order());
    }

    [Fact]
    public void Project_ASpreadOfPropagation_MovesTheLifeOnlyThroughItsOwnMean()
    {
        // All ignorance or all within the deck: the band narrows, the middle hardly moves.
        var unknown = ExampleDecks.Project(Plain).Strategies[0].ServiceLife;
        var spatial = ExampleDecks
            .Project(Plain with { Propagation = Plain.Propagation with { WithinDeckShare = 1 } })
            .Strategies[0]
            .ServiceLife;

        Assert.NotNull(unknown.P50Yr);
        Assert.InRange(spatial.P50Yr!.Value - unknown.P50Yr!.Value, -2, 2);
    }

    [Fact]
    public void Project_Cancelled_Throws()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();

        Assert.ThrowsAny<OperationCanceledException>(() =>
            DeckProjector.Project(Plain, ExampleDecks.Fit, [], null, source.Token)
        );
    }

    [Fact]
    public void Project_PatchingADeckWithoutDamage_IsDoingNothingThroughTheLayeredSolver()
    {
        // Nothing is damaged after 6 yr, so that nothing is removed: the layered solver has to go on where the closed form was.
        var deck = Plain with
        {
            ExposureAge = Age.FromYears(6),
            Threshold = Plain.Threshold with { Content = new(1.5, 0.2, SpreadShape.Lognormal) },
            Strategies =
            [
                ExampleDecks.Nothing,
                new()
                {
                    Name = "patches",
                    Interventions =
                    [
                        new() { At = Age.FromYears(0), Removal = new UnsoundAreaRemoval() },
                    ],
                },
            ],
        };

        var result = ExampleDecks.Project(deck);

        var nothing = result.Strategies[0].Curve;
        var patches = result.Strategies[1].Curve;
        Assert.InRange(result.Strategies[1].Interventions[0].RepairedFraction.P95, 0, 1e-4);
        Assert.InRange(nothing[^1].Damaged.P50, 0.2, 1);
        for (var j = 0; j < nothing.Length; j++)
        {
            Assert.Equal(nothing[j].Damaged.P50, patches[j].Damaged.P50, 2e-3);
            Assert.Equal(nothing[j].Initiated.P95, patches[j].Initiated.P95, 2e-3);
        }

        Assert.Contains(result.Strategies[1].Flags, f => f.Code == "DL4018");
    }

    [Fact]
    public void Project_PatchesOnly_CountAsPatchedAndTheRestGoesOn()
    {
        var result = ExampleDecks.Project(
            Plain with
            {
                Strategies =
                [
                    ExampleDecks.Nothing,
                    new()
                    {
                        Name = "patches",
                        Interventions =
                        [
                            new() { At = Age.FromYears(5), Removal = new UnsoundAreaRemoval() },
                        ],
                    },
                ],
            }
        );

        var nothing = result.Strategies[0].Curve;
        var patches = result.Strategies[1].Curve;
        Assert.True(patches[6].Damaged.P50 < 0.5 * nothing[6].Damaged.P50);
        Assert.True(patches[6].DamagedOrPatched.P50 > patches[6].Damaged.P50);
        Assert.Equal(nothing[6].DamagedOrPatched.P50, patches[6].DamagedOrPatched.P50, 0.03);
    }
}
