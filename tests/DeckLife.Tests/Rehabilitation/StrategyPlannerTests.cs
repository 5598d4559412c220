using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Population;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using DeckLife.Tests.Projection;
using Xunit;

namespace DeckLife.Tests.Rehabilitation;

/// <summary>Plans of strategies on points made by hand; slab 200 mm, bars of 16 mm, background 0.1 kg/m³, surveyed after 25 years.</summary>
public class StrategyPlannerTests
{
    private const double Surface = 6;

    // The content at half of 2√s below the surface: C0 + (Cs − C0) erfc 0.5 (Abramowitz and Stegun, table 7.1).
    private const double Limit = 0.1 + ((Surface - 0.1) * 0.4795001221869535);

    private static readonly Deck Deck = ExampleDecks.Plain with
    {
        Materials =
        [
            ExampleDecks.Plain.Materials[0],
            ExampleDecks.Plain.Materials[0] with
            {
                Name = "short-lived",
                ServiceLife = new(20, 0.2, SpreadShape.Lognormal),
            },
        ],
        Protections = [Thin("sealer", ProtectionKind.Sealer), Thin("skin", ProtectionKind.Barrier)],
    };

    private static readonly AreaPoints OnePoint = Points(1, _ => 55, _ => 30);

    // 0.65, 1.30 ... 65.65 mm lie above the limit: s = 25 D, and the depth is √s.
    private static readonly AreaPoints Rising = Points(
        101,
        _ => 150,
        i => Math.Pow(0.65 * (i + 1), 2) / 25
    );

    [Theory]
    [InlineData(5, 100, new double[] { 35, 55, 65 })] // 33.15, 52.65 and 62.40 mm, rounded up to 5 mm
    [InlineData(40, 100, new double[] { 40, 55, 65 })]
    [InlineData(5, 50, new double[] { 35, 50 })]
    [InlineData(70, 100, new double[] { 70 })]
    public void Plan_RemovalToALimit_ClassesAreWhatHalfFourFifthsAndNineteenTwentiethsNeed(
        double least,
        double most,
        double[] expected
    ) =>
        Assert.Equal(
            expected,
            Planned(Deck, Rising, Of(0, ToLimit(least, most)))[0].DepthsMm.AsEnumerable()
        );

    [Fact]
    public void Plan_RemovalToALimitUnderAnOverlayJustPlaced_ClassesMoveWithTheSurface()
    {
        // 10 mm off and 50 mm on: 40 mm further from the new surface, and no time for the salt to move.
        var planned = Planned(
            Deck,
            Rising,
            Of(0, new FixedDepthRemoval(Mm(10)), 50),
            Of(0.05, ToLimit(10, 150))
        );

        Assert.Equal([75.0, 95, 105], planned[1].DepthsMm.AsEnumerable());
    }

    [Fact]
    public void Plan_RemovalThatWaitsForAnOverlay_DepthsAreThoseOfTheYearWhenItEnds()
    {
        ImmutableArray<double> Second(double at, bool waits) =>
            Planned(
                Deck,
                Rising,
                Of(0, new FixedDepthRemoval(Mm(10)), 50, "short-lived"),
                Of(at, ToLimit(10, 150)) with
                {
                    WhenOverlayEnds = waits,
                }
            )[1].DepthsMm;

        // The median life of mean 20 and coefficient of variation 0.2: 20/√1.04.
        var waiting = Second(1, true);
        Assert.Equal(Second(20 / Math.Sqrt(1.04), false).AsEnumerable(), waiting);
        Assert.NotEqual(Second(1, false).AsEnumerable(), waiting);
        // Not before its own date.
        Assert.Equal(Second(40, false).AsEnumerable(), Second(40, true));
    }

    [Fact]
    public void Plan_PointsInAnyOrder_SameClasses()
    {
        var falling = Points(101, _ => 150, i => Math.Pow(0.65 * (101 - i), 2) / 25);

        Assert.Equal(
            [35.0, 55, 65],
            Planned(Deck, falling, Of(0, ToLimit(5, 100)))[0].DepthsMm.AsEnumerable()
        );
    }

    [Fact]
    public void Plan_RemovalToALimitAfterPatchesOnly_IsThatOfTheSurveysProfile()
    {
        var planned = Planned(
            Deck,
            Rising,
            Of(0, new UnsoundAreaRemoval()),
            Of(0.05, ToLimit(5, 100))
        );

        Assert.Equal([35.0, 55, 65], planned[1].DepthsMm.AsEnumerable());
    }

    [Theory]
    [InlineData(190, 0, 0, false)] // 10 mm of the old concrete are left
    [InlineData(190.5, 0, 0, true)]
    [InlineData(220, 50, 20, false)] // an overlay of 50 mm on 180 mm
    [InlineData(220.5, 50, 20, true)]
    public void Plan_RemovalOfNearlyAll_RefusedBelowTheLeastThatHasToStay(
        double depth,
        double worn,
        double removedBefore,
        bool isRefused
    )
    {
        var deck =
            worn == 0
                ? Deck
                : Deck with
                {
                    ExistingOverlay = new()
                    {
                        Thickness = Mm(worn),
                        RemovedBefore = Mm(removedBefore),
                        AgeAtSurvey = Age.FromYears(5),
                    },
                };

        AssertRefusal(
            isRefused ? "DL4006" : null,
            deck,
            OnePoint,
            Of(0, new FixedDepthRemoval(Mm(depth)), 40)
        );
    }

    [Theory]
    [InlineData(40.0, 220, null)] // 10 mm off and 40 mm on: 230 mm
    [InlineData(40.0, 220.5, "DL4006")]
    [InlineData(null, 180, null)] // 10 mm off alone: 190 mm
    [InlineData(null, 180.5, "DL4006")]
    public void Plan_SecondRemoval_CountsWhatTheFirstLeft(
        double? placed,
        double depth,
        string? code
    ) =>
        AssertRefusal(
            code,
            Deck,
            OnePoint,
            Of(0, new FixedDepthRemoval(Mm(10)), placed),
            Of(5, new FixedDepthRemoval(Mm(depth)))
        );

    [Theory]
    [InlineData(StructureKind.PostTensioned, 2, null)] // one in a hundred is let pass
    [InlineData(StructureKind.PostTensioned, 3, "post-tensioned")]
    [InlineData(StructureKind.Precast, 3, "precast")]
    [InlineData(StructureKind.CastInPlace, 200, null)]
    public void Plan_RemovalPastTopBars_RefusedWhereItCanReleasePrestress(
        StructureKind structure,
        int shallow,
        string? said
    )
    {
        // 49 mm passes the middle of bars of 16 mm under 40 mm.
        var points = Points(200, i => i < shallow ? 40 : 100, _ => 30);
        var refusal = AssertRefusal(
            said is null ? null : "DL4003",
            Deck with
            {
                Structure = structure,
            },
            points,
            Of(0, new FixedDepthRemoval(Mm(49)), 50)
        );

        if (said is not null)
        {
            Assert.Contains(said, refusal!.Text, StringComparison.Ordinal);
            Assert.Contains("1.5 %", refusal.Text, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData(10, 40.0, 49, null)] // 70 mm of cover by then
    [InlineData(30, null, 19, "DL4003")] // 10 mm of cover by then
    [InlineData(30, null, 17, null)]
    public void Plan_SecondRemovalOfAPostTensionedDeck_CountsTheCoverOfThen(
        double first,
        double? placed,
        double second,
        string? code
    ) =>
        AssertRefusal(
            code,
            Deck with
            {
                Structure = StructureKind.PostTensioned,
            },
            Points(4, _ => 40, _ => 30),
            Of(0, new FixedDepthRemoval(Mm(first)), placed),
            Of(5, new FixedDepthRemoval(Mm(second)))
        );

    [Theory]
    [InlineData(StructureKind.PostTensioned, -200, "DL4003")] // nearly every active bar, and half of the passive ones
    [InlineData(StructureKind.PostTensioned, -800, null)] // none of either
    [InlineData(StructureKind.CastInPlace, -200, null)]
    public void Plan_RemovalByPotential_OpensBarsWhateverTheDepthElsewhere(
        StructureKind structure,
        double limitMv,
        string? code
    ) =>
        AssertRefusal(
            code,
            Deck with
            {
                Structure = structure,
            },
            OnePoint,
            Of(0, new HalfCellRemoval(Potential.FromMillivoltsCse(limitMv), Mm(0)), 40)
        );

    [Fact]
    public void Plan_RemovalByPotential_SaysTheShareThatItWouldOpen()
    {
        // Limit at the mean of passive bars: half of them. No salt at the bar, so that all are passive.
        var refusal = AssertRefusal(
            "DL4003",
            Deck with
            {
                Structure = StructureKind.Precast,
            },
            Points(4, _ => 180, _ => 5),
            Of(
                0,
                new HalfCellRemoval(Potential.FromMillivoltsCse(Deck.Surveys.PassiveMeanMv), Mm(0)),
                40
            )
        );

        Assert.Contains(" 50 %", refusal!.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, " 74.1 %")] // half of the bars active: of these 98.25 %, of the others 50 %
    [InlineData(49, " 87.1 %")] // half are undercut anyway, and of the rest 74.1 %
    public void Plan_RemovalByPotentialLater_CountsTheBarsActiveByThen(
        double elsewhereMm,
        string said
    )
    {
        // 1.88 kg/m³ at 40 mm after 25 years, 2.70 after 45; hardly any at 180 mm.
        var refusal = AssertRefusal(
            "DL4003",
            Deck with
            {
                Structure = StructureKind.Precast,
                Threshold = Deck.Threshold with { Content = UncertainValue.Exactly(2.2) },
            },
            Points(4, i => i < 2 ? 40 : 180, _ => 30),
            Of(
                20,
                new HalfCellRemoval(
                    Potential.FromMillivoltsCse(Deck.Surveys.PassiveMeanMv),
                    Mm(elsewhereMm)
                ),
                40
            )
        );

        Assert.Contains(said, refusal!.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(4, null)]
    [InlineData(5, "DL4008")]
    public void Plan_ManyOverlays_FourAreFollowed(int overlays, string? code) =>
        AssertRefusal(
            code,
            Deck,
            OnePoint,
            [
                .. Enumerable
                    .Range(0, overlays)
                    .Select(n => Of(10 * n, new FixedDepthRemoval(Mm(20)), 20)),
                Of(55, new FixedDepthRemoval(Mm(5))),
            ]
        );

    [Theory]
    [InlineData(5.0005, false, "DL4020")]
    [InlineData(5.002, false, null)]
    [InlineData(5, true, null)] // waits for the first to end
    public void Plan_TwoAtOneTime_RefusedUnlessOneWaits(double second, bool waits, string? code) =>
        AssertRefusal(
            code,
            Deck,
            OnePoint,
            Of(5, new FixedDepthRemoval(Mm(20)), 20, "short-lived"),
            Of(second, new FixedDepthRemoval(Mm(20)), 20) with
            {
                WhenOverlayEnds = waits,
            }
        );

    [Theory]
    [InlineData("dense", null, "DL4019")] // nothing is said of its life
    [InlineData("short-lived", null, null)]
    [InlineData("dense", "skin", null)]
    [InlineData("dense", "sealer", "DL4019")]
    public void Plan_WaitsForAnEnd_RefusedWhereNothingBeforeEnds(
        string material,
        string? thin,
        string? code
    ) =>
        AssertRefusal(
            code,
            Deck,
            OnePoint,
            Of(0, new FixedDepthRemoval(Mm(20)), 20, material) with
            {
                Protection = thin is null ? null : new(thin),
            },
            Of(1, new FixedDepthRemoval(Mm(20)), 20) with
            {
                WhenOverlayEnds = true,
            }
        );

    [Fact]
    public void Plan_WaitsForAnEnd_OneOfThoseBeforeIsEnough() =>
        AssertRefusal(
            null,
            Deck,
            OnePoint,
            Of(0, new FixedDepthRemoval(Mm(20)), 20, "short-lived"),
            Of(1, new UnsoundAreaRemoval()),
            Of(2, new FixedDepthRemoval(Mm(20)), 20) with
            {
                WhenOverlayEnds = true,
            }
        );

    [Theory]
    [InlineData(60, null)]
    [InlineData(60.1, "DL4007")]
    public void Plan_DateAroundTheHorizon_RefusedBeyondIt(double at, string? code) =>
        AssertRefusal(code, Deck, OnePoint, Of(at, new FixedDepthRemoval(Mm(20)), 20));

    [Theory]
    [InlineData("unheard of", null)]
    [InlineData("dense", "unheard of")]
    public void Plan_WhatIsNotDescribed_Refused(string material, string? thin)
    {
        var refusal = AssertRefusal(
            "DL4005",
            Deck,
            OnePoint,
            Of(0, null, 20, material) with
            {
                Protection = thin is null ? null : new(thin),
            }
        );

        Assert.Contains("\"unheard of\"", refusal!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Plan_OneOfSeveralIsRefused_SoIsTheStrategy() =>
        AssertRefusal(
            "DL4007",
            Deck,
            OnePoint,
            Of(70, new FixedDepthRemoval(Mm(20)), 20),
            Of(5, new FixedDepthRemoval(Mm(20)), 20)
        );

    [Fact]
    public void Plan_DatesOutOfOrder_AreDoneByDate()
    {
        var planned = Planned(
            Deck,
            OnePoint,
            Of(30, new FixedDepthRemoval(Mm(20)), 20, "short-lived"),
            Of(5, new FixedDepthRemoval(Mm(15)), 25)
        );

        Assert.Equal([5.0, 30], planned.Select(p => p.AtYr));
        Assert.Equal([0, 1], planned.Select(p => p.MaterialIndex));
        Assert.Equal(["dense", "short-lived"], planned.Select(p => p.Material!.Name));
        Assert.Equal([25.0, 20], planned.Select(p => p.ThicknessMm));
        Assert.Equal([15.0, 20], planned.Select(p => p.LeastDepthMm));
    }

    [Fact]
    public void Plan_WhatNeitherRemovesNorPlaces_IsLeftOut()
    {
        Assert.Empty(
            Planned(Deck, OnePoint, Of(3, null), Of(5, new FixedDepthRemoval(Mm(0)), null))
        );
        // Both change the places that they find.
        Assert.Single(Planned(Deck, OnePoint, Of(3, new UnsoundAreaRemoval())));
        var byPotential = Planned(
            Deck,
            OnePoint,
            Of(3, new HalfCellRemoval(Potential.FromMillivoltsCse(-350), Mm(0)))
        );
        Assert.Equal(-350, Assert.Single(byPotential).HalfCellLimitMv!.Value, 1e-9);
    }

    [Theory]
    [InlineData("sealer", false, false, null, false)] // a sealer is sprayed on as it is
    [InlineData("sealer", true, false, null, true)]
    [InlineData("sealer", false, true, null, true)]
    [InlineData("skin", false, false, null, true)]
    [InlineData(null, false, true, null, true)]
    [InlineData("sealer", false, false, true, true)]
    [InlineData("skin", false, false, false, false)]
    public void Plan_RepairsNotStated_DoneUnlessOnlyASealerGoesOn(
        string? thin,
        bool removes,
        bool places,
        bool? stated,
        bool expected
    )
    {
        var planned = Planned(
            Deck,
            OnePoint,
            Of(0, removes ? new FixedDepthRemoval(Mm(10)) : null, places ? 20 : null) with
            {
                Protection = thin is null ? null : new(thin, Mm(3)),
                RepairsDamage = stated,
            }
        );

        Assert.Equal(expected, planned[0].RepairsDamage);
        Assert.Equal(thin, planned[0].Protection?.Name);
        Assert.Equal(thin is null ? 0 : 3, planned[0].ProtectionThicknessMm);
    }

    private static List<PlannedIntervention> Planned(
        Deck deck,
        AreaPoints points,
        params Intervention[] interventions
    )
    {
        var plan = Plan(deck, points, interventions, out var refusal);
        Assert.Null(refusal);
        return [.. plan!.Interventions];
    }

    private static Diagnostic? AssertRefusal(
        string? code,
        Deck deck,
        AreaPoints points,
        params Intervention[] interventions
    )
    {
        var plan = Plan(deck, points, interventions, out var refusal);
        Assert.Equal(code, refusal?.Code);
        Assert.Equal(code is null, plan is not null);
        return refusal;
    }

    private static StrategyPlan? Plan(
        Deck deck,
        AreaPoints points,
        Intervention[] interventions,
        out Diagnostic? refusal
    )
    {
        var draw = new KnowledgeSampler(deck, ExampleDecks.Fit, new(0, 55, 10), 7, 20).Centre();
        return new StrategyPlanner(deck, draw, points, new(25)).Plan(
            new() { Name = "tried", Interventions = [.. interventions] },
            out refusal
        );
    }

    private static AreaPoints Points(
        int count,
        Func<int, double> cover,
        Func<int, double> diffusion
    )
    {
        double[] All(Func<int, double> value) => [.. Enumerable.Range(0, count).Select(value)];
        return new(All(cover), All(_ => Surface), All(diffusion), All(_ => 5), All(_ => 0));
    }

    private static Intervention Of(
        double at,
        RemovalRule? removal,
        double? placedMm = null,
        string material = "dense"
    ) =>
        new()
        {
            At = Age.FromYears(at),
            Removal = removal,
            Overlay = placedMm is { } thickness ? new(material, Mm(thickness)) : null,
        };

    private static ChlorideLimitRemoval ToLimit(double least, double most) =>
        new(ChlorideContent.FromKilogramsPerCubicMetre(Limit), Mm(least), Mm(most));

    private static SurfaceProtection Thin(string name, ProtectionKind kind) =>
        new()
        {
            Name = name,
            Kind = kind,
            PassingFraction = 0.2,
            ServiceLife = UncertainValue.Exactly(10),
            Source = "invented",
        };

    private static Depth Mm(double value) => Depth.FromMillimetres(value);
}
