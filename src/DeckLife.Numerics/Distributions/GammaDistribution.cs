using System.Globalization;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;
using Special = MathNet.Numerics.SpecialFunctions;

namespace DeckLife.Numerics.Distributions;

/// <summary>The gamma distribution.</summary>
/// <remarks>Equation: density x^(k-1) exp(-x/θ)/(Γ(k) θ^k); mean k θ, variance k θ².</remarks>
public sealed class GammaDistribution : Distribution
{
    // The incomplete gamma function is summed in some sqrt(shape) terms: a distribution that narrow would never be done.
    private const double LargestShape = 1e6;

    // So steep a distribution has nearly all of its values far below the smallest number that a double can hold.
    private const double LeastShape = 0.001;

    // Below this logarithm of x/θ the first term of the series for the lower tail is all of it.
    private const double FirstTermOnly = -50;

    private readonly double _logGamma;
    private readonly Lazy<QuantileTable?> _table;

    private GammaDistribution(double shape, double scale)
    {
        Shape = Positive(shape, nameof(shape));
        if (shape > LargestShape)
        {
            throw new ArgumentOutOfRangeException(
                nameof(shape),
                "A gamma distribution with a standard deviation below 0.001 of its mean is not computed: take a fixed value, or a normal distribution."
            );
        }

        if (shape < LeastShape)
        {
            throw new ArgumentOutOfRangeException(
                nameof(shape),
                "A gamma distribution with a standard deviation above 31 times its mean is not computed: nearly all of its values are as good as 0."
            );
        }

        Scale = Positive(scale, nameof(scale));
        _logGamma = Special.GammaLn(shape);
        _table = new(() =>
            QuantileTable.TryMake(
                LogOfScaled,
                v => ((Shape * v) - Math.Exp(v) - _logGamma, Shape - Math.Exp(v))
            )
        );
    }

    /// <summary>Shape k.</summary>
    public double Shape { get; }

    /// <summary>Scale θ, in the variable's unit.</summary>
    public double Scale { get; }

    /// <inheritdoc/>
    public override double Mean => Shape * Scale;

    /// <inheritdoc/>
    public override double StandardDeviation => Math.Sqrt(Shape) * Scale;

    /// <inheritdoc/>
    public override double Lower => 0;

    /// <inheritdoc/>
    public override double Upper => double.PositiveInfinity;

    /// <inheritdoc/>
    public override string Description =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"gamma, shape {Shape:G6}, scale {Scale:G6}, mean {Mean:G6}, s.d. {StandardDeviation:G6}"
        );

    /// <summary>From shape and scale.</summary>
    /// <param name="shape">Shape k, from 0.001 to 1e6.</param>
    /// <param name="scale">Scale θ, above 0.</param>
    public static GammaDistribution FromShapeAndScale(double shape, double scale) =>
        new(shape, scale);

    /// <summary>From the mean and standard deviation.</summary>
    /// <param name="mean">Mean, above 0.</param>
    /// <param name="standardDeviation">Standard deviation, from 0.001 to 31 times the mean.</param>
    public static GammaDistribution FromMeanAndStandardDeviation(
        double mean,
        double standardDeviation
    )
    {
        var ratio =
            Positive(mean, nameof(mean)) / Positive(standardDeviation, nameof(standardDeviation));
        return new(ratio * ratio, standardDeviation / ratio);
    }

    /// <inheritdoc/>
    public override double LowerTail(double x) => x <= 0 ? 0 : LowerOfScaled(x / Scale);

    /// <inheritdoc/>
    public override double UpperTail(double x) =>
        x <= 0 ? 1 : Special.GammaUpperRegularized(Shape, x / Scale);

    /// <inheritdoc/>
    public override double Density(double x) =>
        x <= 0 ? 0 : Math.Exp((Shape * Math.Log(x / Scale)) - (x / Scale) - _logGamma) / x;

    /// <inheritdoc/>
    protected internal override void FromTails(
        ReadOnlySpan<double> place,
        double middle,
        Span<double> tails,
        Span<double> result
    )
    {
        if (_table.Value is not { } table)
        {
            base.FromTails(place, middle, tails, result);
            return;
        }

        ToScores(place, middle, tails);
        for (var i = 0; i < tails.Length; i++)
        {
            result[i] = table.At(tails[i]);
        }

        VectorFunctions.Exp(result, result);
        VectorLoops.Line(result, result, 0, Scale);
    }

    /// <inheritdoc/>
    protected internal override double LowerQuantile(double p) =>
        Scale * Math.Exp(Solve(p, lower: true));

    /// <inheritdoc/>
    protected internal override double UpperQuantile(double q) =>
        Scale * Math.Exp(Solve(q, lower: false));

    // ln(x/θ) of a score.
    private double LogOfScaled(double z) =>
        Solve(NormalQuantile.Probability(-Math.Abs(z)), lower: z <= 0);

    // MathNet's function is 0 below 1e-15: there the series x^k e^-x/Γ(k+1) Σ x^n/((k+1)…(k+n)) (DLMF 8.7.1).
    private double LowerOfScaled(double y)
    {
        if (y >= 0.5)
        {
            return Special.GammaLowerRegularized(Shape, y);
        }

        var sum = 1.0;
        var term = 1.0;
        for (var n = 1; n < 60 && term > 1e-17 * sum; n++)
        {
            term *= y / (Shape + n);
            sum += term;
        }

        return sum * Math.Exp((Shape * Math.Log(y)) - y - _logGamma) / Shape;
    }

    // In v = ln(x/θ); the density of v is x f(x).
    private double Solve(double tail, bool lower)
    {
        // For small x the lower tail is x^k/Γ(k+1): the start from it is exact in the far tail.
        var logTail = lower ? Math.Log(tail) : SmallArgument.LogOnePlus(-tail);
        var power = (logTail + _logGamma + Math.Log(Shape)) / Shape;
        if (power < FirstTermOnly)
        {
            return power;
        }

        var start = lower
            ? Math.Min(power, Math.Log(Shape))
            : Math.Log(Shape + (2 * Math.Sqrt(Shape)));
        return TailInversion.Solve(
            v =>
                lower
                    ? LowerOfScaled(Math.Exp(v))
                    : Special.GammaUpperRegularized(Shape, Math.Exp(v)),
            v => Math.Exp((Shape * v) - Math.Exp(v) - _logGamma),
            tail,
            lower,
            start
        );
    }
}
