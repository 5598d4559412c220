using System.Globalization;
using DeckLife.Numerics.Sampling;
using Special = MathNet.Numerics.SpecialFunctions;

namespace DeckLife.Numerics.Distributions;

/// <summary>The beta distribution on an interval.</summary>
/// <remarks>
/// Equation: y = (x - lower)/(upper - lower) has density y^(p-1) (1-y)^(q-1)/B(p,q).
/// Mean m and standard deviation s of y give p + q = m (1 - m)/s² - 1, p = m (p + q).
/// </remarks>
public sealed class BetaDistribution : Distribution
{
    private const double LeastShape = 0.001;
    private const double LargestShape = 2e12;

    // Below this logarithm of the distance from an end the first term of the series for the tail is all of it.
    private const double FirstTermOnly = -80;
    private const double OtherEnd = -30;

    private readonly double _logBeta;
    private readonly Lazy<QuantileTable?> _table;

    private BetaDistribution(double shapeP, double shapeQ, double lower, double upper)
    {
        ShapeP = Shape(shapeP, nameof(shapeP));
        ShapeQ = Shape(shapeQ, nameof(shapeQ));
        Lower = Finite(lower, nameof(lower));
        Upper = Finite(upper, nameof(upper));
        Positive(upper - lower, nameof(upper));
        _logBeta =
            Special.GammaLn(shapeP) + Special.GammaLn(shapeQ) - Special.GammaLn(shapeP + shapeQ);
        _table = new(() => QuantileTable.TryMake(Logit, LogDensityOfLogit));
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
    /// <param name="shapeP">Shape at the lower end, from 0.001 to 2e12.</param>
    /// <param name="shapeQ">Shape at the upper end, from 0.001 to 2e12.</param>
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
            result[i] = At(table.At(tails[i]), fromBelow: true);
        }
    }

    /// <inheritdoc/>
    protected internal override double LowerQuantile(double p) =>
        At(Solve(p, ShapeP, ShapeQ), fromBelow: true);

    /// <inheritdoc/>
    protected internal override double UpperQuantile(double q) =>
        At(Solve(q, ShapeQ, ShapeP), fromBelow: false);

    private static double Shape(double value, string name) =>
        value is >= LeastShape and <= LargestShape
            ? value
            : throw new ArgumentOutOfRangeException(
                name,
                value,
                "A beta distribution needs shapes from 0.001 to 2e12: below, it is as good as two fixed values, above, as one."
            );

    // The logit of the share of the interval below the value of a score.
    private double Logit(double z) =>
        z <= 0
            ? Solve(NormalQuantile.Probability(z), ShapeP, ShapeQ)
            : -Solve(NormalQuantile.Probability(-z), ShapeQ, ShapeP);

    private (double Value, double Slope) LogDensityOfLogit(double v)
    {
        var share = 1 / (1 + Math.Exp(-v));
        var rest = 1 / (1 + Math.Exp(v));
        return (LogDensity(v, ShapeP, ShapeQ), (ShapeP * rest) - (ShapeQ * share));
    }

    private double LogDensity(double v, double near, double far) =>
        -(near * LogOnePlusExp(-v)) - (far * LogOnePlusExp(v)) - _logBeta;

    private static double LogOnePlusExp(double v) =>
        Math.Max(v, 0) + SmallArgument.LogOnePlus(Math.Exp(-Math.Abs(v)));

    // The logit v of the distance from the tail's own end, as a share of the interval.
    private double Solve(double tail, double near, double far)
    {
        var power = (Math.Log(tail) + Math.Log(near) + _logBeta) / near;
        if (power < FirstTermOnly)
        {
            return power;
        }

        // A value so near the other end that its distance from this one is the whole interval.
        var rest = (SmallArgument.LogOnePlus(-tail) + Math.Log(far) + _logBeta) / far;
        if (rest < OtherEnd && power > OtherEnd)
        {
            return -Solve(1 - tail, far, near);
        }

        return TailInversion.Solve(
            v => Special.BetaRegularized(near, far, 1 / (1 + Math.Exp(-v))),
            v => Math.Exp(LogDensity(v, near, far)),
            tail,
            lower: true,
            Math.Min(power, Math.Log(near / far))
        );
    }

    // By the distance from the nearer end.
    private double At(double v, bool fromBelow)
    {
        var distance = (Upper - Lower) / (1 + Math.Exp(Math.Abs(v)));
        return v <= 0 == fromBelow ? Lower + distance : Upper - distance;
    }
}
