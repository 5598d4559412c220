using System.Globalization;
using System.Runtime.CompilerServices;
using DeckLife.Numerics.DesignOfExperiments;
using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.SpecialFunctions;

namespace DeckLife.ReferenceChecks;

/// <summary>Error of quasi-random integration on the smooth erfc case, beside SciPy's scrambled Sobol points.</summary>
public sealed class DistributionQuasiRandomCases : IReferenceCaseSet
{
    private const int Shifts = 32;

    private static readonly Distribution[] Laws =
    [
        new NormalDistribution(50, 8),
        LognormalDistribution.FromMeanAndStandardDeviation(30, 9),
        LognormalDistribution.FromMeanAndStandardDeviation(8, 1.6),
    ];

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        var rows = File.ReadAllLines(
            Path.Combine(SourceFolder(), "..", "peers", "studies", "quasi_random.csv")
        );
        var peer = rows.Skip(2).Select(r => r.Split(',')).ToArray();
        var exact = Number(peer[0][1]);
        var errors = new Lazy<double[]>(() =>
            [
                .. peer.Select(r =>
                    RootMeanSquare(int.Parse(r[0], CultureInfo.InvariantCulture), exact)
                ),
            ]
        );
        yield return new ReferenceCase(
            "distribution/quasi-random-rate",
            "Mean content at the bar by randomly shifted lattice points: rate and size of the error",
            "cover N(50,8) mm, D LN(30,9) mm2/yr, Cs LN(8,1.6) kg/m3, 30 yr; root mean square error over 32 shifts, 64 to 16384 points",
            $"exact mean by 60-point Gauss-Hermite rules; errors of the peer: {rows[0].TrimStart('#', ' ')}",
            HowGot.ComputedIndependently,
            "the claims are inequalities, 1 where they hold: the error falls faster than N^-0.9 (least-squares slope of the logarithms), and is at no size above 4 times that of scrambled Sobol points (it is 1 to 3 times it)",
            [
                new(
                    "mean content [kg/m3], 16384 points, one shift",
                    exact,
                    () => Mean(16384, 1),
                    1.5e-4
                ),
                new(
                    "error falls faster than N^-0.9",
                    1,
                    () => Slope(peer, errors.Value) < -0.9 ? 1 : 0,
                    0
                ),
                new(
                    "error never above 4 times scrambled Sobol's",
                    1,
                    () =>
                        errors.Value.Zip(peer).All(p => p.First <= 4 * Number(p.Second[2])) ? 1 : 0,
                    0
                ),
                .. peer.Select(
                    (r, i) =>
                        new ReferenceValue(
                            $"digits of the error, {r[0]} points (lattice; the peer's is the reference)",
                            -Math.Log10(Number(r[2])),
                            () => -Math.Log10(errors.Value[i]),
                            0.5,
                            IsAbsolute: true
                        )
                ),
            ]
        );
    }

    private static double Slope(string[][] peer, double[] errors)
    {
        var x = peer.Select(r => Math.Log(Number(r[0]))).ToArray();
        var y = errors.Select(e => Math.Log(e)).ToArray();
        var mx = x.Average();
        var my = y.Average();
        return x.Zip(y).Sum(p => (p.First - mx) * (p.Second - my))
            / x.Sum(v => (v - mx) * (v - mx));
    }

    private static double RootMeanSquare(int count, double exact) =>
        Math.Sqrt(
            Enumerable
                .Range(1, Shifts)
                .Average(seed =>
                {
                    var error = Mean(count, (ulong)seed) - exact;
                    return error * error;
                })
        );

    private static double Mean(int count, ulong seed)
    {
        var points = UnitPointSet.Make(PointSource.Lattice, count, 3, seed, "rate");
        for (var d = 0; d < 3; d++)
        {
            NormalQuantile.At(points[d], points[d]);
            Laws[d].FromStandardNormal(points[d], points[d]);
        }

        var sum = 0.0;
        for (var i = 0; i < count; i++)
        {
            sum +=
                points[2][i]
                * ErrorFunction.Erfc(points[0][i] / (2 * Math.Sqrt(points[1][i] * 30)));
        }

        return sum / count;
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string SourceFolder([CallerFilePath] string path = "") =>
        Path.GetDirectoryName(path)!;
}
