using DeckLife.Numerics.Diffusion;

namespace DeckLife.Numerics.Tests.Diffusion;

/// <summary>Random problems for the layered solver, each with an oracle that is not the solver.</summary>
internal sealed partial record RandomLayeredCase(
    string Kind,
    LayeredProblem Problem,
    IReadOnlyList<LayeredQuery> Queries,
    Func<int, double> Exact
)
{
    private const double Day = 1 / 365.25;

    /// <summary>The case of a number: the same for ever.</summary>
    public static RandomLayeredCase Of(int number)
    {
        var random = new Random(7_654_321 + number);
        return (number % 5) switch
        {
            0 => Slab(random, isUnequal: false),
            1 => Slab(random, isUnequal: true),
            2 => Overlay(random),
            3 => OwnAgeing(random),
            _ => Steps(random),
        };
    }

    // One to four layers, D over four decades, one common ageing factor, faces held, open or sealed.
    private static RandomLayeredCase Slab(Random random, bool isUnequal)
    {
        var n = random.Next(1, 5);
        var thickness = Fill(n, () => Between(random, 15, 120));
        var coefficient = Fill(n, () => LogBetween(random, 0.05, 500));
        var capacity = Fill(n, () => isUnequal ? LogBetween(random, 0.5, 2) : 1);
        var initial = Fill(n, () => random.Next(3) == 0 ? Between(random, 0, 5) : 0);
        double? surface =
            random.Next(6) == 0 && initial.Any(c => c > 0) ? null : Between(random, 2, 12);
        double? bottom = random.Next(4) == 0 ? initial[^1] : null;
        var exponent = random.Next(2) == 0 ? 0 : Between(random, 0.1, 0.65);
        double Clock(double t) => Math.Pow(Math.Max(0, t), 1 - exponent);
        var oracle = new LaplaceSlab(thickness, coefficient, capacity, initial, surface, bottom);
        var total = thickness.Sum();
        var queries = Asked(random, 0, 60, total, Cumulative(thickness));
        var layers = Enumerable
            .Range(0, n)
            .Select(i =>
            {
                var d = coefficient[i];
                var c = initial[i] * capacity[i];
                return new DiffusionLayer(thickness[i], t => d * Clock(t), _ => c)
                {
                    IsUniform = true,
                    Sorption = isUnequal
                        ? new LinearSorption(capacity[i], capacity[i])
                        : LinearSorption.None,
                };
            })
            .ToArray();
        var top = surface is { } s ? s * capacity[0] : 0;
        return new(
            isUnequal ? "slab, unequal capacities" : "slab",
            new LayeredProblem
            {
                Layers = layers,
                Surface = surface is null
                    ? BoundaryCondition.Sealed
                    : BoundaryCondition.Constant(top),
                Bottom = bottom is null
                    ? BoundaryCondition.Sealed
                    : BoundaryCondition.Constant(initial[^1] * capacity[^1]),
            },
            queries,
            k =>
            {
                var (layer, depth) = Locate(thickness, queries[k].Depth);
                return capacity[layer] * oracle.Free(layer, depth, Clock(queries[k].Time));
            }
        );
    }

    // Salted deck, removal, overlay of another D: two-media images for what remains and for what comes.
    private static RandomLayeredCase Overlay(Random random)
    {
        var deck = LogBetween(random, 0.5, 100);
        var overlay = deck * LogBetween(random, 0.003, 300);
        var removal = random.Next(3) == 0 ? 0 : Between(random, 5, 60);
        var thickness = Between(random, 20, 75);
        var before = Between(random, 2, 40);
        var (old, fresh) = (
            Between(random, 2, 10),
            random.Next(2) == 0 ? 0 : Between(random, 1, 10)
        );
        var depth = removal + (14 * Math.Sqrt(deck * (before + 60)));
        var media = new TwoMedia(thickness, deck / overlay);
        var bar = thickness + Between(random, 0, 60);
        var queries = Asked(random, before, 60, bar + 40, [thickness]);
        double Profile(double y) => old * HalfSpace.ConstantSurface(y + removal, deck * before);
        // Below the interface the exact solution is known for the residual part; above it for the new salt alone.
        queries = [.. queries.Select(q => q.Depth < thickness ? q with { Depth = thickness } : q)];
        return new(
            "overlay",
            new LayeredProblem
            {
                Layers = [new DiffusionLayer(depth, deck, 0)],
                Surface = BoundaryCondition.Constant(old),
                Events =
                [
                    new LayeredEvent(before)
                    {
                        Removal = removal,
                        Placed = new DiffusionLayer(thickness, overlay, 0),
                        Surface = BoundaryCondition.Constant(fresh),
                    },
                ],
            },
            queries,
            k =>
            {
                var t = queries[k].Time - before;
                return media.Residual(
                        queries[k].Depth - thickness,
                        deck * t,
                        Profile,
                        depth - removal
                    ) + (fresh * media.ConstantSurface(queries[k].Depth, overlay * t));
            }
        );
    }

    // Deck and overlay, each ageing by its own exponent from its own age: no closed form. Equal volumes and Crank-Nicolson
    // steps with the coefficients of the moment, extrapolated, stand for the exact solution.
    private static RandomLayeredCase OwnAgeing(Random random)
    {
        var deck = (
            D: LogBetween(random, 5, 60),
            M: Between(random, 0, 0.6),
            Age: LogBetween(random, 0.1, 2)
        );
        var cover = (
            D: LogBetween(random, 0.5, 60),
            M: Between(random, 0, 0.7),
            Age: LogBetween(random, 0.02, 0.2)
        );
        var before = Between(random, 5, 30);
        var removal = random.Next(0, 80) * 0.5;
        var thickness = random.Next(40, 150) * 0.5;
        var (old, fresh) = (Between(random, 3, 10), Between(random, 0, 8));
        static double Clock((double D, double M, double Age) law, double t) =>
            law.D
            * (Math.Pow(Math.Max(0, t) + law.Age, 1 - law.M) - Math.Pow(law.Age, 1 - law.M))
            / (1 - law.M);
        static double Coefficient((double D, double M, double Age) law, double t) =>
            law.D * Math.Pow(t + law.Age, -law.M);
        var time = before + LogBetween(random, 1, 50);
        // Thirds of a volume have a middle where the whole one has it: the two can be extrapolated.
        double[] Run(int parts)
        {
            var width = 0.5 / parts;
            var volumes = new FineVolumes(
                width,
                400 * parts,
                0.03 / parts,
                t => Coefficient(deck, t)
            );
            volumes.Advance(0, before, old);
            volumes.Replace(
                (int)Math.Round(removal / width),
                (int)Math.Round(thickness / width),
                t => Coefficient(cover, t - before)
            );
            volumes.Advance(before, time, fresh);
            return volumes.Contents;
        }

        var coarse = Run(1);
        var fine = Run(3);
        LayeredQuery[] queries =
        [
            .. Fill(6, () => new LayeredQuery(time, (random.Next(2, 250) + 0.5) * 0.5)),
        ];
        return new(
            "own ageing in each layer",
            new LayeredProblem
            {
                Layers =
                [
                    new DiffusionLayer(200, t => Clock(deck, t), _ => 0) { IsUniform = true },
                ],
                Surface = BoundaryCondition.Constant(old),
                Events =
                [
                    new LayeredEvent(before)
                    {
                        Removal = removal,
                        Placed = new DiffusionLayer(
                            thickness,
                            t => Clock(cover, t - before),
                            _ => 0
                        )
                        {
                            IsUniform = true,
                        },
                        Surface = BoundaryCondition.Constant(fresh),
                    },
                ],
            },
            queries,
            k =>
            {
                var cell = (int)Math.Round((queries[k].Depth / 0.5) - 0.5);
                var value = fine[(3 * cell) + 1];
                return value + ((value - coarse[cell]) / 8);
            }
        );
    }

    // One layer that ages, under a surface content that jumps at random times: superposed error functions of the clock.
    private static RandomLayeredCase Steps(Random random)
    {
        var exponent = Between(random, 0, 0.7);
        var d = LogBetween(random, 1, 100);
        var start = LogBetween(random, 0.01, 1);
        double Clock(double t) =>
            d
            * (Math.Pow(t + start, 1 - exponent) - Math.Pow(start, 1 - exponent))
            / (1 - exponent);
        var count = random.Next(1, 8);
        var times = Fill(count, () => Between(random, 0.2, 50)).Order().Prepend(0).ToArray();
        var levels = Fill(count + 1, () => random.Next(3) == 0 ? 0 : Between(random, 1, 10));
        levels[0] = Between(random, 1, 10);
        var background = random.Next(2) == 0 ? 0 : Between(random, 0, 1);
        double At(double t)
        {
            var k = Array.FindLastIndex(times, x => x <= t);
            return levels[Math.Max(0, k)];
        }

        var depth = 14 * Math.Sqrt(Clock(60));
        var queries = Asked(random, 0, 60, Math.Min(depth, 120), []);
        // A day after each jump is what is promised.
        queries =
        [
            .. queries.Select(q =>
            {
                var last = times.Last(t => t < q.Time);
                return q with { Time = Math.Max(q.Time, last + Day) };
            }),
        ];
        var asEvents = random.Next(2) == 0;
        var jumps = times.Skip(1).ToArray();
        return new(
            asEvents ? "steps as events" : "steps in the law",
            new LayeredProblem
            {
                Layers = [new DiffusionLayer(depth, Clock, _ => background) { IsUniform = true }],
                Surface = asEvents
                    ? BoundaryCondition.Constant(levels[0])
                    : BoundaryCondition.Varying(At).With([], jumps, 0),
                Events = asEvents
                    ?
                    [
                        .. jumps.Select(
                            (t, k) =>
                                new LayeredEvent(t)
                                {
                                    Surface = BoundaryCondition.Constant(levels[k + 1]),
                                }
                        ),
                    ]
                    : [],
            },
            queries,
            k =>
            {
                var (time, x) = (queries[k].Time, queries[k].Depth);
                var value = background;
                var last = background;
                for (var i = 0; i < times.Length && times[i] < time; i++)
                {
                    value +=
                        (levels[i] - last)
                        * HalfSpace.ConstantSurface(x, Clock(time) - Clock(times[i]));
                    last = levels[i];
                }

                return value;
            }
        );
    }

    private static List<LayeredQuery> Asked(
        Random random,
        double from,
        double span,
        double depth,
        double[] interfaces
    )
    {
        var queries = new List<LayeredQuery>();
        var times = Fill(random.Next(1, 4), () => from + LogBetween(random, Day, span));
        foreach (var time in times)
        {
            queries.AddRange(Fill(3, () => new LayeredQuery(time, Between(random, 0, depth))));
            queries.AddRange(interfaces.Select(x => new LayeredQuery(time, x)));
        }

        return queries;
    }

    private static (int Layer, double Depth) Locate(double[] thickness, double depth)
    {
        for (var i = 0; i < thickness.Length; i++)
        {
            if (depth <= thickness[i] + 1e-9)
            {
                return (i, Math.Min(depth, thickness[i]));
            }

            depth -= thickness[i];
        }

        return (thickness.Length - 1, thickness[^1]);
    }

    private static double[] Cumulative(double[] thickness)
    {
        double sum = 0;
        return [.. thickness.Take(thickness.Length - 1).Select(t => sum += t)];
    }

    private static T[] Fill<T>(int count, Func<T> make) =>
        [.. Enumerable.Range(0, count).Select(_ => make())];

    private static double Between(Random random, double low, double high) =>
        low + ((high - low) * random.NextDouble());

    private static double LogBetween(Random random, double low, double high) =>
        low * Math.Pow(high / low, random.NextDouble());
}
