using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Sensitivity;

namespace DeckLife.ReferenceChecks;

/// <summary>Sensitivity measures against functions whose shares are known exactly.</summary>
public sealed class SensitivityCases : IReferenceCaseSet
{
    private const int Points = 1 << 15;

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return Ishigami(
            0.1,
            [0.313905191147811, 0.442411144790041, 0],
            [0.557588855209959, 0.442411144790041, 0.243683664062148],
            13.8445879407193
        );
        yield return Ishigami(
            0.05,
            [0.218518564427013, 0.686894643648693, 0],
            [0.313105356351307, 0.686894643648693, 0.0945867919242938],
            8.91694244034983
        );
        yield return G(
            "g-function-8",
            [0, 1, 4.5, 9, 99, 99, 99, 99],
            [0.716192168879, 0.17904804222, 0.0236757741778, 0.00716192168879, 7.16192168879e-5],
            [0.787144126659, 0.242198192818, 0.0343169101541, 0.0104603870652, 0.00010494905192]
        );
        yield return G(
            "g-function-3",
            [0, 9, 99],
            [0.986711841989, 0.00986711841989, 9.86711841989e-5],
            [0.990033881492, 0.0131565964318, 0.000132000117528]
        );
        yield return MorrisExact();
        yield return MorrisPrinted();
    }

    private static ReferenceCase Ishigami(double b, double[] first, double[] total, double variance)
    {
        var result = new Lazy<SobolResult>(() =>
        {
            var plan = new SobolPlan(
                new RandomVector(
                    Enumerable.Range(0, 3).Select(_ => new UniformDistribution(-Math.PI, Math.PI))
                ),
                Points,
                1
            );
            return plan.Finish(
                plan.Evaluate(
                    (n, x, y) =>
                    {
                        for (var i = 0; i < n; i++)
                        {
                            y[i] = IshigamiAt(x[0][i], x[1][i], x[2][i], b);
                        }
                    }
                ),
                100
            );
        });
        return Shares(
            FormattableString.Invariant($"sensitivity/ishigami-{100 * b:0}"),
            "Ishigami function: shares of variance",
            FormattableString.Invariant($"a 7, b {b}; 32768 lattice points"),
            "Ishigami & Homma 1990, closed form",
            result,
            first,
            total,
            variance
        );
    }

    private static ReferenceCase G(string id, double[] a, double[] first, double[] total)
    {
        var result = new Lazy<SobolResult>(() =>
        {
            var plan = new SobolPlan(
                new RandomVector(a.Select(_ => new UniformDistribution(0, 1))),
                Points,
                1
            );
            return plan.Finish(
                plan.Evaluate(
                    (n, x, y) =>
                    {
                        for (var i = 0; i < n; i++)
                        {
                            y[i] = 1;
                            for (var d = 0; d < a.Length; d++)
                            {
                                y[i] *= (Math.Abs((4 * x[d][i]) - 2) + a[d]) / (1 + a[d]);
                            }
                        }
                    }
                ),
                100
            );
        });
        return Shares(
            $"sensitivity/{id}",
            "Sobol's g-function: shares of variance",
            "a = " + string.Join(", ", a) + "; 32768 lattice points",
            "product formula of Sobol's g-function; a as in Saltelli & Sobol 1995",
            result,
            first,
            total,
            null
        );
    }

    private static ReferenceCase Shares(
        string id,
        string title,
        string inputs,
        string source,
        Lazy<SobolResult> result,
        double[] first,
        double[] total,
        double? variance
    ) =>
        new(
            id,
            title,
            inputs,
            source,
            HowGot.ComputedIndependently,
            "0.004 absolute: some four standard errors of 32768 points",
            [
                .. variance is { } v
                    ? new[] { new ReferenceValue("variance", v, () => result.Value.Variance, 2e-3) }
                    : [],
                .. first.Select(
                    (s, i) =>
                        new ReferenceValue(
                            $"first order {i + 1}",
                            s,
                            () => result.Value.Groups[i].FirstOrder.Value,
                            0.004,
                            IsAbsolute: true
                        )
                ),
                .. total.Select(
                    (s, i) =>
                        new ReferenceValue(
                            $"total {i + 1}",
                            s,
                            () => result.Value.Groups[i].Total.Value,
                            0.004,
                            IsAbsolute: true
                        )
                ),
            ]
        );

    // Every step of the grid of 4 levels once: 32 pairs an input.
    private static ReferenceCase MorrisExact()
    {
        double[] level = [-Math.PI, -Math.PI / 3, Math.PI / 3, Math.PI];
        var effects = new List<double>[3];
        for (var input = 0; input < 3; input++)
        {
            effects[input] = [];
            for (var k = 0; k < 2; k++)
            {
                for (var p = 0; p < 4; p++)
                {
                    for (var q = 0; q < 4; q++)
                    {
                        double[] x = [0, 0, 0];
                        int[] others = [.. Enumerable.Range(0, 3).Where(i => i != input)];
                        x[others[0]] = level[p];
                        x[others[1]] = level[q];
                        x[input] = level[k];
                        var low = IshigamiAt(x[0], x[1], x[2], 0.1);
                        x[input] = level[k + 2];
                        effects[input].Add((IshigamiAt(x[0], x[1], x[2], 0.1) - low) / (2.0 / 3));
                    }
                }
            }
        }

        var found = effects.Select(ElementaryEffect.FromEffects).ToArray();
        // The reference divides by r, the library by r - 1.
        static double Population(ElementaryEffect e) =>
            e.StandardDeviation * Math.Sqrt((e.Count - 1.0) / e.Count);
        return new ReferenceCase(
            "sensitivity/morris-exact",
            "Elementary effects of the Ishigami function, all 32 steps of each input",
            "4 levels, step 2/3, a 7, b 0.1",
            "enumeration of the grid",
            HowGot.ComputedIndependently,
            "given to 12 digits",
            [
                new("μ* 1", 7.70405411159, () => found[0].MeanAbsolute, 1e-11),
                new("μ* 2", 7.875, () => found[1].MeanAbsolute, 1e-11),
                new("μ* 3", 6.24879610333, () => found[2].MeanAbsolute, 1e-11),
                new("μ 1", 7.70405411159, () => found[0].Mean, 1e-11),
                new("μ 2", 0, () => found[1].Mean, 1e-12, IsAbsolute: true),
                new("μ 3", 0, () => found[2].Mean, 1e-12, IsAbsolute: true),
                new("σ 1 (divisor r)", 6.24879610333, () => Population(found[0]), 1e-11),
                new("σ 2 (divisor r)", 7.875, () => Population(found[1]), 1e-11),
                new("σ 3 (divisor r)", 8.83713219784, () => Population(found[2]), 1e-11),
            ]
        );
    }

    private static ReferenceCase MorrisPrinted()
    {
        (double X1, double X2)[] x =
        [
            (0, 1 / 3.0),
            (0, 1),
            (2 / 3.0, 1),
            (0, 1 / 3.0),
            (2 / 3.0, 1 / 3.0),
            (2 / 3.0, 1),
            (2 / 3.0, 0),
            (2 / 3.0, 2 / 3.0),
            (0, 2 / 3.0),
            (1 / 3.0, 1),
            (1, 1),
            (1, 1 / 3.0),
            (1 / 3.0, 1),
            (1 / 3.0, 1 / 3.0),
            (1, 1 / 3.0),
            (1 / 3.0, 2 / 3.0),
            (1 / 3.0, 0),
            (1, 0),
        ];
        double[] y =
        [
            0.97,
            0.71,
            2.39,
            0.97,
            2.30,
            2.39,
            1.87,
            2.40,
            0.87,
            2.15,
            1.71,
            1.54,
            2.15,
            2.17,
            1.54,
            2.20,
            1.87,
            1.0,
        ];
        List<double>[] effects =
        [
            [],
            [],
        ];
        for (var row = 1; row < x.Length; row++)
        {
            if (row % 3 == 0)
            {
                continue;
            }

            var d1 = x[row].X1 - x[row - 1].X1;
            var d2 = x[row].X2 - x[row - 1].X2;
            effects[d1 != 0 ? 0 : 1].Add((y[row] - y[row - 1]) / (d1 + d2));
        }

        var found = effects.Select(ElementaryEffect.FromEffects).ToArray();
        return new ReferenceCase(
            "sensitivity/morris-printed",
            "Elementary effects of six printed trajectories",
            "two inputs, step 2/3, outputs as printed",
            "Saltelli et al. 2008, Global Sensitivity Analysis: The Primer, exercise 4, p. 138 (figures read in a general-purpose library's tests); means recomputed from the printed outputs",
            HowGot.Printed,
            "printed to two decimals",
            [
                new("μ 1", 0.650, () => found[0].Mean, 0.0051, IsAbsolute: true),
                new("μ 2", 0.210, () => found[1].Mean, 0.0051, IsAbsolute: true),
                new("μ* 1", 1.62, () => found[0].MeanAbsolute, 0.0051, IsAbsolute: true),
                new("μ* 2", 0.35, () => found[1].MeanAbsolute, 0.0051, IsAbsolute: true),
                new("σ 1", 1.79, () => found[0].StandardDeviation, 0.0051, IsAbsolute: true),
                new("σ 2", 0.41, () => found[1].StandardDeviation, 0.0051, IsAbsolute: true),
            ]
        );
    }

    private static double IshigamiAt(double x1, double x2, double x3, double b)
    {
        var s = Math.Sin(x2);
        return Math.Sin(x1) + (7 * s * s) + (b * x3 * x3 * x3 * x3 * Math.Sin(x1));
    }
}
