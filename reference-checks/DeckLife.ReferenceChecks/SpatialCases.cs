using System.Globalization;
using System.Runtime.CompilerServices;
using DeckLife.Numerics.SpatialStatistics;

namespace DeckLife.ReferenceChecks;

/// <summary>Correlation length of readings over a plane, against two other programs.</summary>
public sealed class SpatialCases : IReferenceCaseSet
{
    private const string Source =
        "peers/spatial: R 4.2.2, nlme 3.1-162 (gls, corExp with nugget, REML) and the restricted likelihood written out in R";

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        var simulated = new Lazy<ExponentialFieldEstimate>(() => Fit("simulated.csv"));
        yield return new(
            "spatial/simulated-field",
            "Exponential correlation with a nugget, restricted maximum likelihood",
            "120 readings simulated over 40 x 12 (peers/spatial/simulated.csv)",
            Source,
            HowGot.ComputedIndependently,
            "the profile is read between 22 lengths, the nugget to 0.01; both peers agree to all digits",
            [
                new("length", 2.206733, () => simulated.Value.Length, 0.03),
                new("nugget's share", 0.05795671, () => simulated.Value.NuggetShare, 0.02, true),
                new("mean", 49.0577, () => simulated.Value.Mean, 2e-4),
                new(
                    "standard error of the mean",
                    1.258983,
                    () => simulated.Value.MeanStandardError,
                    0.02
                ),
                new("variance", 36.62666, () => simulated.Value.Variance, 0.01),
                new(
                    "likelihood ratio against independence",
                    40.39245,
                    () => simulated.Value.LikelihoodRatio,
                    2e-3
                ),
                new("length, lower 95 %", 1.158173, () => simulated.Value.Lower95 ?? -1, 0.03),
                new("length, upper 95 %", 6.37375, () => simulated.Value.Upper95 ?? -1, 0.03),
            ]
        );
        var wheat = new Lazy<ExponentialFieldEstimate>(() => Fit("wheat.csv"));
        yield return new(
            "spatial/wheat",
            "A field whose correlation reaches beyond its extent: the readings set no upper limit",
            "159 plots of the wheat trial of Stroup, Baenziger and Mulitze (1994), longitude below 20 (peers/spatial/wheat.csv)",
            Source + "; gls does not converge here",
            HowGot.ComputedIndependently,
            "a flat likelihood above a length of 9: the ratio and the lower limit are firm",
            [
                new(
                    "likelihood ratio against independence",
                    134.6669,
                    () => wheat.Value.LikelihoodRatio,
                    1e-3
                ),
                new("length, lower 95 %", 8.961707, () => wheat.Value.Lower95 ?? -1, 0.03),
                new("has an upper limit", 0, () => wheat.Value.Upper95 is null ? 0 : 1, 0, true),
            ]
        );
    }

    private static ExponentialFieldEstimate Fit(string file)
    {
        var rows = File.ReadLines(Path.Combine(SourceFolder(), "..", "peers", "spatial", file))
            .Skip(1)
            .Select(line =>
                line.Split(',').Select(c => double.Parse(c, CultureInfo.InvariantCulture)).ToArray()
            )
            .ToArray();
        return ExponentialField.Estimate(
            [.. rows.Select(r => r[0])],
            [.. rows.Select(r => r[1])],
            [.. rows.Select(r => r[2])]
        )!;
    }

    private static string SourceFolder([CallerFilePath] string file = "") =>
        Path.GetDirectoryName(file)!;
}
