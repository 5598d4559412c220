using System.Globalization;
using DeckLife.Numerics.RootFinding;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Distributions;

/// <summary>The two-parameter Weibull distribution.</summary>
/// <remarks>Equation: P(X &gt; x) = exp(-(x/λ)^k); mean λ Γ(1 + 1/k), variance λ² (Γ(1 + 2/k) - Γ(1 + 1/k)²).</remarks>
public sealed class WeibullDistribution : Distribution
{
    private const double LeastShape = 0.02;
    private const double LargestShape = 1e6;

    private WeibullDistribution(double shape, double scale)
    {
        Shape = Positive(shape, nameof(shape));
        if (shape is < LeastShape or > LargestShape)
        {
            throw new ArgumentOutOfRangeException(
                nameof(shape),
                "A Weibull distribution needs a shape from 0.02 to 1e6: below, its spread overflows; above, it is as good as a fixed value."
            );
        }

        Scale = Positive(scale, nameof(scale));
    }

    /// <summary>Shape k.</summary>
    public double Shape { get; }

    /// <summary>Scale λ, in the variable's unit.</summary>
    public double Scale { get; }

    /// <inheritdoc/>
    public override double Mean =>
        Scale * Math.Exp(MathNet.Numerics.SpecialFunctions.GammaLn(1 + (1 / Shape)));

    /// <inheritdoc/>
    public override double StandardDeviation => Mean * Variation(Shape);

    /// <inheritdoc/>
    public override double Lower => 0;

    /// <inheritdoc/>
    public override double Upper => double.PositiveInfinity;

    /// <inheritdoc/>
    public override string Description =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"Weibull, shape {Shape:G6}, scale {Scale:G6}, mean {Mean:G6}, s.d. {StandardDeviation:G6}"
        );

    /// <summary>From shape and scale.</summary>
    /// <param name="shape">Shape k, from 0.02 to 1e6.</param>
    /// <param name="scale">Scale λ, above 0.</param>
    public static WeibullDistribution FromShapeAndScale(double shape, double scale) =>
        new(shape, scale);

    /// <summary>From the mean and standard deviation; the shape is solved for.</summary>
    /// <param name="mean">Mean, above 0.</param>
    /// <param name="standardDeviation">Standard deviation, from 0.0015 to 400 times the mean.</param>
    public static WeibullDistribution FromMeanAndStandardDeviation(
        double mean,
        double standardDeviation
    )
    {
        var variation =
            Positive(standardDeviation, nameof(standardDeviation)) / Positive(mean, nameof(mean));
        if (
            !BracketedRoot.TryFind(
                logShape => Math.Log(Variation(Math.Exp(logShape)) / variation),
                Math.Log(0.15),
                Math.Log(850),
                1e-15,
                out var root
            )
        )
        {
            throw new ArgumentOutOfRangeException(
                nameof(standardDeviation),
                standardDeviation,
                "A Weibull distribution needs a standard deviation from 0.0015 to 400 times the mean."
            );
        }

        var shape = Math.Exp(root);
        return new(
            shape,
            mean / Math.Exp(MathNet.Numerics.SpecialFunctions.GammaLn(1 + (1 / shape)))
        );
    }

    /// <inheritdoc/>
    public override double LowerTail(double x) =>
        x <= 0 ? 0 : -SmallArgument.ExpMinusOne(-Math.Pow(x / Scale, Shape));

    /// <inheritdoc/>
    public override double UpperTail(double x) =>
        x <= 0 ? 1 : Math.Exp(-Math.Pow(x / Scale, Shape));

    /// <inheritdoc/>
    public override double Density(double x)
    {
        if (x <= 0)
        {
            return 0;
        }

        var y = Math.Pow(x / Scale, Shape);
        return Shape * y / x * Math.Exp(-y);
    }

    /// <inheritdoc/>
    protected internal override void FromTails(
        ReadOnlySpan<double> place,
        double middle,
        Span<double> tails,
        Span<double> result
    )
    {
        SmallArgument.MinusLog(place, middle, isTailBelow: false, tails);
        VectorFunctions.Log(tails, tails);
        VectorFunctions.ExpOfLine(tails, result, 0, 1 / Shape);
        VectorLoops.Line(result, result, 0, Scale);
    }

    /// <inheritdoc/>
    protected internal override double LowerQuantile(double p) =>
        Scale * Math.Pow(-SmallArgument.LogOnePlus(-p), 1 / Shape);

    /// <inheritdoc/>
    protected internal override double UpperQuantile(double q) =>
        Scale * Math.Pow(-Math.Log(q), 1 / Shape);

    // The coefficient of variation: falls as the shape grows.
    private static double Variation(double shape) =>
        Math.Sqrt(SmallArgument.ExpMinusOne(LogMomentRatio(1 / shape)));

    // ln(Γ(1 + 2e)/Γ(1 + e)²); where both logarithms nearly cancel, by their series Σ (-1)^n ζ(n) (2^n - 2) e^n / n (DLMF 5.7.3).
    private static double LogMomentRatio(double e) =>
        e > 0.003
            ? MathNet.Numerics.SpecialFunctions.GammaLn(1 + (2 * e))
                - (2 * MathNet.Numerics.SpecialFunctions.GammaLn(1 + e))
            : e
                * e
                * (
                    (Math.PI * Math.PI / 6)
                    - (
                        e
                        * (
                            2.4041138063191886
                            - (e * (3.5 * 1.0823232337111382 - (e * 6 * 1.0369277551433699)))
                        )
                    )
                );
}
