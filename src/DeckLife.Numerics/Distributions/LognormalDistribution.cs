using System.Globalization;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Distributions;

/// <summary>The lognormal distribution, given by the moments of the variable or of its logarithm, each by name.</summary>
/// <remarks>Equation: σ² = ln(1 + s²/m²), μ = ln m - σ²/2 for mean m and standard deviation s of the variable itself.</remarks>
public sealed class LognormalDistribution : Distribution
{
    private LognormalDistribution(double logMean, double logStandardDeviation)
    {
        LogMean = Finite(logMean, nameof(logMean));
        LogStandardDeviation = Positive(logStandardDeviation, nameof(logStandardDeviation));
    }

    /// <summary>Mean of the logarithm μ.</summary>
    public double LogMean { get; }

    /// <summary>Standard deviation of the logarithm σ.</summary>
    public double LogStandardDeviation { get; }

    /// <inheritdoc/>
    public override double Mean =>
        Math.Exp(LogMean + (0.5 * LogStandardDeviation * LogStandardDeviation));

    /// <inheritdoc/>
    public override double StandardDeviation =>
        Mean * Math.Sqrt(SmallArgument.ExpMinusOne(LogStandardDeviation * LogStandardDeviation));

    /// <inheritdoc/>
    public override double Lower => 0;

    /// <inheritdoc/>
    public override double Upper => double.PositiveInfinity;

    /// <inheritdoc/>
    public override string Description =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"lognormal, mean {Mean:G6}, s.d. {StandardDeviation:G6}, median {Math.Exp(LogMean):G6}"
        );

    /// <summary>From the mean and standard deviation of the variable itself (not of its logarithm).</summary>
    /// <param name="mean">Mean m, above 0.</param>
    /// <param name="standardDeviation">Standard deviation s, above 0.</param>
    public static LognormalDistribution FromMeanAndStandardDeviation(
        double mean,
        double standardDeviation
    )
    {
        var ratio =
            Positive(standardDeviation, nameof(standardDeviation)) / Positive(mean, nameof(mean));
        var variance = SmallArgument.LogOnePlus(ratio * ratio);
        return new(Math.Log(mean) - (0.5 * variance), Math.Sqrt(variance));
    }

    /// <summary>From the mean and standard deviation of the natural logarithm.</summary>
    /// <param name="logMean">Mean of the logarithm μ.</param>
    /// <param name="logStandardDeviation">Standard deviation of the logarithm σ, above 0.</param>
    public static LognormalDistribution FromLogMoments(
        double logMean,
        double logStandardDeviation
    ) => new(logMean, logStandardDeviation);

    /// <summary>From the median and the coefficient of variation of the variable.</summary>
    /// <param name="median">Median, above 0.</param>
    /// <param name="coefficientOfVariation">Standard deviation divided by the mean, above 0.</param>
    public static LognormalDistribution FromMedianAndVariation(
        double median,
        double coefficientOfVariation
    )
    {
        var v = Positive(coefficientOfVariation, nameof(coefficientOfVariation));
        return new(
            Math.Log(Positive(median, nameof(median))),
            Math.Sqrt(SmallArgument.LogOnePlus(v * v))
        );
    }

    /// <inheritdoc/>
    public override double LowerTail(double x) =>
        x <= 0 ? 0 : NormalQuantile.Probability((Math.Log(x) - LogMean) / LogStandardDeviation);

    /// <inheritdoc/>
    public override double UpperTail(double x) =>
        x <= 0 ? 1 : NormalQuantile.Probability((LogMean - Math.Log(x)) / LogStandardDeviation);

    /// <inheritdoc/>
    public override double Density(double x)
    {
        if (x <= 0)
        {
            return 0;
        }

        var z = (Math.Log(x) - LogMean) / LogStandardDeviation;
        return Math.Exp(-0.5 * z * z) / (x * LogStandardDeviation * Math.Sqrt(2 * Math.PI));
    }

    /// <inheritdoc/>
    public override double FromStandardNormal(double z) =>
        Math.Exp(LogMean + (LogStandardDeviation * z));

    /// <inheritdoc/>
    public override double ToStandardNormal(double x) =>
        x <= 0 ? -37 : (Math.Log(x) - LogMean) / LogStandardDeviation;

    /// <inheritdoc/>
    public override void FromStandardNormal(ReadOnlySpan<double> z, Span<double> x)
    {
        VectorFunctions.ExpOfLine(z, x, LogMean, LogStandardDeviation);
    }

    /// <inheritdoc/>
    internal override bool IsOfScore => true;

    /// <inheritdoc/>
    protected internal override double LowerQuantile(double p) =>
        FromStandardNormal(NormalQuantile.At(p));

    /// <inheritdoc/>
    protected internal override double UpperQuantile(double q) =>
        FromStandardNormal(-NormalQuantile.At(q));
}
