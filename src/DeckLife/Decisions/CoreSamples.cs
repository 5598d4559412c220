using DeckLife.Fitting;
using DeckLife.Numerics.Sampling;
using DeckLife.Population;

namespace DeckLife.Decisions;

/// <summary>More cores: their means of ln Cs and ln D, with the spread between cores and the error of each core's fit.</summary>
/// <remarks>Their spread would teach something of the spread over the deck too; that is left out, so the value is on the low side. The errors of a core's Cs and D are taken as independent.</remarks>
internal sealed class CoreSamples : ISampleModel
{
    private readonly int count;
    private readonly ulong seed;
    private readonly DeckPopulation[] states;
    private readonly (double A, double B, double C, double LogRoot)[] precisions;
    private readonly double errorCs;
    private readonly double errorD;

    /// <summary>Prepares it.</summary>
    /// <param name="states">The deck in each draw.</param>
    /// <param name="cores">Fits of the cores there are: they show how well a core tells its own values.</param>
    /// <param name="count">Number of new cores.</param>
    /// <param name="seed">Seed.</param>
    public CoreSamples(
        IReadOnlyList<DeckPopulation> states,
        IReadOnlyList<ProfileFit> cores,
        int count,
        ulong seed
    )
    {
        this.count = count;
        this.seed = seed;
        this.states = [.. states];
        errorCs = Typical(cores.Select(c => c.SurfaceChloride));
        errorD = Typical(cores.Select(c => c.DiffusionCoefficient));
        precisions = [.. this.states.Select(Precision)];
    }

    /// <inheritdoc/>
    public int Length => 2;

    /// <inheritdoc/>
    public void Simulate(int draw, Span<double> data)
    {
        Span<double> u = stackalloc double[2];
        new RandomStream(seed, "more cores", (ulong)draw).FillUniform(u);
        var (a, b, c) = Covariance(states[draw]);
        var first = NormalQuantile.At(u[0]);
        var root = Math.Sqrt(a);
        var slope = root > 0 ? b / root : 0;
        data[0] = states[draw].MeanLnSurfaceChloride + (root * first);
        data[1] =
            states[draw].MeanLnDiffusionCoefficient
            + (slope * first)
            + (Math.Sqrt(Math.Max(0, c - (slope * slope))) * NormalQuantile.At(u[1]));
    }

    /// <inheritdoc/>
    public double LogDensity(ReadOnlySpan<double> data, int draw)
    {
        var x = data[0] - states[draw].MeanLnSurfaceChloride;
        var y = data[1] - states[draw].MeanLnDiffusionCoefficient;
        var (a, b, c, logRoot) = precisions[draw];
        return logRoot - (0.5 * ((a * x * x) + (2 * b * x * y) + (c * y * y)));
    }

    private (double A, double B, double C) Covariance(DeckPopulation p) =>
        (
            ((p.SdLnSurfaceChloride * p.SdLnSurfaceChloride) + (errorCs * errorCs)) / count,
            p.Correlation * p.SdLnSurfaceChloride * p.SdLnDiffusionCoefficient / count,
            ((p.SdLnDiffusionCoefficient * p.SdLnDiffusionCoefficient) + (errorD * errorD)) / count
        );

    private (double, double, double, double) Precision(DeckPopulation p)
    {
        var (a, b, c) = Covariance(p);
        var determinant = (a * c) - (b * b);
        return (c / determinant, -b / determinant, a / determinant, -0.5 * Math.Log(determinant));
    }

    // Relative error of a core's own estimate; a tenth where no core tells it.
    private static double Typical(IEnumerable<Estimate?> estimates)
    {
        var errors = estimates
            .Where(e => e is { StandardError: not null, Value: > 0 })
            .Select(e => e!.StandardError!.Value / e.Value)
            .Order()
            .ToArray();
        return errors.Length == 0 ? 0.1 : Math.Max(0.01, errors[errors.Length / 2]);
    }
}
