using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;
using MathNet.Numerics.Distributions;

namespace DeckLife.Population;

/// <summary>How one property varies over the points of a deck, in the canonical unit of its quantity.</summary>
/// <remarks>Immutable. A scale of 0 means that every point has the same value.</remarks>
public sealed class PointDistribution
{
    private readonly Form form;
    private readonly double location;
    private readonly double scale;
    private readonly double lower;
    private readonly double upper;
    private readonly SmoothedReadings? readings;

    private PointDistribution(
        Form form,
        double location,
        double scale,
        double lower = 0,
        double upper = 0,
        SmoothedReadings? readings = null
    )
    {
        this.readings = readings;
        this.form = form;
        this.location = location;
        this.scale = scale;
        this.lower = lower;
        this.upper = upper;
    }

    private enum Form
    {
        Lognormal,
        TruncatedNormal,
        ScaledBeta,
        Readings,
    }

    /// <summary>Whether every point has the same value.</summary>
    public bool IsExact => scale == 0;

    /// <summary>Standard deviation of the logarithm, about; 0 where every point has the same value.</summary>
    internal double LogarithmicSpread =>
        IsExact ? 0
        : form == Form.Lognormal ? scale
        : Math.Log(Quantile(0.84) / Math.Max(Quantile(0.16), double.Epsilon)) / 2;

    /// <summary>A lognormal, by the mean and standard deviation of its logarithm.</summary>
    /// <param name="meanOfLogarithm">Mean of ln x.</param>
    /// <param name="sdOfLogarithm">Standard deviation of ln x, not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">A parameter is not finite, or the deviation is negative.</exception>
    public static PointDistribution Lognormal(double meanOfLogarithm, double sdOfLogarithm)
    {
        CheckFinite(meanOfLogarithm, nameof(meanOfLogarithm));
        CheckSpread(sdOfLogarithm, nameof(sdOfLogarithm));
        return new(Form.Lognormal, meanOfLogarithm, sdOfLogarithm);
    }

    /// <summary>A lognormal, by its own mean and coefficient of variation.</summary>
    /// <param name="mean">Mean of x, positive.</param>
    /// <param name="coefficientOfVariation">Standard deviation divided by the mean, not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">The mean is not positive, or the coefficient is negative.</exception>
    /// <remarks>Equation: sd² of ln x = ln(1 + cv²), mean of ln x = ln(mean) − sd²/2. A mean is not a median.</remarks>
    public static PointDistribution LognormalWithMean(double mean, double coefficientOfVariation)
    {
        CheckPositive(mean, nameof(mean));
        CheckSpread(coefficientOfVariation, nameof(coefficientOfVariation));
        var variance = Math.Log(1 + coefficientOfVariation * coefficientOfVariation);
        return new(Form.Lognormal, Math.Log(mean) - variance / 2, Math.Sqrt(variance));
    }

    /// <summary>A normal, truncated at 0 (and scaled up again, so that nothing is lost).</summary>
    /// <param name="mean">Mean before truncation.</param>
    /// <param name="standardDeviation">Standard deviation before truncation, not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">The mean is not positive, or the deviation is negative.</exception>
    public static PointDistribution NormalAboveZero(double mean, double standardDeviation)
    {
        CheckPositive(mean, nameof(mean));
        CheckSpread(standardDeviation, nameof(standardDeviation));
        return new(Form.TruncatedNormal, mean, standardDeviation);
    }

    /// <summary>A beta on an interval, by its mean and standard deviation.</summary>
    /// <param name="mean">Mean, inside the interval.</param>
    /// <param name="standardDeviation">Standard deviation, positive.</param>
    /// <param name="lower">Lower end.</param>
    /// <param name="upper">Upper end.</param>
    /// <exception cref="ArgumentOutOfRangeException">No beta has these moments on this interval.</exception>
    /// <remarks>
    /// Equation: with µ = (mean − lower)/(upper − lower) and v = (sd/(upper − lower))²,
    /// p + q = µ(1 − µ)/v − 1, p = µ(p + q).
    /// </remarks>
    public static PointDistribution ScaledBeta(
        double mean,
        double standardDeviation,
        double lower,
        double upper
    )
    {
        var mu = (mean - lower) / (upper - lower);
        var relative = standardDeviation / (upper - lower);
        var sum = mu * (1 - mu) / (relative * relative) - 1;
        if (!(sum > 0) || !double.IsFinite(sum) || !(mu > 0 && mu < 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(standardDeviation),
                standardDeviation,
                "No beta distribution has this mean and deviation between these ends."
            );
        }

        return new(Form.ScaledBeta, mu * sum, (1 - mu) * sum, lower, upper);
    }

    /// <summary>The shape of readings, moved and stretched to a mean and deviation, truncated at 0.</summary>
    internal static PointDistribution FromReadings(
        SmoothedReadings readings,
        double mean,
        double standardDeviation
    ) => new(Form.Readings, mean, standardDeviation, readings: readings);

    /// <summary>The value below which a share of the points lies.</summary>
    /// <param name="probability">The share, between 0 and 1.</param>
    public double Quantile(double probability) =>
        form switch
        {
            Form.Lognormal => IsExact
                ? Math.Exp(location)
                : Math.Exp(location + scale * NormalQuantile.At(probability)),
            Form.TruncatedNormal => IsExact
                ? location
                : location + scale * NormalQuantile.At(TruncatedProbability(probability)),
            Form.Readings => location
                + scale
                    * readings!.Quantile(
                        readings.Cumulative(-location / scale)
                            + probability * (1 - readings.Cumulative(-location / scale))
                    ),
            _ => lower + (upper - lower) * Beta.InvCDF(location, scale, probability),
        };

    /// <summary>The values below which shares of the points lie.</summary>
    /// <param name="probabilities">The shares, strictly between 0 and 1.</param>
    /// <param name="values">Receives the values; may be the same memory as the shares.</param>
    internal void Quantiles(ReadOnlySpan<double> probabilities, Span<double> values)
    {
        values = values[..probabilities.Length];
        if (IsExact || form is not (Form.Lognormal or Form.TruncatedNormal))
        {
            for (var i = 0; i < values.Length; i++)
            {
                values[i] = Quantile(probabilities[i]);
            }

            return;
        }

        if (form == Form.Lognormal)
        {
            VectorFunctions.NormalQuantile(probabilities, values);
            AtScores(values, values);
            return;
        }

        var below = StandardNormalCumulative(-location / scale);
        VectorLoops.Line(probabilities, values, below, 1 - below);
        VectorLoops.Clamp(values, 1e-300, 1 - 1e-16);
        VectorFunctions.NormalQuantile(values, values);
        VectorLoops.Line(values, values, location, scale);
    }

    /// <summary>The values at standard normal scores: below each lies the share that lies below its score.</summary>
    /// <param name="scores">The scores.</param>
    /// <param name="values">Receives the values; may be the same memory as the scores.</param>
    internal void AtScores(ReadOnlySpan<double> scores, Span<double> values)
    {
        if (form != Form.Lognormal)
        {
            for (var i = 0; i < scores.Length; i++)
            {
                values[i] = IsExact ? location : Quantile(StandardNormalCumulative(scores[i]));
            }

            return;
        }

        values = values[..scores.Length];
        if (IsExact)
        {
            values.Fill(Math.Exp(location));
            return;
        }

        VectorLoops.Line(scores, values, location, scale);
        VectorFunctions.Exp(values, values);
    }

    /// <summary>The share of the points whose value is at most <paramref name="value"/>.</summary>
    /// <param name="value">The value.</param>
    public double Cumulative(double value)
    {
        switch (form)
        {
            case Form.Lognormal:
                return value <= 0 ? 0
                    : IsExact ? (Math.Log(value) >= location ? 1 : 0)
                    : StandardNormalCumulative((Math.Log(value) - location) / scale);
            case Form.TruncatedNormal:
                if (IsExact)
                {
                    return value >= location ? 1 : 0;
                }

                var below = StandardNormalCumulative(-location / scale);
                return value <= 0
                    ? 0
                    : (StandardNormalCumulative((value - location) / scale) - below) / (1 - below);
            case Form.Readings:
                var under = readings!.Cumulative(-location / scale);
                return value <= 0
                    ? 0
                    : (readings.Cumulative((value - location) / scale) - under) / (1 - under);
            default:
                return value <= lower ? 0
                    : value >= upper ? 1
                    : Beta.CDF(location, scale, (value - lower) / (upper - lower));
        }
    }

    /// <summary>The share of the points at or below each of several values.</summary>
    /// <param name="values">The values.</param>
    /// <param name="shares">Receives the shares; may be the same memory as the values.</param>
    public void Cumulative(ReadOnlySpan<double> values, Span<double> shares)
    {
        if (form != Form.Lognormal || IsExact)
        {
            for (var i = 0; i < values.Length; i++)
            {
                shares[i] = Cumulative(values[i]);
            }

            return;
        }

        shares = shares[..values.Length];
        values.CopyTo(shares);
        // A content of 0 has no logarithm: its share is 0 to the last digit from here down.
        VectorLoops.Clamp(shares, 1e-300, 1e300);
        VectorFunctions.Log(shares, shares);
        VectorLoops.Line(shares, shares, -location / scale, 1 / scale);
        VectorFunctions.NormalCdf(shares, shares);
    }

    /// <summary>Splits a spread into what varies within the deck and what is not known about the deck as a whole.</summary>
    /// <param name="value">The value with its whole spread.</param>
    /// <param name="withinDeckShare">Share of the variance (of the logarithm, for a lognormal) that varies within the deck, 0 to 1.</param>
    /// <param name="knowledgeScore">Where this draw of what is not known lies, in standard deviations.</param>
    /// <returns>The distribution over the points of the deck in this draw.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The share is outside 0 to 1.</exception>
    public static PointDistribution WithinDeck(
        UncertainValue value,
        double withinDeckShare,
        double knowledgeScore
    )
    {
        if (!(withinDeckShare >= 0 && withinDeckShare <= 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(withinDeckShare),
                withinDeckShare,
                "The share of the spread within the deck lies between 0 and 1."
            );
        }

        var within = Math.Sqrt(withinDeckShare);
        var known = Math.Sqrt(1 - withinDeckShare) * knowledgeScore;
        if (value.Shape == SpreadShape.Lognormal)
        {
            var whole = LognormalWithMean(value.Mean, value.CoefficientOfVariation);
            return new(Form.Lognormal, whole.location + whole.scale * known, whole.scale * within);
        }

        CheckPositive(value.Mean, nameof(value));
        var sd = value.Mean * value.CoefficientOfVariation;
        if (withinDeckShare == 0 && sd > 0)
        {
            // All ignorance: the draw itself comes from the normal truncated at 0.
            var share = StandardNormalCumulative(knowledgeScore);
            return new(
                Form.TruncatedNormal,
                Math.Max(
                    new PointDistribution(Form.TruncatedNormal, value.Mean, sd).Quantile(share),
                    double.Epsilon
                ),
                0
            );
        }

        // A deck's own mean at or below 0 has no meaning: held at a thousandth of the stated mean.
        return new(
            Form.TruncatedNormal,
            Math.Max(value.Mean + sd * known, 1e-3 * value.Mean),
            sd * within
        );
    }

    /// <summary>The standard normal distribution function.</summary>
    /// <param name="z">Standard score.</param>
    internal static double StandardNormalCumulative(double z) => NormalQuantile.Probability(z);

    private double TruncatedProbability(double probability)
    {
        var below = StandardNormalCumulative(-location / scale);
        return below + probability * (1 - below);
    }

    private static void CheckFinite(double value, string name)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentOutOfRangeException(name, value, "A finite number is needed.");
        }
    }

    private static void CheckPositive(double value, string name)
    {
        if (!(value > 0) || !double.IsFinite(value))
        {
            throw new ArgumentOutOfRangeException(name, value, "A positive number is needed.");
        }
    }

    private static void CheckSpread(double value, string name)
    {
        if (!(value >= 0) || !double.IsFinite(value))
        {
            throw new ArgumentOutOfRangeException(name, value, "A spread can't be negative.");
        }
    }
}
