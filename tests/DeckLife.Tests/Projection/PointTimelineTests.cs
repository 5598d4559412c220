using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using MathNet.Numerics;
using Xunit;

namespace DeckLife.Tests.Projection;

/// <summary>The timeline of one place, with the numbers that a reviewer gets by hand.</summary>
public class PointTimelineTests
{
    private static readonly Deck Deck = ExampleDecks.Plain with
    {
        CorrosionRateUnderOverlay = 0.5,
        Materials =
        [
            ExampleDecks.Plain.Materials[0] with
            {
                DiffusionCoefficient = UncertainValue.Exactly(8),
                ServiceLife = UncertainValue.Exactly(25),
            },
        ],
    };

    private static readonly TimelinePlace Place = new()
    {
        Cover = Depth.FromMillimetres(50),
        SurfaceChloride = ChlorideContent.FromKilogramsPerCubicMetre(6),
        Diffusion = DiffusionCoefficient.FromSquareMillimetresPerYear(30),
        Background = ChlorideContent.FromKilogramsPerCubicMetre(0.1),
        Threshold = ChlorideContent.FromKilogramsPerCubicMetre(1.5),
        Propagation = Age.FromYears(6),
    };

    // 50² / (4 · 30 · erfc⁻¹((1.5 − 0.1)/(6 − 0.1))²) − 25 yr.
    private static readonly double Initiation =
        50.0 * 50 / (4 * 30 * Math.Pow(SpecialFunctions.ErfcInv(1.4 / 5.9), 2)) - 25;

    [Fact]
    public void Of_NothingDone_InitiationAndDamageByHand()
    {
        var timeline = PointTimeline.Of(Deck, Place, ExampleDecks.Nothing);

        var fate = Assert.Single(timeline.Fates);
        Assert.Equal(-25, fate.FromYr);
        Assert.Equal(Initiation, fate.InitiationYr!.Value, 1e-6);
        Assert.Equal(Initiation + 6, fate.DamageYr!.Value, 1e-6);
        Assert.Empty(timeline.Events);
        var atSurvey = timeline.Rows.First(r => r.TimeYr == 0);
        Assert.Equal(
            0.1 + 5.9 * SpecialFunctions.Erfc(50 / (2 * Math.Sqrt(30.0 * 25))),
            atSurvey.ContentKgPerM3,
            1e-9
        );
        Assert.Equal(
            timeline.Rows.Select(r => r.Condition),
            timeline.Rows.Select(r =>
                r.TimeYr >= Initiation + 6 ? PointCondition.Damaged
                : r.TimeYr >= Initiation ? PointCondition.Active
                : PointCondition.Passive
            )
        );
    }

    [Fact]
    public void Of_OverlayOverAnActiveBar_ItsClockGoesOnAtHalfTheRate()
    {
        var at = Initiation + 2;
        var timeline = PointTimeline.Of(Deck, Place, ExampleDecks.Overlay("overlay", at, 6, 38));

        // 2 yr at the full rate, then 4 yr's worth at half of it.
        var fate = Assert.Single(timeline.Fates);
        Assert.Equal(Initiation, fate.InitiationYr!.Value, 1e-6);
        Assert.Equal(at + 8, fate.DamageYr!.Value, 1e-6);
        var done = Assert.Single(timeline.Events);
        Assert.Equal(6, done.RemovedMm);
        Assert.Equal(38, done.PlacedMm);
        Assert.False(done.IsRepaired);
        Assert.Equal(done.ContentBeforeKgPerM3, done.ContentAfterKgPerM3, 0.02);
        Assert.Equal(82, timeline.Rows[^1].CoverMm, 1e-9);
        // The salt beneath goes on; what the bar has seen stays.
        Assert.True(timeline.Rows[^1].HighestKgPerM3 >= done.ContentBeforeKgPerM3 - 0.02);
    }

    [Fact]
    public void Of_DamageThenPatchThenOverlayReplaced_InOrder()
    {
        var strategy = new Strategy
        {
            Name = "patch, overlay, replace",
            Interventions =
            [
                new() { At = Age.FromYears(Initiation + 7), Removal = new UnsoundAreaRemoval() },
                .. ExampleDecks.Overlay("", Initiation + 12, 6, 38).Interventions,
                new()
                {
                    At = Age.FromYears(Initiation + 12),
                    WhenOverlayEnds = true,
                    Removal = new FixedDepthRemoval(Depth.FromMillimetres(38)),
                    Overlay = new("dense", Depth.FromMillimetres(45)),
                },
            ],
        };

        var timeline = PointTimeline.Of(Deck with { Horizon = Age.FromYears(70) }, Place, strategy);

        Assert.Equal(3, timeline.Events.Length);
        var patch = timeline.Events[0];
        Assert.True(patch.IsRepaired);
        // Cover, bar of 16 mm and 19.05 mm in clear under it; filled to the grade.
        Assert.Equal(50 + 16 + 19.05, patch.RemovedMm, 1e-9);
        Assert.Equal(patch.RemovedMm, patch.PlacedMm, 1e-9);
        Assert.Equal(0, patch.ContentAfterKgPerM3, 1e-9);
        Assert.Equal(timeline.Events[1].TimeYr + 25, timeline.Events[2].TimeYr, 1e-6);
        Assert.Equal(50 - 6 + 38 - 38 + 45, timeline.Rows[^1].CoverMm, 1e-9);
        Assert.Equal(2, timeline.Fates.Length);
        Assert.Equal(Initiation + 6, timeline.Fates[0].DamageYr!.Value, 1e-6);
        Assert.Equal(patch.TimeYr, timeline.Fates[1].FromYr);
        for (var j = 1; j < timeline.Rows.Length; j++)
        {
            Assert.True(timeline.Rows[j].TimeYr >= timeline.Rows[j - 1].TimeYr);
        }
    }

    [Fact]
    public void Of_MiddleOfADeck_TakesItsMedians()
    {
        var place = TimelinePlace.Middle(ExampleDecks.Plain, ExampleDecks.Fitted(0));

        Assert.Equal(55, place.Cover.Millimetres, 0.01);
        Assert.Equal(6, place.SurfaceChloride.KilogramsPerCubicMetre, 1e-9);
        Assert.Equal(35, place.Diffusion.SquareMillimetresPerYear, 1e-9);
        // Lognormal of mean 1.0 and coefficient of variation 0.35.
        Assert.Equal(1 / Math.Sqrt(1 + 0.35 * 0.35), place.Threshold.KilogramsPerCubicMetre, 1e-9);
    }

    [Fact]
    public void Of_StrategyThatIsRefused_Throws()
    {
        var refused = Assert.Throws<ProjectionRefusedException>(() =>
            PointTimeline.Of(Deck, Place, ExampleDecks.Overlay("all", 0, 200, 200))
        );

        Assert.Equal("DL4006", Assert.Single(refused.Problems).Code);
    }
}
