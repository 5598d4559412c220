using System.Globalization;
using DeckLife.Numerics.Quadrature;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Distributions;

/// <summary>A distribution cut off outside an interval and scaled up again; its moments are those after the cut.</summary>
/// <remarks>
/// Equation: P(X ≤ x) = (F(x) - F(a))/(F(b) - F(a)); differences are taken in the smaller tail.
/// Accuracy: moments by Gauss-Legendre quadrature over standard normal scores from -9 to 9, relative error below 1e-9 but for a heavy tail that is not
/// cut: of a lognormal variable with a deviation of the logarithm of 2 the variance lacks 3e-7 of itself, with one of 3 1e-3. Checked by: DistributionTests.
/// </remarks>
public sealed class TruncatedDistribution : Distribution
{
    private readonly bool _upperHalf;
    private readonly double _below;
    private readonly double _above;
    private readonly double _kept;
    private readonly Lazy<(double Mean, double StandardDeviation)> _moments;

    /// <summary>Makes the distribution.</summary>
    /// <param name="whole">The distribution before the cut.</param>
    /// <param name="lower">Smallest value kept; negative infinity to cut nothing off below.</param>
    /// <param name="upper">Largest value kept; positive infinity to cut nothing off above.</param>
    /// <exception cref="ArgumentOutOfRangeException">Bounds not in order, or hardly any probability (below 1e-250) between them.</exception>
    public TruncatedDistribution(Distribution whole, double lower, double upper)
    {
        ArgumentNullException.ThrowIfNull(whole);
        if (!(lower < upper))
        {
            throw new ArgumentOutOfRangeException(
                nameof(lower),
                lower,
                "The lower bound must lie below the upper bound."
            );
        }

        Whole = whole;
        Lower = Math.Max(lower, whole.Lower);
        Upper = Math.Min(upper, whole.Upper);
        _below = whole.LowerTail(Lower);
        _above = whole.UpperTail(Upper);
        _upperHalf = _below > 0.5;
        _kept =
            _upperHalf ? whole.UpperTail(Lower) - _above
            : _above > 0.5 ? whole.LowerTail(Upper) - _below
            : 1 - _below - _above;
        if (!(_kept > 1e-250))
        {
            throw new ArgumentOutOfRangeException(
                nameof(lower),
                lower,
                "Hardly any probability lies between the bounds."
            );
        }

        _moments = new(Moments);
    }

    /// <summary>The distribution before the cut.</summary>
    public Distribution Whole { get; }

    /// <summary>Probability cut off: the share of the whole distribution outside the bounds.</summary>
    public double CutOff => 1 - _kept;

    /// <inheritdoc/>
    public override double Mean => _moments.Value.Mean;

    /// <inheritdoc/>
    public override double StandardDeviation => _moments.Value.StandardDeviation;

    /// <inheritdoc/>
    public override double Lower { get; }

    /// <inheritdoc/>
    public override double Upper { get; }

    /// <inheritdoc/>
    public override string Description =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{Whole.Description} (before the cut), cut {Range}; mean {Mean:G6}, s.d. {StandardDeviation:G6} after it"
        );

    /// <inheritdoc/>
    public override double LowerTail(double x)
    {
        if (x <= Lower)
        {
            return 0;
        }

        if (x >= Upper)
        {
            return 1;
        }

        return _upperHalf
            ? (Whole.UpperTail(Lower) - Whole.UpperTail(x)) / _kept
            : (Whole.LowerTail(x) - _below) / _kept;
    }

    /// <inheritdoc/>
    public override double UpperTail(double x)
    {
        if (x <= Lower)
        {
            return 1;
        }

        if (x >= Upper)
        {
            return 0;
        }

        return _above > 0.5
            ? (Whole.LowerTail(Upper) - Whole.LowerTail(x)) / _kept
            : (Whole.UpperTail(x) - _above) / _kept;
    }

    /// <inheritdoc/>
    public override double Density(double x) =>
        x < Lower || x > Upper ? 0 : Whole.Density(x) / _kept;

    /// <inheritdoc/>
    protected internal override double LowerQuantile(double p) => OfWhole(TailOfWhole(p, true));

    /// <inheritdoc/>
    protected internal override double UpperQuantile(double q) => OfWhole(TailOfWhole(q, false));

    /// <inheritdoc/>
    protected internal override void FromTails(
        ReadOnlySpan<double> place,
        double middle,
        Span<double> tails,
        Span<double> result
    )
    {
        Span<double> sides = stackalloc double[Room];
        sides = sides[..tails.Length];
        for (var i = 0; i < tails.Length; i++)
        {
            (tails[i], var isLower) = TailOfWhole(tails[i], place[i] <= middle);
            sides[i] = isLower ? -1 : 1;
        }

        Whole.FromTails(sides, 0, tails, result);
        VectorLoops.Clamp(result, Lower, Upper);
    }

    /// <inheritdoc/>
    internal override (double Lower, double Upper)? RedrawBounds =>
        Whole.IsOfScore && _kept >= 0.95
            ? (
                double.IsInfinity(Lower) ? Lower : Inside(Whole.ToStandardNormal(Lower), 1),
                double.IsInfinity(Upper) ? Upper : Inside(Whole.ToStandardNormal(Upper), -1)
            )
            : null;

    /// <inheritdoc/>
    internal override Distribution OfScore => Whole;

    // A score so far inside its bound that rounding can't carry the value out again; it costs 1e-12 of the distribution.
    private static double Inside(double score, int direction) =>
        score + (direction * 1e-12 * Math.Max(1, Math.Abs(score)));

    private string Range =>
        double.IsInfinity(Upper) ? string.Create(CultureInfo.InvariantCulture, $"below {Lower:G6}")
        : double.IsInfinity(Lower)
            ? string.Create(CultureInfo.InvariantCulture, $"above {Upper:G6}")
        : string.Create(CultureInfo.InvariantCulture, $"to {Lower:G6} to {Upper:G6}");

    // The smaller tail of the whole distribution at which one of this has a tail.
    private (double Tail, bool IsLower) TailOfWhole(double tail, bool isLower)
    {
        if (isLower && _upperHalf)
        {
            (tail, isLower) = (_above + ((1 - tail) * _kept), false);
        }
        else if (!isLower && _above > 0.5)
        {
            (tail, isLower) = (_below + ((1 - tail) * _kept), true);
        }
        else
        {
            tail = (isLower ? _below : _above) + (tail * _kept);
        }

        return tail <= 0.5 ? (tail, isLower) : (1 - tail, !isLower);
    }

    private double OfWhole((double Tail, bool IsLower) at) =>
        Math.Clamp(
            at.IsLower ? Whole.LowerQuantile(at.Tail) : Whole.UpperQuantile(at.Tail),
            Lower,
            Upper
        );

    // E h(X) = ∫ h(x(z)) φ(z) dz over standard normal scores: smooth, and it ends at |z| = 9 (2e-19 of the probability).
    private (double Mean, double StandardDeviation) Moments()
    {
        const int Pieces = 36;
        const double End = 9;
        var rule = GaussLegendre.Sixteen;
        var origin = FromStandardNormal(0);
        double Moment(Func<double, double> h)
        {
            var sum = 0.0;
            for (var piece = 0; piece < Pieces; piece++)
            {
                var from = -End + (2 * End * piece / Pieces);
                sum += rule.Integrate(
                    z => h(FromStandardNormal(z)) * Math.Exp(-0.5 * z * z) / Math.Sqrt(2 * Math.PI),
                    from,
                    from + (2 * End / Pieces)
                );
            }

            return sum;
        }

        var shift = Moment(x => x - origin);
        var mean = origin + shift;
        return (mean, Math.Sqrt(Moment(x => (x - mean) * (x - mean))));
    }
}
