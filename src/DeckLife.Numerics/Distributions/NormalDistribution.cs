using System.Globalization;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Distributions;

/// <summary>The normal distribution.</summary>
public sealed class NormalDistribution : Distribution
{
    /// <summary>Makes the distribution.</summary>
    /// <param name="mean">Mean, finite.</param>
    /// <param name="standardDeviation">Standard deviation, above 0.</param>
    public NormalDistribution(double mean, double standardDeviation)
    {
        Mean = Finite(mean, nameof(mean));
        StandardDeviation = Positive(standardDeviation, nameof(standardDeviation));
    }

    /// <inheritdoc/>
    public override double Mean { get; }

    /// <inheritdoc/>
    public override double StandardDeviation { get; }

    /// <inheritdoc/>
    public override double Lower => double.NegativeInfinity;

    /// <inheritdoc/>
    public override double Upper => double.PositiveInfinity;

    /// <inheritdoc/>
    public override string Description =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"normal, mean {Mean:G6}, s.d. {StandardDeviation:G6}"
        );

    /// <inheritdoc/>
    public override double LowerTail(double x) =>
        NormalQuantile.Probability((x - Mean) / StandardDeviation);

    /// <inheritdoc/>
    public override double UpperTail(double x) =>
        NormalQuantile.Probability((Mean - x) / StandardDeviation);

    /// <inheritdoc/>
    public override double Density(double x)
    {
        var z = (x - Mean) / StandardDeviation;
        return Math.Exp(-0.5 * z * z) / (StandardDeviation * Math.Sqrt(2 * Math.PI));
    }

    /// <inheritdoc/>
    public override double FromStandardNormal(double z) => Mean + (StandardDeviation * z);

    /// <inheritdoc/>
    public override double ToStandardNormal(double x) => (x - Mean) / StandardDeviation;

    /// <inheritdoc/>
    public override void FromStandardNormal(ReadOnlySpan<double> z, Span<double> x)
    {
        VectorLoops.Line(z, x, Mean, StandardDeviation);
    }

    /// <inheritdoc/>
    internal override bool IsOfScore => true;

    /// <inheritdoc/>
    protected internal override double LowerQuantile(double p) =>
        Mean + (StandardDeviation * NormalQuantile.At(p));

    /// <inheritdoc/>
    protected internal override double UpperQuantile(double q) =>
        Mean - (StandardDeviation * NormalQuantile.At(q));
}
