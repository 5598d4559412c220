using System.Globalization;

namespace DeckLife.Numerics.Distributions;

/// <summary>The uniform distribution between two bounds.</summary>
public sealed class UniformDistribution : Distribution
{
    /// <summary>Makes the distribution.</summary>
    /// <param name="lower">Smallest value, finite.</param>
    /// <param name="upper">Largest value, finite, above <paramref name="lower"/>.</param>
    public UniformDistribution(double lower, double upper)
    {
        Lower = Finite(lower, nameof(lower));
        Upper = Finite(upper, nameof(upper));
        Positive(upper - lower, nameof(upper));
    }

    /// <inheritdoc/>
    public override double Mean => 0.5 * (Lower + Upper);

    /// <inheritdoc/>
    public override double StandardDeviation => (Upper - Lower) / Math.Sqrt(12);

    /// <inheritdoc/>
    public override double Lower { get; }

    /// <inheritdoc/>
    public override double Upper { get; }

    /// <inheritdoc/>
    public override string Description =>
        string.Create(CultureInfo.InvariantCulture, $"uniform, {Lower:G6} to {Upper:G6}");

    /// <summary>From the mean and standard deviation.</summary>
    /// <param name="mean">Mean.</param>
    /// <param name="standardDeviation">Standard deviation, above 0.</param>
    public static UniformDistribution FromMeanAndStandardDeviation(
        double mean,
        double standardDeviation
    ) => new(mean - (Math.Sqrt(3) * standardDeviation), mean + (Math.Sqrt(3) * standardDeviation));

    /// <inheritdoc/>
    public override double LowerTail(double x) => Math.Clamp((x - Lower) / (Upper - Lower), 0, 1);

    /// <inheritdoc/>
    public override double UpperTail(double x) => Math.Clamp((Upper - x) / (Upper - Lower), 0, 1);

    /// <inheritdoc/>
    public override double Density(double x) => x < Lower || x > Upper ? 0 : 1 / (Upper - Lower);

    /// <inheritdoc/>
    protected internal override void FromTails(
        ReadOnlySpan<double> place,
        double middle,
        Span<double> tails,
        Span<double> result
    )
    {
        for (var i = 0; i < tails.Length; i++)
        {
            var distance = tails[i] * (Upper - Lower);
            result[i] = place[i] <= middle ? Lower + distance : Upper - distance;
        }
    }

    /// <inheritdoc/>
    protected internal override double LowerQuantile(double p) => Lower + (p * (Upper - Lower));

    /// <inheritdoc/>
    protected internal override double UpperQuantile(double q) => Upper - (q * (Upper - Lower));
}
