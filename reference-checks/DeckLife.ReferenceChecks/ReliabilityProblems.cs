using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Reliability;

namespace DeckLife.ReferenceChecks;

/// <summary>Limit states of the literature: failure is g ≤ 0.</summary>
internal static class ReliabilityProblems
{
    public static LimitState Difference(double meanResistance) =>
        new(Normal((meanResistance, 1), (2, 1)), x => x[0] - x[1]);

    public static LimitState LognormalDifference() =>
        new(Vector(Lognormal(200, 20), Lognormal(100, 20)), x => x[0] - x[1]);

    public static LimitState AxialBar() =>
        new(
            Vector(Lognormal(300, 30), new NormalDistribution(75000, 5000)),
            x => x[0] - (x[1] / (100 * Math.PI))
        );

    public static LimitState Rp8() =>
        new(
            Vector(
                Lognormal(120, 12),
                Lognormal(120, 12),
                Lognormal(120, 12),
                Lognormal(120, 12),
                Lognormal(50, 10),
                Lognormal(40, 8)
            ),
            x => x[0] + (2 * x[1]) + (2 * x[2]) + x[3] - (5 * x[4]) - (5 * x[5])
        );

    public static LimitState Rp14() =>
        new(
            Vector(
                new UniformDistribution(70, 80),
                new NormalDistribution(39, 0.1),
                GumbelDistribution.FromMeanAndStandardDeviation(1500, 350),
                new NormalDistribution(400, 0.1),
                new NormalDistribution(250000, 35000)
            ),
            x =>
                x[0]
                - (
                    32
                    / (Math.PI * x[1] * x[1] * x[1])
                    * Math.Sqrt((x[2] * x[2] * x[3] * x[3] / 16) + (x[4] * x[4]))
                )
        );

    public static LimitState Rp22() =>
        new(
            Normal((0, 1), (0, 1)),
            x => 2.5 - ((x[0] + x[1]) / Math.Sqrt(2)) + (0.1 * Square(x[0] - x[1]))
        );

    public static LimitState Rp24() =>
        new(
            Normal((10, 3), (10, 3)),
            x => 2.5 - (0.2357 * (x[0] - x[1])) + (0.00463 * Square(Square(x[0] + x[1] - 20)))
        );

    public static LimitState Rp28() =>
        new(Normal((78064, 11710), (0.0104, 0.00156)), x => (x[0] * x[1]) - 146.14);

    public static LimitState Rp31() =>
        new(Normal((0, 1), (0, 1)), x => 2 - x[1] + (256 * Square(Square(x[0]))));

    public static LimitState Rp33() =>
        new(
            Normal((0, 1), (0, 1), (0, 1)),
            x => Math.Min(-x[0] - x[1] - x[2] + (3 * Math.Sqrt(3)), 3 - x[2])
        );

    public static LimitState Rp53() =>
        new(
            Normal((1.5, 1), (2.5, 1)),
            x => Math.Sin(2.5 * x[0]) + 2 - ((Square(x[0]) + 4) * (x[1] - 1) / 20)
        );

    public static LimitState FourBranch() =>
        new(
            Normal((0, 1), (0, 1)),
            x =>
            {
                var bend = 3 + (0.1 * Square(x[0] - x[1]));
                var sum = (x[0] + x[1]) / Math.Sqrt(2);
                var side = 7 / Math.Sqrt(2);
                return Math.Min(
                    Math.Min(bend - sum, bend + sum),
                    Math.Min(x[0] - x[1] + side, x[1] - x[0] + side)
                );
            }
        );

    public static LimitState BeamOfNormals() =>
        new(Normal((40, 5), (50, 2.5), (1000, 200)), x => (x[0] * x[1]) - x[2]);

    public static LimitState BeamOfOthers() =>
        new(
            Vector(
                Lognormal(40, 5),
                Lognormal(50, 2.5),
                GumbelDistribution.FromMeanAndStandardDeviation(1000, 200)
            ),
            x => (x[0] * x[1]) - x[2]
        );

    public static LimitState Cubes(double secondMean) =>
        new(
            Normal((10, 5), (secondMean, 5)),
            x => (x[0] * x[0] * x[0]) + (x[1] * x[1] * x[1]) - 18
        );

    private static double Square(double x) => x * x;

    private static LognormalDistribution Lognormal(double mean, double deviation) =>
        LognormalDistribution.FromMeanAndStandardDeviation(mean, deviation);

    private static RandomVector Vector(params Distribution[] margins) => new(margins);

    private static RandomVector Normal(params (double Mean, double Deviation)[] moments) =>
        new(moments.Select(m => new NormalDistribution(m.Mean, m.Deviation)));
}
