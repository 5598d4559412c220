using System.Globalization;
using Special = MathNet.Numerics.SpecialFunctions;

namespace DeckLife.Numerics.Distributions;

/// <summary>The beta distribution on an interval.</summary>
/// <remarks>
/// Equation: y = (x - lower)/(upper - lower) has density y^(p-1) (1-y)^(q-1)/B(p,q).
/// Mean m and standard deviation s of y give p + q = m (1 - m)/s² - 1, p = m (p + q).
/// </remarks>
public sealed class BetaDistribution : Distribution
{
    private readonly double _logBeta;

    private BetaDistribution(double shapeP, double shapeQ, double lower, double upper)
    {
        ShapeP = Positive(shapeP, nameof(shapeP));
        ShapeQ = Positive(shapeQ, nameof(shapeQ));
        Lower = Finite(lower, nameof(lower));
        Upper = Finite(upper, nameof(upper));
        Positive(upper - lower, nameof(upper));
        _logBeta =
            Special.GammaLn(shapeP) + Special.GammaLn(shapeQ) - Special.GammaLn(shapeP + shapeQ);
    }

    /// <summary>Shape p, at the lower end.</summary>
    public double ShapeP { get; }

    /// <summary>Shape q, at the upper end.</summary>
    public double ShapeQ { get; }

    /// <inheritdoc/>
    public override double Mean => Lower + ((Upper - Lower) * ShapeP / (ShapeP + ShapeQ));

    /// <inheritdoc/>
    public override double StandardDeviation
    {
        get
        {
            var sum = ShapeP + ShapeQ;
            return (Upper - Lower) * Math.Sqrt(ShapeP * ShapeQ / (sum + 1)) / sum;
        }
    }

    /// <inheritdoc/>
    public override double Lower { get; }

    /// <inheritdoc/>
    public override double Upper { get; }

    /// <inheritdoc/>
    public override string Description =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"beta on {Lower:G6} to {Upper:G6}, shapes {ShapeP:G6} and {ShapeQ:G6}, mean {Mean:G6}, s.d. {StandardDeviation:G6}"
        );

    /// <summary>From the two shapes.</summary>
    /// <param name="shapeP">Shape at the lower end, above 0.</param>
    /// <param name="shapeQ">Shape at the upper end, above 0.</param>
    /// <param name="lower">Smallest value.</param>
    /// <param name="upper">Largest value.</param>
    public static BetaDistribution FromShapes(
        double shapeP,
        double shapeQ,
        double lower = 0,
        double upper = 1
    ) => new(shapeP, shapeQ, lower, upper);

    /// <summary>From the mean and standard deviation of the variable and its interval.</summary>
    /// <param name="mean">Mean, inside the interval.</param>
    /// <param name="standardDeviation">Standard deviation, above 0 and below sqrt((mean - lower)(upper - mean)).</param>
    /// <param name="lower">Smallest value.</param>
    /// <param name="upper">Largest value.</param>
    public static BetaDistribution FromMeanAndStandardDeviation(
        double mean,
        double standardDeviation,
        double lower,
        double upper
    )
    {
        var width = Positive(upper - lower, nameof(upper));
        var m = (mean - lower) / width;
        var s = Positive(standardDeviation, nameof(standardDeviation)) / width;
        var sum = (m * (1 - m) / (s * s)) - 1;
        if (!(m > 0 && m < 1 && sum > 0))
        {
            throw new ArgumentOutOfRangeException(
                nameof(standardDeviation),
                standardDeviation,
                "A beta distribution needs its mean inside the interval and a standard deviation below sqrt((mean - lower)(upper - mean))."
            );
        }

        return new(m * sum, (1 - m) * sum, lower, upper);
    }

    /// <inheritdoc/>
    public override double LowerTail(double x) =>
        x <= Lower ? 0
        : x >= Upper ? 1
        : Special.BetaRegularized(ShapeP, ShapeQ, (x - Lower) / (Upper - Lower));

    /// <inheritdoc/>
    public override double UpperTail(double x) =>
        x <= Lower ? 1
        : x >= Upper ? 0
        : Special.BetaRegularized(ShapeQ, ShapeP, (Upper - x) / (Upper - Lower));

    /// <inheritdoc/>
    public override double Density(double x)
    {
        if (x <= Lower || x >= Upper)
        {
            return 0;
        }

        var width = Upper - Lower;
        return Math.Exp(
                ((ShapeP - 1) * Math.Log((x - Lower) / width))
                    + ((ShapeQ - 1) * Math.Log((Upper - x) / width))
                    - _logBeta
            ) / width;
    }

    /// <inheritdoc/>
    protected internal override double LowerQuantile(double p) =>
        At(Solve(p, ShapeP, ShapeQ), fromBelow: true);

    /// <inheritdoc/>
    protected internal override double UpperQuantile(double q) =>
        At(Solve(q, ShapeQ, ShapeP), fromBelow: false);

    // The logit v of the distance from the tail's own end, as a share of the interval.
    private double Solve(double tail, double near, double far)
    {
        var power = (Math.Log(tail) + Math.Log(near) + _logBeta) / near;
        return TailInversion.Solve(
            v => Special.BetaRegularized(near, far, 1 / (1 + Math.Exp(-v))),
            v =>
                Math.Exp(
                    -(near * Math.Log(1 + Math.Exp(-v)))
                        - (far * Math.Log(1 + Math.Exp(v)))
                        - _logBeta
                ),
            tail,
            lower: true,
            Math.Min(power, Math.Log(near / far))
        );
    }

    private double At(double v, bool fromBelow)
    {
        var width = Upper - Lower;
        var near = 1 / (1 + Math.Exp(-v));
        return fromBelow ? Lower + (width * near) : Upper - (width * near);
    }
}
