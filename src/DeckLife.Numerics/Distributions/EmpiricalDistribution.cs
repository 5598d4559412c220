using System.Collections.Immutable;
using System.Globalization;

namespace DeckLife.Numerics.Distributions;

/// <summary>The distribution of a list of measured values: straight lines between the order statistics.</summary>
/// <remarks>
/// Equation: P(X ≤ x(i)) = (i - 1)/(n - 1) (Hyndman &amp; Fan, The American Statistician 50 (1996) 361-365, definition 7).
/// It never goes beyond the smallest and largest value; its mean gives half weight to these two.
/// </remarks>
public sealed class EmpiricalDistribution : Distribution
{
    private readonly double[] _sorted;

    /// <summary>Makes the distribution.</summary>
    /// <param name="values">Measured values, in any order, finite, at least 2 of them different.</param>
    public EmpiricalDistribution(IEnumerable<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        _sorted = [.. values];
        Array.Sort(_sorted);
        if (_sorted.Length < 2 || !(_sorted[^1] > _sorted[0]) || !_sorted.All(double.IsFinite))
        {
            throw new ArgumentException(
                "An empirical distribution needs finite values, at least two of them different.",
                nameof(values)
            );
        }
    }

    /// <summary>The values, sorted.</summary>
    public ImmutableArray<double> Values => [.. _sorted];

    /// <inheritdoc/>
    public override double Mean
    {
        get
        {
            var sum = 0.0;
            for (var i = 1; i < _sorted.Length; i++)
            {
                sum += 0.5 * (_sorted[i - 1] + _sorted[i]);
            }

            return sum / (_sorted.Length - 1);
        }
    }

    /// <inheritdoc/>
    public override double StandardDeviation
    {
        get
        {
            var mean = Mean;
            var sum = 0.0;
            for (var i = 1; i < _sorted.Length; i++)
            {
                var a = _sorted[i - 1] - mean;
                var b = _sorted[i] - mean;
                sum += ((a * a) + (a * b) + (b * b)) / 3;
            }

            return Math.Sqrt(sum / (_sorted.Length - 1));
        }
    }

    /// <inheritdoc/>
    public override double Lower => _sorted[0];

    /// <inheritdoc/>
    public override double Upper => _sorted[^1];

    /// <inheritdoc/>
    public override string Description =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"empirical, {_sorted.Length} values from {Lower:G6} to {Upper:G6}"
        );

    /// <inheritdoc/>
    public override double LowerTail(double x) =>
        x < Lower ? 0
        : x >= Upper ? 1
        : Position(x) / (_sorted.Length - 1);

    /// <inheritdoc/>
    public override double UpperTail(double x) =>
        x < Lower ? 1
        : x >= Upper ? 0
        : (_sorted.Length - 1 - Position(x)) / (_sorted.Length - 1);

    /// <inheritdoc/>
    public override double Density(double x)
    {
        if (x < Lower || x > Upper)
        {
            return 0;
        }

        var i = Math.Min((int)Position(x), _sorted.Length - 2);
        while (i > 0 && _sorted[i + 1] <= _sorted[i])
        {
            i--;
        }

        return 1 / ((_sorted.Length - 1) * (_sorted[i + 1] - _sorted[i]));
    }

    /// <inheritdoc/>
    protected internal override double LowerQuantile(double p) => At(p * (_sorted.Length - 1));

    /// <inheritdoc/>
    protected internal override double UpperQuantile(double q) =>
        At((1 - q) * (_sorted.Length - 1));

    private double At(double position)
    {
        var i = Math.Min((int)position, _sorted.Length - 2);
        var share = position - i;
        return _sorted[i] + (share * (_sorted[i + 1] - _sorted[i]));
    }

    // The largest position whose value is x: equal values are a step, of which the upper end counts.
    private double Position(double x)
    {
        int low = 0,
            high = _sorted.Length - 1;
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            if (_sorted[middle] <= x)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        var width = _sorted[high] - _sorted[low];
        return width > 0 ? low + ((x - _sorted[low]) / width) : low;
    }
}
