using System.Globalization;
using System.Runtime.CompilerServices;
using DeckLife.Numerics.Distributions;

namespace DeckLife.ReferenceChecks;

/// <summary>Distributions: quantiles in both tails against SciPy, moments and shapes.</summary>
public sealed class DistributionCases : IReferenceCaseSet
{
    private static readonly Dictionary<string, Distribution> Laws = new(StringComparer.Ordinal)
    {
        ["normal"] = new NormalDistribution(50, 10),
        ["lognormal"] = LognormalDistribution.FromMeanAndStandardDeviation(0.05, 0.025),
        ["gamma"] = GammaDistribution.FromMeanAndStandardDeviation(6, 3),
        ["gamma-small"] = GammaDistribution.FromShapeAndScale(0.4, 2),
        ["beta"] = BetaDistribution.FromMeanAndStandardDeviation(0.30, 0.12, 0, 1),
        ["beta-interval"] = BetaDistribution.FromMeanAndStandardDeviation(8.9, 5.6, 0, 50),
        ["weibull"] = WeibullDistribution.FromShapeAndScale(1.8, 25),
        ["gumbel"] = GumbelDistribution.FromLocationAndScale(1.2, 0.3),
        ["triangular"] = new TriangularDistribution(0, 1, 4),
        ["truncated-normal"] = new TruncatedDistribution(
            new NormalDistribution(2, 0.4),
            0.1,
            double.PositiveInfinity
        ),
    };

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        var rows = File.ReadAllLines(
            Path.Combine(SourceFolder(), "..", "peers", "studies", "quantiles.csv")
        );
        foreach (
            var group in rows.Skip(2).GroupBy(r => r[..r.IndexOf(',', StringComparison.Ordinal)])
        )
        {
            var law = Laws[group.Key];
            var parameters = group.First().Split('"')[1];
            yield return new ReferenceCase(
                $"distribution/quantiles-{group.Key}",
                $"Quantiles in both tails: {group.Key}",
                parameters,
                $"SciPy ({rows[0].TrimStart('#', ' ')}), reference-checks/peers/studies/quantiles.py",
                HowGot.ComputedIndependently,
                "both sides in doubles by different algorithms: 1e-11 leaves room for SciPy's own inversions",
                [
                    .. group.Select(row =>
                    {
                        var cells = row.Split('"')[2].Split(',');
                        var upper = cells[1] == "upper";
                        var p = Number(cells[2]);
                        return new ReferenceValue(
                            $"{cells[1]} tail {cells[2]}",
                            Number(cells[3]),
                            () => upper ? law.QuantileOfExceedance(p) : law.Quantile(p),
                            1e-11
                        );
                    }),
                ]
            );
        }

        yield return Shapes(
            "critical-content",
            "mean 0.6, s.d. 0.15 on 0.2 to 2.0",
            BetaDistribution.FromMeanAndStandardDeviation(0.6, 0.15, 0.2, 2.0),
            5.308641975308642,
            18.580246913580247,
            [0.37906566, 0.58588911, 0.86932766]
        );
        yield return Shapes(
            "ageing-fly-ash",
            "mean 0.60, s.d. 0.15 on 0 to 1",
            BetaDistribution.FromMeanAndStandardDeviation(0.60, 0.15, 0, 1),
            5.8,
            3.866666666666667,
            [0.34077569, 0.60716201, 0.83456217]
        );
        yield return Shapes(
            "ageing-slag",
            "mean 0.45, s.d. 0.20 on 0 to 1",
            BetaDistribution.FromMeanAndStandardDeviation(0.45, 0.20, 0, 1),
            2.334375,
            2.853125,
            [0.13390158, 0.44311953, 0.78974318]
        );
        yield return new ReferenceCase(
            "distribution/normal-percentiles",
            "Standard normal quantiles of cover percentiles",
            "probabilities as named",
            "inverse of the standard normal distribution function, 30 digits",
            HowGot.ComputedIndependently,
            "the references have 14 to 15 digits",
            [
                Percentile(0.02, -2.0537489106318),
                Percentile(0.025, -1.9599639845401),
                Percentile(0.05, -1.6448536269515),
                Percentile(0.10, -1.2815515655446),
                Percentile(0.12, -1.1749867920661),
                Percentile(0.25, -0.67448975019608),
            ]
        );
    }

    private static ReferenceValue Percentile(double p, double expected) =>
        new(
            string.Create(CultureInfo.InvariantCulture, $"{100 * p} %"),
            expected,
            () => new NormalDistribution(0, 1).Quantile(p),
            5e-14
        );

    private static ReferenceCase Shapes(
        string id,
        string inputs,
        BetaDistribution law,
        double p,
        double q,
        double[] percentiles
    ) =>
        new(
            $"distribution/beta-{id}",
            "Beta distribution from its moments: shapes and 5, 50, 95 % quantiles",
            inputs,
            "p + q = m(1 - m)/s² - 1 on the unit interval; quantiles by SciPy",
            HowGot.ComputedIndependently,
            "quantiles are given to 8 decimals",
            [
                new("p", p, () => law.ShapeP, 1e-13),
                new("q", q, () => law.ShapeQ, 1e-13),
                new("5 %", percentiles[0], () => law.Quantile(0.05), 6e-9, IsAbsolute: true),
                new("50 %", percentiles[1], () => law.Quantile(0.5), 6e-9, IsAbsolute: true),
                new("95 %", percentiles[2], () => law.Quantile(0.95), 6e-9, IsAbsolute: true),
            ]
        );

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string SourceFolder([CallerFilePath] string path = "") =>
        Path.GetDirectoryName(path)!;
}
