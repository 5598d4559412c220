using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Distributions;

/// <summary>A continuous distribution of one variable, with both tails computed for themselves.</summary>
/// <remarks>
/// The upper tail is never taken as 1 minus the lower one, so that quantiles keep their digits far out on either side.
/// Checked by: DistributionTests, and distribution/quantiles-* of the reference checks (SciPy).
/// </remarks>
public abstract class Distribution
{
    // Beyond this many standard deviations the tail of the normal distribution leaves the range of normal doubles.
    private protected const double FarthestScore = 37;

    /// <summary>Most tails at once.</summary>
    private protected const int Room = 512;

    /// <summary>The mean, in the variable's unit.</summary>
    public abstract double Mean { get; }

    /// <summary>The standard deviation, in the variable's unit.</summary>
    public abstract double StandardDeviation { get; }

    /// <summary>Smallest possible value; negative infinity where there is none.</summary>
    public abstract double Lower { get; }

    /// <summary>Largest possible value; positive infinity where there is none.</summary>
    public abstract double Upper { get; }

    /// <summary>The family and its parameters in words, invariant.</summary>
    public abstract string Description { get; }

    /// <summary>P(X ≤ x).</summary>
    /// <param name="x">Any number.</param>
    public abstract double LowerTail(double x);

    /// <summary>P(X &gt; x), without cancellation.</summary>
    /// <param name="x">Any number.</param>
    public abstract double UpperTail(double x);

    /// <summary>The density at x; 0 outside the range.</summary>
    /// <param name="x">Any number.</param>
    public abstract double Density(double x);

    /// <summary>The value that is not exceeded with a probability.</summary>
    /// <param name="p">P(X ≤ result), strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not strictly between 0 and 1.</exception>
    public double Quantile(double p)
    {
        CheckProbability(p, nameof(p));
        return p <= 0.5 ? LowerQuantile(p) : UpperQuantile(1 - p);
    }

    /// <summary>The value that is exceeded with a probability.</summary>
    /// <param name="q">P(X &gt; result), strictly between 0 and 1; small values keep their digits.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not strictly between 0 and 1.</exception>
    public double QuantileOfExceedance(double q)
    {
        CheckProbability(q, nameof(q));
        return q <= 0.5 ? UpperQuantile(q) : LowerQuantile(1 - q);
    }

    /// <summary>The value at a standard normal score z: the quantile of Φ(z), by whichever tail is the smaller.</summary>
    /// <param name="z">The score; beyond ±37 it is held there.</param>
    public virtual double FromStandardNormal(double z)
    {
        z = Math.Clamp(z, -FarthestScore, FarthestScore);
        return z <= 0
            ? LowerQuantile(NormalQuantile.Probability(z))
            : UpperQuantile(NormalQuantile.Probability(-z));
    }

    /// <summary>The standard normal score of a value.</summary>
    /// <param name="x">A value inside the range.</param>
    /// <returns>z with Φ(z) = P(X ≤ x), held within ±37.</returns>
    public virtual double ToStandardNormal(double x)
    {
        var lower = LowerTail(x);
        if (lower <= 0.5)
        {
            return lower <= 1e-299 ? -FarthestScore : NormalQuantile.At(lower);
        }

        var upper = UpperTail(x);
        return upper <= 1e-299 ? FarthestScore : -NormalQuantile.At(upper);
    }

    /// <summary>The values at many standard normal scores.</summary>
    /// <param name="z">The scores.</param>
    /// <param name="x">Receives as many values; may be the same span.</param>
    public virtual void FromStandardNormal(ReadOnlySpan<double> z, Span<double> x)
    {
        Span<double> room = stackalloc double[Room];
        for (var at = 0; at < z.Length; at += Room)
        {
            var piece = z.Slice(at, Math.Min(Room, z.Length - at));
            var tails = room[..piece.Length];
            for (var i = 0; i < tails.Length; i++)
            {
                tails[i] = -Math.Min(Math.Abs(piece[i]), FarthestScore);
            }

            VectorFunctions.NormalCdf(tails, tails);
            FromTails(piece, 0, tails, x.Slice(at, piece.Length));
        }
    }

    /// <summary>The quantiles of many probabilities.</summary>
    /// <param name="p">Probabilities, strictly between 0 and 1.</param>
    /// <param name="x">Receives as many values; may be the same span.</param>
    public void FromUniform(ReadOnlySpan<double> p, Span<double> x)
    {
        Span<double> room = stackalloc double[Room];
        for (var at = 0; at < p.Length; at += Room)
        {
            var piece = p.Slice(at, Math.Min(Room, p.Length - at));
            var tails = room[..piece.Length];
            for (var i = 0; i < tails.Length; i++)
            {
                tails[i] = Math.Min(piece[i], 1 - piece[i]);
            }

            FromTails(piece, 0.5, tails, x.Slice(at, piece.Length));
        }
    }

    /// <summary>The values of many tails: what a family computes in vectors.</summary>
    /// <param name="place">On the lower side where not above the middle, at most <see cref="Room"/> numbers.</param>
    /// <param name="middle">The middle.</param>
    /// <param name="tails">The tail on that side, from above 0 to 0.5; may be overwritten.</param>
    /// <param name="result">Receives the values; may be the same span as the places.</param>
    protected internal virtual void FromTails(
        ReadOnlySpan<double> place,
        double middle,
        Span<double> tails,
        Span<double> result
    )
    {
        if (IsOfScore)
        {
            ToScores(place, middle, tails);
            FromStandardNormal(tails, result);
            return;
        }

        for (var i = 0; i < tails.Length; i++)
        {
            result[i] = place[i] <= middle ? LowerQuantile(tails[i]) : UpperQuantile(tails[i]);
        }
    }

    /// <summary>Turns tails into standard normal scores, in place.</summary>
    private protected static void ToScores(
        ReadOnlySpan<double> place,
        double middle,
        Span<double> tails
    )
    {
        Span<double> signs = stackalloc double[Room];
        signs = signs[..tails.Length];
        NormalQuantile.At(tails, tails);
        VectorLoops.Choose(place, middle, 1, -1, signs);
        VectorLoops.Multiply(tails, signs, tails);
    }

    /// <inheritdoc/>
    public override string ToString() => Description;

    /// <summary>Whether a value is a closed form of its score, cheaper than one of its probability.</summary>
    internal virtual bool IsOfScore => false;

    /// <summary>Bounds of the score, where draws outside are best drawn anew; a cut that leaves nearly everything.</summary>
    internal virtual (double Lower, double Upper)? RedrawBounds => null;

    /// <summary>The distribution whose values its scores within the bounds give.</summary>
    internal virtual Distribution OfScore => this;

    /// <summary>The quantile of a lower-tail probability of at most 0.5.</summary>
    /// <param name="p">From above 0 to 0.5.</param>
    protected internal abstract double LowerQuantile(double p);

    /// <summary>The quantile of an upper-tail probability of at most 0.5.</summary>
    /// <param name="q">From above 0 to 0.5.</param>
    protected internal abstract double UpperQuantile(double q);

    /// <summary>Refuses what is not a finite number.</summary>
    /// <param name="value">The value.</param>
    /// <param name="name">Its name.</param>
    protected static double Finite(double value, string name) =>
        double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(name, value, "A finite number is needed.");

    /// <summary>Refuses what is not a finite number above 0.</summary>
    /// <param name="value">The value.</param>
    /// <param name="name">Its name.</param>
    protected static double Positive(double value, string name) =>
        double.IsFinite(value) && value > 0
            ? value
            : throw new ArgumentOutOfRangeException(
                name,
                value,
                "A finite number above 0 is needed."
            );

    private static void CheckProbability(double p, string name)
    {
        if (!(p > 0 && p < 1))
        {
            throw new ArgumentOutOfRangeException(
                name,
                p,
                "A probability strictly between 0 and 1 is needed."
            );
        }
    }
}
