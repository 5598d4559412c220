using System.Globalization;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Distributions;

/// <summary>The Gumbel distribution of largest values (extreme value type I).</summary>
/// <remarks>Equation: P(X ≤ x) = exp(-exp(-(x - a)/b)); mean a + γ b, standard deviation π b/√6.</remarks>
public sealed class GumbelDistribution : Distribution
{
    private const double EulerGamma = 0.57721566490153286061; // DLMF 5.2.3

    private GumbelDistribution(double location, double scale)
    {
        Location = Finite(location, nameof(location));
        Scale = Positive(scale, nameof(scale));
    }

    /// <summary>Location a, the most likely value.</summary>
    public double Location { get; }

    /// <summary>Scale b.</summary>
    public double Scale { get; }

    /// <inheritdoc/>
    public override double Mean => Location + (EulerGamma * Scale);

    /// <inheritdoc/>
    public override double StandardDeviation => Math.PI * Scale / Math.Sqrt(6);

    /// <inheritdoc/>
    public override double Lower => double.NegativeInfinity;

    /// <inheritdoc/>
    public override double Upper => double.PositiveInfinity;

    /// <inheritdoc/>
    public override string Description =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"Gumbel of largest values, mean {Mean:G6}, s.d. {StandardDeviation:G6}"
        );

    /// <summary>From the mean and standard deviation.</summary>
    /// <param name="mean">Mean.</param>
    /// <param name="standardDeviation">Standard deviation, above 0.</param>
    public static GumbelDistribution FromMeanAndStandardDeviation(
        double mean,
        double standardDeviation
    )
    {
        var scale = Positive(standardDeviation, nameof(standardDeviation)) * Math.Sqrt(6) / Math.PI;
        return new(Finite(mean, nameof(mean)) - (EulerGamma * scale), scale);
    }

    /// <summary>From location and scale.</summary>
    /// <param name="location">Location a, the most likely value.</param>
    /// <param name="scale">Scale b, above 0.</param>
    public static GumbelDistribution FromLocationAndScale(double location, double scale) =>
        new(location, scale);

    /// <inheritdoc/>
    public override double LowerTail(double x) => Math.Exp(-Math.Exp((Location - x) / Scale));

    /// <inheritdoc/>
    public override double UpperTail(double x) =>
        -SmallArgument.ExpMinusOne(-Math.Exp((Location - x) / Scale));

    /// <inheritdoc/>
    public override double Density(double x)
    {
        var y = (Location - x) / Scale;
        return y > 700 ? 0 : Math.Exp(y - Math.Exp(y)) / Scale;
    }

    /// <inheritdoc/>
    protected internal override void FromTails(
        ReadOnlySpan<double> place,
        double middle,
        Span<double> tails,
        Span<double> result
    )
    {
        SmallArgument.MinusLog(place, middle, isTailBelow: true, tails);
        VectorFunctions.Log(tails, tails);
        VectorLoops.Line(tails, result, Location, -Scale);
    }

    /// <inheritdoc/>
    protected internal override double LowerQuantile(double p) =>
        Location - (Scale * Math.Log(-Math.Log(p)));

    /// <inheritdoc/>
    protected internal override double UpperQuantile(double q) =>
        Location - (Scale * Math.Log(-SmallArgument.LogOnePlus(-q)));
}
