using System.Collections.Immutable;
using DeckLife.Decisions;
using DeckLife.Economics;
using DeckLife.Fitting;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Tests.Population;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.Tests.Projection;

public class DecisionAnalysisTests(ITestOutputHelper log)
{
    private static readonly Deck Deck = ExampleDecks.Plain with
    {
        Analysis = ExampleDecks.Plain.Analysis with { Draws = 300, Points = 32 },
    };

    private static readonly Lazy<DeckProjection> Projected = new(() => ExampleDecks.Project(Deck));

    [Fact]
    public void Of_PerfectKnowledge_IsTheRegretOfWhatWouldBeChosen()
    {
        var projection = Projected.Value;
        var information = ValueOfInformation.Of(projection)!;

        var chosen = projection.Strategies.Single(s => s.Strategy.Name == information.ChosenNow);
        Assert.Equal(chosen.ExpectedRegret!.Value, information.Perfect, 1e-6);
        Assert.Equal(projection.Strategies.Min(s => s.ExpectedRegret), chosen.ExpectedRegret);
        // No data are worth more than all of it.
        Assert.All(
            information.Offers,
            o => Assert.True(o.Value <= information.Perfect + (3 * o.ErrorOfValue))
        );
    }

    [Fact]
    public void Of_EqualStrategies_TieAndNothingDecides()
    {
        var projection = ExampleDecks.Project(
            Deck with
            {
                Strategies =
                [
                    ExampleDecks.Overlay("one", 0, 25, 50),
                    ExampleDecks.Overlay("same", 0, 25, 50),
                ],
            }
        );

        Assert.Equal(
            projection.Strategies[0].CheapestProbability,
            projection.Strategies[1].CheapestProbability
        );
        var drivers = RankDrivers.Of(projection)!;
        Assert.Equal(0, drivers.MeanDifference, 1e-9);
        Assert.Equal(0.5, drivers.LeadProbability);
        Assert.All(drivers.Drivers, d => Assert.Equal(0, d.Share));
    }

    [Fact]
    public void Of_UncertainPriceThatOnlyOneStrategyPays_DecidesBetweenThem()
    {
        // The overlay's price alone varies: it must be what the difference hangs on.
        var prices = Deck.Prices! with
        {
            Items =
            [
                .. Deck.Prices!.Items.Select(i =>
                    i.Item == "overlay" ? i with { CoefficientOfVariation = 2.5, Amount = 8000 } : i
                ),
            ],
        };
        var drivers = RankDrivers.Of(
            ExampleDecks.Project(
                Deck with
                {
                    Prices = prices,
                    Strategies = [ExampleDecks.Nothing, ExampleDecks.Overlay("overlay", 0, 25, 50)],
                }
            )
        )!;

        Assert.Equal("price: overlay", drivers.Drivers[0].Input);
        Assert.Equal(InputSource.Prices, drivers.Drivers[0].Source);
        Assert.True(drivers.Drivers[0].LeadsWhenLow != drivers.Drivers[0].LeadsWhenHigh);
    }

    [Fact]
    public void Of_Budgets_SharesLieBetweenZeroAndOneAndPointsAreMeasured()
    {
        var budgets = ErrorBudget.Of(Projected.Value);

        // Years and present value of three strategies.
        Assert.Equal(6, budgets.Length);
        Assert.All(
            budgets,
            b =>
            {
                Assert.All(b.Shares, s => Assert.InRange(s.Share, 0, 1));
                Assert.InRange(b.PointsShare!.Value, 0, 1);
                // The tolerance of one point's content is 0.4 %: far below what the points themselves leave open.
                Assert.InRange(b.SolverShare!.Value, 0, 0.02);
                Assert.Equal(b.PointsShare + b.SolverShare, b.NumericalShare);
                Assert.InRange(b.Together, 0, 1);
                Assert.True(b.MonteCarloError < b.StandardDeviation);
            }
        );
    }

    [Fact]
    public void Of_OtherSeeds_SharesScatterAsTheirStatedErrorSays()
    {
        const int Seeds = 5;
        var deck = new SimulatedDeck(new(), 99, 1).Survey(DeckTruth.Stated) with
        {
            DamageLimit = 0.3,
        };
        var fit = DeckFitter.Fit(
            [.. deck.Cores.Select(c => ProfileFitter.Fit(c))],
            DeckAnalysis.OptionsFor(deck) with
            {
                Sweeps = 2000,
                Draws = 2000,
            }
        );
        var budgets = Enumerable
            .Range(1, Seeds)
            .Select(seed =>
                ErrorBudget.Of(
                    DeckProjector.ProjectWithoutRecord(
                        deck with
                        {
                            Analysis = new()
                            {
                                Seed = (ulong)seed,
                                Draws = 1000,
                                Points = 64,
                            },
                        },
                        fit,
                        CancellationToken.None
                    )
                )[0]
            )
            .ToArray();

        log.WriteLine(
            FormattableString.Invariant(
                $"together {string.Join(", ", budgets.Select(b => FormattableString.Invariant($"{b.Together:F2}")))}; standard deviation {string.Join(", ", budgets.Select(b => FormattableString.Invariant($"{b.StandardDeviation:F2}")))} yr"
            )
        );
        foreach (var source in budgets[0].Shares.Select(s => s.Source).Order())
        {
            var shares = budgets.Select(b => b.Shares.Single(s => s.Source == source)).ToArray();
            var mean = shares.Average(s => s.Share);
            var scatter = Math.Sqrt(
                shares.Sum(s => (s.Share - mean) * (s.Share - mean)) / (Seeds - 1)
            );
            var stated = Math.Sqrt(shares.Average(s => s.Error * s.Error));
            log.WriteLine(
                FormattableString.Invariant(
                    $"{source}: {string.Join(", ", shares.Select(s => FormattableString.Invariant($"{s.Share:F3} ± {s.Error:F3}")))}; scatter {scatter:F3}, stated {stated:F3}"
                )
            );
            // χ² with four degrees of freedom lies below 18.5 in 999 of 1000: a scatter of at most 2.15 times what is stated.
            Assert.True(scatter <= 2.15 * stated + 0.005);
        }
    }

    [Fact]
    public void Of_NothingUnknownButTheThreshold_IsWhollyTheThresholds()
    {
        var deck = Deck with
        {
            Threshold = Deck.Threshold with { WithinDeckShare = 0 },
            Propagation = Deck.Propagation with { Period = new(5, 0, SpreadShape.Lognormal) },
            StatedCoverMm = new(70, 0.18, SpreadShape.Normal),
            Materials =
            [
                Deck.Materials[0] with
                {
                    DiffusionCoefficient = new(8, 0, SpreadShape.Lognormal),
                },
            ],
            Strategies = [ExampleDecks.Nothing],
        };
        var budget = ErrorBudget.Of(ExampleDecks.Project(deck, ExampleDecks.Fitted(0)))[0];

        var share = Assert.Single(budget.Shares);
        Assert.Equal(InputSource.Threshold, share.Source);
        // A smooth surface does not follow the kink where lives pass the horizon, and 32 points leave some noise.
        Assert.InRange(share.Share, 0.8, 1);
    }

    [Fact]
    public void Project_HorizonOfOneYearAndNoRate_EverythingIsFinite()
    {
        var projection = ExampleDecks.Project(
            Deck with
            {
                Horizon = Age.FromYears(1),
                DiscountRate = 0,
            }
        );

        Assert.All(
            projection.Strategies,
            s =>
            {
                Assert.True(double.IsFinite(s.Cost!.PresentValue.P50));
                Assert.Equal(s.Cost.PresentValue.P50, s.Cost.EquivalentAnnual, 1e-9);
                Assert.Equal(
                    s.Cost.Items.Sum(i => i.MeanPresentValue),
                    projection.Draws!.Of(s.Strategy.Name)!.PresentValues.Average(),
                    1e-6
                );
                Assert.Equal(
                    s.Cost.Items.Sum(i => i.MeanPresentValue),
                    s.Cost.MeanPresentValue,
                    1e-6
                );
            }
        );
        Assert.NotNull(ValueOfInformation.Of(projection));
    }

    [Fact]
    public void Of_Waiting_SameBitsOnAnyThreadsAndGainIsBounded()
    {
        var projection = Projected.Value;
        var one = SequentialDecision.Of(
            projection with
            {
                Deck = Deck with { Analysis = Deck.Analysis with { Threads = 1 } },
            },
            [5]
        );
        var four = SequentialDecision.Of(
            projection with
            {
                Deck = Deck with { Analysis = Deck.Analysis with { Threads = 4 } },
            },
            [5]
        );

        Assert.Equal(one.AsEnumerable(), four);
        var wait = Assert.Single(one);
        Assert.True(double.IsFinite(wait.Gain));
        Assert.InRange(wait.ActProbability + wait.EndsBeforeProbability, 0, 1 + 1e-12);
        Assert.Equal(wait.Gain, wait.GainOfDelay + wait.GainOfInformation, 1e-6);
    }

    [Theory]
    [InlineData(0, 5)]
    // What begins after the wait anyway stays as it is.
    [InlineData(10, 10)]
    public void Of_Waiting_PlainDelayIsWhatTheBestPlanOfThatDayAloneSaves(double at, double then)
    {
        var deck = Deck with { Strategies = [ExampleDecks.Overlay("overlay", at, 10, 50)] };
        var wait = Assert.Single(SequentialDecision.Of(Projected.Value with { Deck = deck }, [5]));

        // The same by hand, in the same draws: what is the cheaper on one half of them, nothing or the overlay of that day, is paid
        // for in the other half.
        var draws = DeckProjector
            .ProjectWithoutRecord(
                deck with
                {
                    Strategies =
                    [
                        ExampleDecks.Nothing,
                        .. deck.Strategies,
                        ExampleDecks.Overlay("then", then, 10, 50),
                    ],
                    Analysis = deck.Analysis with { Draws = SequentialDecision.Draws, Points = 64 },
                },
                ExampleDecks.Fit,
                default
            )
            .Draws!;
        var plans = new[] { draws.Of(ExampleDecks.Nothing.Name)!, draws.Of("then")! };
        var halves = Enumerable.Range(0, draws.Count).ToLookup(k => draws.Indices[k] % 2);
        var paid = halves.Sum(half =>
        {
            var plan = plans.MinBy(p => halves[1 - half.Key].Average(k => p.PresentValues[k]))!;
            return half.Sum(k => plan.PresentValues[k]);
        });
        var now = draws.Of("overlay")!.PresentValues;
        Assert.Equal("overlay", wait.Now);
        Assert.Equal(now.Average() - (paid / draws.Count), wait.GainOfDelay, 1e-6 * now.Average());
    }

    [Fact]
    public void Of_OtherModels_EachDiffersAsItsFormSays()
    {
        var ensemble = ModelEnsemble.Of(Projected.Value)!;

        var given = ensemble.Variants[0];
        Assert.Equal("as given", given.Form);
        Assert.Equal(Deck.Strategies.Select(s => s.Name), ensemble.Strategies);
        Assert.All(
            ensemble.Variants,
            v =>
            {
                Assert.Equal(3, v.ExpectedYears.Length);
                Assert.Contains(v.Lead, ensemble.Strategies);
                Assert.Equal(
                    v.ExpectedPresentValues.Min(),
                    v.ExpectedPresentValues[ensemble.Strategies.IndexOf(v.Lead)]
                );
            }
        );
        // Old concrete that goes on ageing lets less salt through: nothing ends earlier.
        var ageing = ensemble.Variants.Single(v =>
            v.Form.StartsWith("the old concrete goes on", StringComparison.Ordinal)
        );
        Assert.All(
            ageing.ExpectedYears.Zip(given.ExpectedYears),
            p => Assert.True(p.First >= p.Second - 0.25, $"{p.First} against {p.Second}")
        );
        // An overlay that does not age lets more through.
        var overlays = ensemble.Variants.Single(v => v.Form == "overlays do not age");
        Assert.All(
            overlays.ExpectedYears.Zip(given.ExpectedYears),
            p => Assert.True(p.First <= p.Second + 0.25, $"{p.First} against {p.Second}")
        );
    }

    [Fact]
    public void Of_NoPriceForTheEnd_NothingIsRanked()
    {
        var projection = ExampleDecks.Project(
            Deck with
            {
                Prices = Deck.Prices! with
                {
                    Items = [.. Deck.Prices!.Items.Where(i => i.Basis != PriceBasis.RenewedArea)],
                },
            }
        );
        var decision = DecisionAnalysis.Of(projection, [5]);

        Assert.Null(decision.Drivers);
        Assert.Null(decision.Information);
        Assert.Empty(decision.Waits);
        Assert.NotEmpty(decision.Budgets);
    }
}
