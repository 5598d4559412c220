using DeckLife.Numerics.Diffusion;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Xunit;

namespace DeckLife.Numerics.Tests.Diffusion;

public class LayeredSolverTests
{
    private const double Day = 1 / 365.25;

    [Fact]
    public void Solve_SlabFromOneDayOn_WithinItsEstimateAndATenthOfAPercent()
    {
        // Crank 1975 ch. 4 by images and eigenfunctions.
        List<LayeredQuery> queries = [];
        foreach (var time in new[] { Day, 0.1, 1, 10, 40, 200 })
        {
            queries.AddRange(
                new[] { 0.0, 1, 5, 25, 75, 200 }.Select(x => new LayeredQuery(time, x))
            );
        }

        var found = LayeredSolver.Solve(OneLayer(), queries);

        AssertWithin(found, queries, q => 5 * FiniteSlab.Content(200 - q.Depth, 200, 30 * q.Time));
    }

    [Theory]
    [InlineData(8, 40)]
    [InlineData(0.05, 500)]
    [InlineData(500, 0.05)]
    public void Solve_LayerOnThickDeck_AgreesWithTheTwoMediaSeries(double overlay, double deck)
    {
        var media = new TwoMedia(32, deck / overlay);
        List<LayeredQuery> queries = [];
        foreach (var time in new[] { Day, 1, 10, 25, 50 })
        {
            queries.AddRange(new[] { 1.0, 16, 32, 57, 82 }.Select(x => new LayeredQuery(time, x)));
        }

        var found = LayeredSolver.Solve(
            new LayeredProblem
            {
                Layers = [new DiffusionLayer(32, overlay, 0), new DiffusionLayer(2500, deck, 0)],
                Surface = BoundaryCondition.Constant(10),
            },
            queries
        );

        AssertWithin(found, queries, q => 10 * media.ConstantSurface(q.Depth, overlay * q.Time));
    }

    [Theory]
    [InlineData(20, 16)]
    [InlineData(20, 1)]
    public void Solve_ContactOfCleanAndSalted_AgreesWithCarslawAndJaeger(
        double clean,
        double salted
    )
    {
        List<LayeredQuery> queries = [];
        foreach (var time in new[] { Day, 1, 10 })
        {
            queries.AddRange(
                new[] { 480.0, 495, 500, 505, 520 }.Select(x => new LayeredQuery(time, x))
            );
        }

        var found = LayeredSolver.Solve(
            new LayeredProblem
            {
                Layers = [new DiffusionLayer(500, clean, 0), new DiffusionLayer(500, salted, 4)],
                Surface = BoundaryCondition.Sealed,
            },
            queries
        );

        AssertWithin(
            found,
            queries,
            q => HalfSpaceResidual.Contact(q.Depth - 500, clean * q.Time, salted * q.Time, 0, 4)
        );
    }

    [Theory]
    [InlineData(1)]
    [InlineData(0.5)]
    public void Solve_GrowingSurface_AgreesWithCranksClosedForms(double exponent)
    {
        List<LayeredQuery> queries =
        [
            .. new[] { 1.0, 10, 30 }.SelectMany(t =>
                new[] { 0.0, 5, 25, 50 }.Select(x => new LayeredQuery(t, x))
            ),
        ];
        var found = LayeredSolver.Solve(
            new LayeredProblem
            {
                Layers = [new DiffusionLayer(500, 30, 0)],
                Surface = BoundaryCondition.Varying(t => Math.Pow(t, exponent)),
            },
            queries
        );

        AssertWithin(found, queries, q => HalfSpace.PowerSurface(q.Depth, 30, q.Time, exponent));
    }

    [Fact]
    public void Solve_LinearThenHeld_StepsOnTheKink()
    {
        List<LayeredQuery> queries =
        [
            .. new[] { 15.0, 15.1, 30, 50 }.Select(t => new LayeredQuery(t, 10)),
        ];
        var found = LayeredSolver.Solve(
            new LayeredProblem
            {
                Layers = [new DiffusionLayer(600, 30, 0)],
                Surface = BoundaryCondition.Varying(t => 6 * Math.Min(1, t / 15)).With([15], [], 0),
            },
            queries
        );

        AssertWithin(
            found,
            queries,
            q => 6 * HalfSpace.LinearThenHeldSurface(q.Depth, 30, q.Time, 15)
        );
    }

    [Fact]
    public void Solve_SealedAfterExposure_AgreesWithTheImage()
    {
        List<LayeredQuery> queries = [new(20 + Day, 5), new(21, 0), new(25, 20), new(45, 50)];
        var found = LayeredSolver.Solve(
            new LayeredProblem
            {
                Layers = [new DiffusionLayer(700, 30, 0)],
                Surface = BoundaryCondition.Constant(6),
                Events = [new LayeredEvent(20) { Surface = BoundaryCondition.Sealed }],
            },
            queries
        );

        AssertWithin(
            found,
            queries,
            q =>
                HalfSpaceResidual.Sealed(
                    q.Depth,
                    30 * (q.Time - 20),
                    y => 6 * HalfSpace.ConstantSurface(y, 600),
                    600
                )
        );
    }

    [Fact]
    public void Solve_AtTheMomentOfAnEvent_SeesTheStateBefore()
    {
        var found = LayeredSolver.Solve(Overlaid(), [new(20, 50), new(0, 50), new(20 + 1e-6, 25)]);

        Assert.Equal(6 * HalfSpace.ConstantSurface(50, 600), found.Contents[0], 6 * 2e-4);
        Assert.Equal(0, found.Contents[1]);
        Assert.Equal(1, found.LayerIndices[2]);
    }

    [Fact]
    public void Solve_Interface_BelongsToTheLayerAbove()
    {
        var problem = new LayeredProblem
        {
            Layers =
            [
                new DiffusionLayer(40, 10, 0) { Sorption = new LinearSorption(2, 2) },
                new DiffusionLayer(160, 30, 3),
            ],
            Surface = BoundaryCondition.Constant(6),
        };
        var found = LayeredSolver.Solve(
            problem,
            [new(0, 40), new(0, 40.001), new(10, 40), new(10, 40 + 1e-6)]
        );

        Assert.Equal(0, found.Contents[0]);
        Assert.Equal(3, found.Contents[1]);
        Assert.Equal(0, found.LayerIndices[2]);
        Assert.Equal(1, found.LayerIndices[3]);
        // The total jumps by the ratio of the capacities, 2.
        Assert.Equal(2, found.Contents[2] / found.Contents[3], 1e-3);
    }

    [Theory]
    [InlineData(0.3)]
    [InlineData(7)]
    [InlineData(20)]
    public void Solve_StoppedAndRestarted_ChangesNothingAboveTheEstimates(double stop)
    {
        List<LayeredQuery> asked = [new(31, 25), new(31, 50), new(60, 75), new(60, 100)];
        var whole = LayeredSolver.Solve(Overlaid(), asked);

        var depths = Enumerable.Range(0, 801).Select(k => k * 0.25).ToArray();
        var state = LayeredSolver.Solve(
            Overlaid(),
            [.. depths.Select(x => new LayeredQuery(stop, x))]
        );
        double Stored(double x)
        {
            var k = Math.Min((int)(x / 0.25), depths.Length - 2);
            var share = (x - depths[k]) / 0.25;
            return ((1 - share) * state.Contents[k]) + (share * state.Contents[k + 1]);
        }

        var restarted = LayeredSolver.Solve(
            new LayeredProblem
            {
                Layers = [new DiffusionLayer(200, t => 30 * t, Stored)],
                Surface = BoundaryCondition.Constant(6),
                Events = Overlaid().Events,
                StartTime = stop,
            },
            asked
        );

        for (var k = 0; k < asked.Count; k++)
        {
            // The stored state is linear between 0.25 mm: its own error is h²/8 of the curvature, below 1e-3 at 0.3 yr.
            var allowed = whole.ErrorEstimate + state.ErrorEstimate + restarted.ErrorEstimate;
            Assert.Equal(whole.Contents[k], restarted.Contents[k], allowed);
        }
    }

    [Fact]
    public void Solve_EmptyEvent_ChangesNothing()
    {
        List<LayeredQuery> asked = [new(25, 10), new(40, 50)];
        var without = LayeredSolver.Solve(OneLayer(), asked);
        var with = LayeredSolver.Solve(OneLayer(new LayeredEvent(7) { Removal = 0 }), asked);
        // An event that names the same surface again is not empty, yet changes nothing above the estimates.
        var renamed = LayeredSolver.Solve(
            OneLayer(new LayeredEvent(7) { Surface = BoundaryCondition.Constant(5) }),
            asked
        );

        Assert.Equal(without.Contents, with.Contents);
        for (var k = 0; k < asked.Count; k++)
        {
            Assert.Equal(
                without.Contents[k],
                renamed.Contents[k],
                without.ErrorEstimate + renamed.ErrorEstimate
            );
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(50)]
    [InlineData(199)]
    public void Solve_LayerSplitInTwoEqualOnes_ChangesNothingAboveTheEstimates(double at)
    {
        List<LayeredQuery> asked = [new(Day, 1), new(10, 25), new(40, 50), new(40, 120)];
        var whole = LayeredSolver.Solve(OneLayer(), asked);
        var split = LayeredSolver.Solve(
            new LayeredProblem
            {
                Layers = [new DiffusionLayer(at, 30, 0), new DiffusionLayer(200 - at, 30, 0)],
                Surface = BoundaryCondition.Constant(5),
            },
            asked
        );

        for (var k = 0; k < asked.Count; k++)
        {
            Assert.Equal(
                whole.Contents[k],
                split.Contents[k],
                whole.ErrorEstimate + split.ErrorEstimate
            );
        }
    }

    [Fact]
    public void Solve_MirrorImage_IsSymmetric()
    {
        double[] depths = [0, 20, 50, 80, 100, 120, 150, 180, 200];
        LayeredSolution Solve(IReadOnlyList<DiffusionLayer> layers, IEnumerable<double> at) =>
            LayeredSolver.Solve(
                new LayeredProblem
                {
                    Layers = layers,
                    Surface = BoundaryCondition.Constant(5),
                    Bottom = BoundaryCondition.Constant(5),
                },
                [.. at.Select(x => new LayeredQuery(15, x))]
            );
        var down = Solve([new DiffusionLayer(80, 10, 1), new DiffusionLayer(120, 60, 2)], depths);
        var up = Solve(
            [new DiffusionLayer(120, 60, 2), new DiffusionLayer(80, 10, 1)],
            depths.Select(x => 200 - x)
        );

        for (var k = 0; k < depths.Length; k++)
        {
            Assert.Equal(down.Contents[k], up.Contents[k], down.ErrorEstimate + up.ErrorEstimate);
        }
    }

    [Fact]
    public void Solve_RemovalAcrossLayers_KeepsTheMassBelowTheCut()
    {
        // Sealed on both sides after removal of the whole first layer and 10 mm of the second: what is left stays.
        var found = LayeredSolver.Solve(
            new LayeredProblem
            {
                Layers = [new DiffusionLayer(40, 5, 8), new DiffusionLayer(60, 20, 2)],
                Surface = BoundaryCondition.Sealed,
                Events = [new LayeredEvent(0) { Removal = 50 }],
            },
            [new(5, 0), new(5, 25), new(5, 50)]
        );

        // Removed at time 0: the second layer is still uniform at 2.
        Assert.All(found.Contents, c => Assert.Equal(2, c, 1e-12));
        Assert.True(found.MassBalanceError < 1e-10);
    }

    [Fact]
    public void Solve_RemovingEverything_Throws() =>
        Assert.Throws<ArgumentException>(() =>
            LayeredSolver.Solve(OneLayer(new LayeredEvent(1) { Removal = 200 }), [new(5, 10)])
        );

    [Fact]
    public void Solve_DepthBelowTheSection_Throws() =>
        Assert.Throws<ArgumentException>(() => LayeredSolver.Solve(OneLayer(), [new(5, 201)]));

    [Fact]
    public void Solve_LinearCapacityEverywhere_IsTheRescaledProblem()
    {
        List<LayeredQuery> asked = [new(10, 20), new(40, 60)];
        // T = 2.5 u with mobility 1: the coefficient of the total is D/2.5.
        var bound = LayeredSolver.Solve(
            new LayeredProblem
            {
                Layers = [new DiffusionLayer(200, 50, 0) { Sorption = new LinearSorption(2.5, 1) }],
                Surface = BoundaryCondition.Constant(5),
            },
            asked
        );
        var plain = LayeredSolver.Solve(
            new LayeredProblem
            {
                Layers = [new DiffusionLayer(200, 20, 0)],
                Surface = BoundaryCondition.Constant(5),
            },
            asked
        );
        // The nonlinear path with a Langmuir law of β 0 must find the same.
        var newton = LayeredSolver.Solve(
            new LayeredProblem
            {
                Layers =
                [
                    new DiffusionLayer(200, 50, 0) { Sorption = new LangmuirSorption(1, 1.5, 0) },
                ],
                Surface = BoundaryCondition.Constant(5),
            },
            asked
        );

        for (var k = 0; k < asked.Count; k++)
        {
            // The meshes differ, as D does: each agrees with the exact solution within its estimate.
            var exact = 5 * FiniteSlab.Content(200 - asked[k].Depth, 200, 20 * asked[k].Time);
            Assert.Equal(exact, bound.Contents[k], bound.ErrorEstimate);
            Assert.Equal(exact, plain.Contents[k], plain.ErrorEstimate);
            Assert.Equal(bound.Contents[k], newton.Contents[k], 1e-9);
        }
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void March_HalvedMeshOrSteps_ErrorFallsWithTheSquare(bool isSpace)
    {
        // Two media, ageing: exact by the series in the clock. One of mesh and steps is kept fine while the other halves.
        var media = new TwoMedia(40, 4);
        List<LayeredQuery> asked = [new(30, 20), new(30, 60), new(5, 50)];
        double Clock(double t) => Math.Pow(t, 0.6) * 30;
        var problem = new LayeredProblem
        {
            Layers =
            [
                new DiffusionLayer(40, t => Clock(t), _ => 0) { IsUniform = true },
                new DiffusionLayer(900, t => 4 * Clock(t), _ => 0) { IsUniform = true },
            ],
            Surface = BoundaryCondition.Constant(1),
        };
        var errors = new List<double>();
        for (var level = 0; level <= 2; level++)
        {
            var kept = isSpace ? 0.01 : 0.02;
            var options = isSpace
                ? new LayeredOptions { LogarithmicStep = kept * Math.Pow(2, level) }
                : new LayeredOptions
                {
                    SpacingGrowth = kept * Math.Pow(2, level),
                    SpacingAtSharpPoint = kept * Math.Pow(2, level),
                };
            var found = new LayeredMarch(
                new LayeredPlan(problem, asked, options),
                options,
                level
            ).Run();
            errors.Add(
                asked
                    .Select(
                        (q, k) => Math.Abs(found[k] - media.ConstantSurface(q.Depth, Clock(q.Time)))
                    )
                    .Max()
            );
        }

        // Over two halvings; beyond, the error of the other one shows.
        var order = 0.5 * Math.Log2(errors[0] / errors[2]);
        Assert.True(order > 1.9, $"order {order:F2}, errors {string.Join(", ", errors)}");
    }

    [Fact]
    public void March_CleanOverlayInFineCellsAndYearlySteps_NoOvershootAndMassKept()
    {
        // Clean overlay on 8 lb/yd³, 0.05 in cells, one-year steps: the steps are far beyond what cells of that size
        // would want.
        var options = new LayeredOptions
        {
            SpacingAtSharpPoint = 1e-9,
            SpacingGrowth = 1e-9,
            LogarithmicStep = 10,
            MaximumStep = 1,
        };
        var breaks = Enumerable.Range(1, 39).Select(k => k * 1.27).ToArray();
        var deckBreaks = Enumerable.Range(1, 119).Select(k => k * 1.27).ToArray();
        var problem = new LayeredProblem
        {
            Layers =
            [
                new DiffusionLayer(50.8, 10, 0) { InitialBreaks = breaks },
                new DiffusionLayer(152.4, 30, 8) { InitialBreaks = deckBreaks },
            ],
            Surface = BoundaryCondition.Constant(0),
        };
        var plan = new LayeredPlan(
            problem,
            [new(50, 60)],
            new LayeredOptions { SpacingAtSharpPoint = 50, SpacingGrowth = 10 }
        );
        var march = new LayeredMarch(plan, options with { SpacingGrowth = 10 }, 0);
        var nodes = 0;
        march.Run(
            (_, section) =>
            {
                foreach (var content in section.Free())
                {
                    nodes++;
                    Assert.InRange(content, -8e-5, 8 + 8e-5);
                }
            }
        );

        Assert.True(nodes > 160 * 40, "the cells and steps are as small as asked");
        Assert.True(march.MassBalanceError < 1e-10);
    }

    [Property(MaxTest = 150, Replay = "(20261125,7)")]
    public Property March_AnyStepsAnyLayers_StaysWithinStartAndFaces() =>
        Prop.ForAll(
            Arb.From(Gen.Choose(0, 1_000_000)),
            number =>
            {
                var random = new Random(number);
                double Log(double low, double high) =>
                    low * Math.Pow(high / low, random.NextDouble());
                var layers = Enumerable
                    .Range(0, random.Next(1, 5))
                    .Select(_ =>
                    {
                        var capacity = Log(0.5, 2);
                        return new DiffusionLayer(
                            Log(10, 150),
                            Log(0.05, 500),
                            random.Next(2) * 5 * capacity
                        )
                        {
                            Sorption = new LinearSorption(capacity, capacity),
                        };
                    })
                    .ToArray();
                var options = new LayeredOptions
                {
                    LogarithmicStep = Log(0.02, 20),
                    SpacingGrowth = Log(0.05, 3),
                    SpacingAtSharpPoint = Log(0.01, 30),
                };
                var top = random.Next(3) * 3.0;
                var problem = new LayeredProblem
                {
                    Layers = layers,
                    Surface =
                        random.Next(4) == 0
                            ? BoundaryCondition.Sealed
                            : BoundaryCondition.Constant(top * layers[0].Sorption.Slope(1)),
                    Events =
                    [
                        new LayeredEvent(Log(0.01, 30))
                        {
                            Removal = 5,
                            Placed = new DiffusionLayer(Log(10, 80), Log(0.05, 500), 0),
                            Surface = random.Next(2) == 0 ? null : BoundaryCondition.Constant(4),
                        },
                    ],
                };
                LayeredQuery[] asked = [new(Log(0.003, 60), 3), new(60, 5)];
                var highest = Math.Max(6.0, Math.Max(5, top * layers[0].Sorption.Slope(1)));
                var march = new LayeredMarch(new LayeredPlan(problem, asked, options), options, 0);
                var isInside = true;
                march.Run(
                    (_, section) =>
                        isInside &= section
                            .Free()
                            .All(u => u >= -1e-4 * highest && u <= highest * (1 + 1e-4))
                );
                return isInside && march.MassBalanceError < 1e-10;
            }
        );

    [Property(MaxTest = 40, Replay = "(20261125,11)")]
    public Property Solve_AnyIsotherm_KeepsMassAndStaysWithinStartAndFaces() =>
        Prop.ForAll(
            Arb.From(Gen.Choose(0, 1_000_000)),
            number =>
            {
                var random = new Random(number);
                double Log(double low, double high) =>
                    low * Math.Pow(high / low, random.NextDouble());
                Sorption Law() =>
                    random.Next(2) == 0
                        ? new FreundlichSorption(
                            Log(0.02, 0.2),
                            Log(0.05, 3),
                            0.1 + (0.9 * random.NextDouble())
                        )
                        : new LangmuirSorption(Log(0.02, 0.2), Log(0.05, 3), Log(0.01, 1));
                var layers = Enumerable
                    .Range(0, random.Next(1, 4))
                    .Select(_ => new DiffusionLayer(Log(20, 150), Log(1, 300), random.Next(2) * 2)
                    {
                        Sorption = Law(),
                    })
                    .ToArray();
                var problem = new LayeredProblem
                {
                    Layers = layers,
                    Surface = BoundaryCondition.Constant(6),
                    Events =
                    [
                        new LayeredEvent(Log(1, 20))
                        {
                            Removal = 10,
                            Placed = new DiffusionLayer(Log(20, 80), Log(1, 300), 0)
                            {
                                Sorption = Law(),
                            },
                            Surface = random.Next(2) == 0 ? null : BoundaryCondition.Constant(0),
                        },
                    ],
                };
                var options = new LayeredOptions
                {
                    LogarithmicStep = Log(0.1, 3),
                    SpacingGrowth = Log(0.2, 2),
                };
                LayeredQuery[] asked = [new(25, 15), new(60, 25)];
                var plan = new LayeredPlan(problem, asked, options);
                var highest = plan
                    .Layers.Select(l => l.Sorption.Free(l.InitialContent(0)))
                    .Append(layers[0].Sorption.Free(6))
                    .Append(plan.Layers[^1].Sorption.Free(6))
                    .Max();
                var march = new LayeredMarch(plan, options, 0);
                var isInside = true;
                var found = march.Run(
                    (_, section) =>
                        isInside &= section
                            .Free()
                            .All(u => u >= -1e-4 * highest && u <= highest * (1 + 1e-4))
                );
                return (
                    isInside
                    && found.All(double.IsFinite)
                    && march.HasConverged
                    && march.MassBalanceError < 1e-10
                ).Label(
                    $"case {number}: inside {isInside}, solved {march.HasConverged}, mass {march.MassBalanceError:G3}"
                );
            }
        );

    private static LayeredProblem OneLayer(params LayeredEvent[] events) =>
        new()
        {
            Layers = [new DiffusionLayer(200, 30, 0)],
            Surface = BoundaryCondition.Constant(5),
            Events = events,
        };

    private static LayeredProblem Overlaid() =>
        new()
        {
            Layers = [new DiffusionLayer(200, 30, 0)],
            Surface = BoundaryCondition.Constant(6),
            Events =
            [
                new LayeredEvent(20)
                {
                    Removal = 25,
                    Placed = new DiffusionLayer(50, 8, 0),
                    Surface = BoundaryCondition.Constant(4),
                },
            ],
        };

    private static void AssertWithin(
        LayeredSolution found,
        List<LayeredQuery> queries,
        Func<LayeredQuery, double> exact
    )
    {
        Assert.True(found.IsConverged);
        Assert.True(found.MassBalanceError < 1e-10, $"mass {found.MassBalanceError:G3}");
        for (var k = 0; k < queries.Count; k++)
        {
            var error = Math.Abs(found.Contents[k] - exact(queries[k]));
            Assert.True(
                error <= found.ErrorEstimate && error < 1e-3 * found.LargestContent,
                $"{queries[k]}: error {error:G3}, estimate {found.ErrorEstimate:G3}"
            );
        }
    }
}
