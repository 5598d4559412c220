using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Xunit;

namespace DeckLife.Tests.Projection;

/// <summary>What holds for every deck and strategy, over random small decks.</summary>
public class StrategyPropertiesTests
{
    [Property(MaxTest = 25)]
    public Property Project_AnyDeck_BetweenInterventionsDamageNeverFallsAndBandsAreOrdered() =>
        Prop.ForAll(
            Cases.ToArbitrary(),
            c =>
            {
                var result = ExampleDecks.Project(
                    c.Deck with
                    {
                        Strategies =
                        [
                            ExampleDecks.Nothing,
                            ExampleDecks.Overlay("overlay", c.AtYr, c.RemovalMm, c.ThicknessMm),
                            ExampleDecks.ToLimit("limit", c.AtYr, 1.0, c.ThicknessMm),
                            Patches(c.AtYr),
                        ],
                    },
                    c.Fit
                );
                Assert.Equal(4, result.Strategies.Length);
                foreach (var strategy in result.Strategies)
                {
                    // The yearly value at the intervention itself is the state before it.
                    for (var j = 0; j < strategy.Curve.Length; j++)
                    {
                        var p = strategy.Curve[j];
                        AssertOrdered(p.Damaged);
                        AssertOrdered(p.DamagedOrPatched);
                        AssertOrdered(p.Initiated);
                        Assert.True(p.Damaged.P50 <= p.DamagedOrPatched.P50);
                        var acts = !strategy.Strategy.Interventions.IsEmpty;
                        if (j == 0 || (acts && j == c.AtYr + 1))
                        {
                            continue;
                        }

                        var before = strategy.Curve[j - 1];
                        AssertNotBelow(before.Damaged, p.Damaged);
                        AssertNotBelow(before.DamagedOrPatched, p.DamagedOrPatched);
                        AssertNotBelow(before.Initiated, p.Initiated);
                    }
                }
            }
        );

    [Property(MaxTest = 25)]
    public Property Project_AnyDeck_IdleInterventionIsNothingAndEqualStrategiesAreEqual() =>
        Prop.ForAll(
            Cases.ToArbitrary(),
            c =>
            {
                var result = ExampleDecks.Project(
                    c.Deck with
                    {
                        Strategies =
                        [
                            ExampleDecks.Nothing,
                            new()
                            {
                                Name = "idle",
                                Interventions =
                                [
                                    new()
                                    {
                                        At = Age.FromYears(c.AtYr),
                                        Removal = new FixedDepthRemoval(Depth.FromMillimetres(0)),
                                    },
                                ],
                            },
                            ExampleDecks.Overlay("a", c.AtYr, c.RemovalMm, c.ThicknessMm),
                            ExampleDecks.Overlay("b", c.AtYr, c.RemovalMm, c.ThicknessMm),
                        ],
                    },
                    c.Fit
                );
                foreach (var pair in result.Strategies.Chunk(2))
                {
                    Assert.Equal(pair[0].Curve.AsEnumerable(), pair[1].Curve);
                    Assert.Equal(pair[0].ServiceLife, pair[1].ServiceLife);
                    Assert.Equal(pair[0].Cost, pair[1].Cost);
                }
            }
        );

    [Property(MaxTest = 25)]
    public Property Project_HigherThresholdOfAnUntreatedDeck_NeverMoreInitiatedOrDamaged() =>
        Prop.ForAll(
            Cases.ToArbitrary(),
            c =>
            {
                // The untreated deck alone: after an intervention a higher threshold repairs less, so the order needs no longer hold.
                var content = c.Deck.Threshold.Content;
                DeckProjection With(double mean) =>
                    ExampleDecks.Project(
                        c.Deck with
                        {
                            Threshold = c.Deck.Threshold with
                            {
                                Content = content with { Mean = mean },
                            },
                            Strategies = [ExampleDecks.Nothing],
                        },
                        c.Fit
                    );
                var low = With(content.Mean).Strategies[0].Curve;
                var high = With(1.3 * content.Mean).Strategies[0].Curve;
                for (var j = 0; j < low.Length; j++)
                {
                    AssertNotBelow(high[j].Damaged, low[j].Damaged);
                    AssertNotBelow(high[j].Initiated, low[j].Initiated);
                }
            }
        );

    private static Gen<Case> Cases { get; } =
        from at in Gen.Choose(0, 20)
        from removal in Gen.Choose(0, 60)
        from thickness in Gen.Choose(20, 80)
        from cover in Gen.Choose(30, 70)
        from exposure in Gen.Choose(3, 50)
        from threshold in Gen.Choose(6, 25)
        from period in Gen.Choose(2, 30)
        from within in Gen.Elements(0.0, 0.5, 1.0)
        from rate in Gen.Elements(0.5, 1.0, 2.0)
        from ageing in Gen.Elements(0.0, 0.3)
        from discrepancy in Gen.Elements(0.0, 0.3)
        from ignorance in Gen.Choose(0, 20)
        from seed in Gen.Choose(1, 10_000)
        select new Case(
            ExampleDecks.Plain with
            {
                StatedCoverMm = new(cover, 0.2, SpreadShape.Normal),
                ExposureAge = Age.FromYears(exposure),
                AgeingExponent = ageing,
                CorrosionRateUnderOverlay = rate,
                Threshold = ExampleDecks.Plain.Threshold with
                {
                    Content = new(threshold / 10.0, 0.3, SpreadShape.Lognormal),
                },
                Propagation = ExampleDecks.Plain.Propagation with
                {
                    Period = new(period / 2.0, 0.3, SpreadShape.Lognormal),
                    WithinDeckShare = within,
                },
                Surveys = ExampleDecks.Plain.Surveys with { ModelDiscrepancySd = discrepancy },
                Analysis = ExampleDecks.Plain.Analysis with
                {
                    Seed = (ulong)seed,
                    Draws = 20,
                    Points = 32,
                },
                Horizon = Age.FromYears(40),
            },
            ExampleDecks.Fitted(ignorance / 100.0),
            at,
            removal,
            thickness
        );

    private static Strategy Patches(double at) =>
        new()
        {
            Name = "patches",
            Interventions = [new() { At = Age.FromYears(at), Removal = new UnsoundAreaRemoval() }],
        };

    private static void AssertOrdered(PercentileBand band)
    {
        Assert.InRange(band.P05, 0, band.P50);
        Assert.InRange(band.P95, band.P50, 1);
    }

    private static void AssertNotBelow(PercentileBand lower, PercentileBand upper)
    {
        // A share is a sum of rounded normal probabilities over the points: equal shares of two years may differ in the last digits.
        const double Rounding = 1e-12;
        Assert.True(lower.P05 <= upper.P05 + Rounding, $"{lower} {upper}");
        Assert.True(lower.P50 <= upper.P50 + Rounding, $"{lower} {upper}");
        Assert.True(lower.P95 <= upper.P95 + Rounding, $"{lower} {upper}");
    }

    internal sealed record Case(
        Deck Deck,
        DeckLife.Fitting.DeckFit Fit,
        int AtYr,
        int RemovalMm,
        int ThicknessMm
    );
}
