using DeckLife.Numerics.Sampling;
using MathNet.Numerics.Distributions;

namespace DeckLife.Decisions;

/// <summary>More cover readings: their mean and spread, as if normal and independent.</summary>
internal sealed class CoverSamples(
    IReadOnlyList<(double MeanMm, double SdMm)> states,
    int count,
    ulong seed
) : ISampleModel
{
    /// <inheritdoc/>
    public int Length => 2;

    /// <inheritdoc/>
    public void Simulate(int draw, Span<double> data)
    {
        Span<double> u = stackalloc double[2];
        new RandomStream(seed, "more cover readings", (ulong)draw).FillUniform(u);
        var (mean, sd) = states[draw];
        data[0] = mean + (sd / Math.Sqrt(count) * NormalQuantile.At(u[0]));
        data[1] = sd * sd * ChiSquared.InvCDF(count - 1.0, u[1]) / (count - 1.0);
    }

    /// <inheritdoc/>
    public double LogDensity(ReadOnlySpan<double> data, int draw)
    {
        var (mean, sd) = states[draw];
        var off = (data[0] - mean) / sd;
        return (-0.5 * count * off * off)
            - (count * Math.Log(sd))
            - (0.5 * (count - 1) * data[1] / (sd * sd));
    }
}
