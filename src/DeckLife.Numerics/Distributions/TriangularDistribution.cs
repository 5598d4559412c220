using System.Globalization;

namespace DeckLife.Numerics.Distributions;

/// <summary>The triangular distribution: bounds and the most likely value.</summary>
public sealed class TriangularDistribution : Distribution
{
    private readonly double _width;
    private readonly double _shareBelowMode;
    private readonly double _below;
    private readonly double _above;

    /// <summary>Makes the distribution.</summary>
    /// <param name="lower">Smallest value, finite.</param>
    /// <param name="mode">Most likely value, within the bounds.</param>
    /// <param name="upper">Largest value, finite, above <paramref name="lower"/>.</param>
    public TriangularDistribution(double lower, double mode, double upper)
    {
        Lower = Finite(lower, nameof(lower));
        Mode = Finite(mode, nameof(mode));
        Upper = Finite(upper, nameof(upper));
        _width = Positive(upper - lower, nameof(upper));
        if (mode < lower || mode > upper)
        {
            throw new ArgumentOutOfRangeException(
                nameof(mode),
                mode,
                "The most likely value must lie within the bounds."
            );
        }

        _shareBelowMode = (mode - lower) / _width;
        _below = _width * (mode - lower);
        _above = _width * (upper - mode);
    }

    /// <summary>Most likely value.</summary>
    public double Mode { get; }

    /// <inheritdoc/>
    public override double Mean => (Lower + Mode + Upper) / 3;

    /// <inheritdoc/>
    public override double StandardDeviation
    {
        get
        {
            var below = Mode - Lower;
            return Math.Sqrt(((_width * _width) - (below * (Upper - Mode))) / 18);
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
            $"triangular, {Lower:G6} to {Upper:G6}, most likely {Mode:G6}"
        );

    /// <inheritdoc/>
    public override double LowerTail(double x) =>
        x <= Lower ? 0
        : x >= Upper ? 1
        : x <= Mode ? (x - Lower) * (x - Lower) / (_width * (Mode - Lower))
        : 1 - UpperTail(x);

    /// <inheritdoc/>
    public override double UpperTail(double x) =>
        x <= Lower ? 1
        : x >= Upper ? 0
        : x >= Mode ? (Upper - x) * (Upper - x) / (_width * (Upper - Mode))
        : 1 - LowerTail(x);

    /// <inheritdoc/>
    public override double Density(double x) =>
        x < Lower || x > Upper ? 0
        : x < Mode ? 2 * (x - Lower) / (_width * (Mode - Lower))
        : x > Mode ? 2 * (Upper - x) / (_width * (Upper - Mode))
        : 2 / _width;

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
            result[i] = Quantile(tails[i], place[i] <= middle);
        }
    }

    /// <inheritdoc/>
    protected internal override double LowerQuantile(double p) => Quantile(p, true);

    /// <inheritdoc/>
    protected internal override double UpperQuantile(double q) => Quantile(q, false);

    // From the end that the value is on the side of, as seen from the most likely value.
    private double Quantile(double tail, bool isLower)
    {
        var isBelow = isLower ? tail <= _shareBelowMode : tail > 1 - _shareBelowMode;
        var own = isBelow == isLower ? tail : 1 - tail;
        var distance = Math.Sqrt(own * (isBelow ? _below : _above));
        return isBelow ? Lower + distance : Upper - distance;
    }
}
