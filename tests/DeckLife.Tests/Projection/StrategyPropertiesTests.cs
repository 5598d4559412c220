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

    [Property(MaxTest = 10)]
    public Property Project_SeveralInterventions_BetweenThemDamageNeverFallsAndBandsAreOrdered() =>
        Prop.ForAll(
            Programmes.ToArbitrary(),
            c =>
            {
                var result = ExampleDecks.Project(c.Deck with { Strategies = [c.Strategy] }, c.Fit);
                var dates = c.Strategy.Interventions.Select(i => i.At.Years).ToHashSet();
                var strategy = Assert.Single(result.Strategies);
                for (var j = 0; j < strategy.Curve.Length; j++)
                {
                    var p = strategy.Curve[j];
                    AssertOrdered(p.Damaged);
                    AssertOrdered(p.DamagedOrPatched);
                    AssertOrdered(p.Initiated);
                    Assert.True(p.Damaged.P50 <= p.DamagedOrPatched.P50);
                    if (j == 0 || dates.Contains(strategy.Curve[j - 1].TimeYr))
                    {
                        continue;
                    }

                    AssertNotBelow(strategy.Curve[j - 1].Damaged, p.Damaged);
                    AssertNotBelow(strategy.Curve[j - 1].DamagedOrPatched, p.DamagedOrPatched);
                    AssertNotBelow(strategy.Curve[j - 1].Initiated, p.Initiated);
                }
            }
        );

    [Property(MaxTest = 5)]
    public Property Project_SeveralInterventions_IdleOnesAreNothingEqualOnesAreEqualThreadsDoNotMatter() =>
        Prop.ForAll(
            Programmes.ToArbitrary(),
            c =>
            {
                var withIdle = c.Strategy with
                {
                    Name = "with idle ones",
                    Interventions =
                    [
                        .. c.Strategy.Interventions.SelectMany(i =>
                            new[]
                            {
                                i,
                                new Intervention
                                {
                                    At = Age.FromYears(i.At.Years + 0.5),
                                    Removal = new FixedDepthRemoval(Depth.FromMillimetres(0)),
                                },
                            }
                        ),
                    ],
                };
                DeckProjection On(int threads) =>
                    ExampleDecks.Project(
                        c.Deck with
                        {
                            Strategies = [c.Strategy, withIdle, c.Strategy with { Name = "again" }],
                            Analysis = c.Deck.Analysis with { Threads = threads },
                        },
                        c.Fit
                    );
                var one = On(1);
                foreach (var other in one.Strategies.Skip(1))
                {
                    Assert.Equal(one.Strategies[0].Curve.AsEnumerable(), other.Curve);
                    Assert.Equal(one.Strategies[0].ServiceLife, other.ServiceLife);
                    Assert.Equal(one.Strategies[0].Cost, other.Cost);
                }

                foreach (var threads in new[] { 2, 8 })
                {
                    Assert.Equal(
                        one.Strategies.SelectMany(s => s.Curve),
                        On(threads).Strategies.SelectMany(s => s.Curve)
                    );
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

    private static Gen<(
        Deck Deck,
        DeckLife.Fitting.DeckFit Fit,
        Strategy Strategy
    )> Programmes { get; } =
        from c in Cases
        from count in Gen.Choose(1, 4)
        from kinds in Gen.ArrayOf(Gen.Choose(0, 5), count)
        from gaps in Gen.ArrayOf(Gen.Choose(1, 9), count)
        from rim in Gen.Elements<double?>(null, 1.0, 2.5)
        from cracked in Gen.Elements(0.0, 0.1)
        select (
            c.Deck with
            {
                Halo = rim is { } factor
                    ? new()
                    {
                        PatchSide = Depth.FromMillimetres(800),
                        Width = Depth.FromMillimetres(150),
                        RateFactor = factor,
                        Source = "test",
                    }
                    : null,
                Materials =
                [
                    c.Deck.Materials[0] with
                    {
                        CrackedFraction = cracked,
                        CrackedDiffusionFactor = 8,
                    },
                ],
                Protections =
                [
                    new()
                    {
                        Name = "membrane",
                        Kind = ProtectionKind.Barrier,
                        PassingFraction = 0.1,
                        ServiceLife = new(8, 0.3, SpreadShape.Lognormal),
                        Source = "test",
                    },
                    new()
                    {
                        Name = "silane",
                        Kind = ProtectionKind.Sealer,
                        PassingFraction = 0.6,
                        ServiceLife = new(5, 0.3, SpreadShape.Lognormal),
                        Source = "test",
                    },
                ],
            },
            c.Fit,
            new Strategy
            {
                Name = "programme",
                Interventions =
                [
                    .. kinds.Select(
                        (kind, n) => Step(kind, gaps.Take(n + 1).Sum(), c.RemovalMm, c.ThicknessMm)
                    ),
                ],
            }
        );

    private static Intervention Step(int kind, double at, double removal, double thickness)
    {
        var when = new Intervention { At = Age.FromYears(at) };
        var overlay = new OverlayPlacement("dense", Depth.FromMillimetres(thickness));
        return kind switch
        {
            0 => when with { Removal = new UnsoundAreaRemoval() },
            1 => when with
            {
                Removal = new FixedDepthRemoval(Depth.FromMillimetres(removal)),
                Overlay = overlay,
            },
            2 => when with { Protection = new("membrane", Depth.FromMillimetres(8)) },
            3 => when with { Protection = new("silane") },
            4 => when with
            {
                Removal = new HalfCellRemoval(
                    Potential.FromMillivoltsCse(-350),
                    Depth.FromMillimetres(5)
                ),
                Overlay = overlay,
            },
            _ => when with
            {
                Removal = new ChlorideLimitRemoval(
                    ChlorideContent.FromKilogramsPerCubicMetre(1.5),
                    Depth.FromMillimetres(5),
                    Depth.FromMillimetres(70)
                ),
                Overlay = overlay,
            },
        };
    }

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
