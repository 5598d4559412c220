namespace DeckLife.Numerics.Diffusion;

/// <summary>T = w u + α |u|^β sign u, mobility w.</summary>
/// <remarks>
/// Valid for: α up to <see cref="LargestAlpha"/> and β from <see cref="LeastBeta"/>, far around all concretes. Beyond, the free concentration that
/// belongs to a content, (T/α)^(1/β), falls below what a number can hold: at both bounds it is 1e-280 for a total of 1e-10.
/// </remarks>
public sealed class FreundlichSorption : Sorption
{
    /// <summary>Largest α.</summary>
    public const double LargestAlpha = 1e4;

    /// <summary>Least β.</summary>
    public const double LeastBeta = 0.05;

    private readonly double _alpha;
    private readonly double _beta;

    /// <summary>Makes the law.</summary>
    /// <param name="mobility">w, greater than 0.</param>
    /// <param name="alpha">α, from 0 to <see cref="LargestAlpha"/>.</param>
    /// <param name="beta">β, from <see cref="LeastBeta"/> to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A parameter lies outside.</exception>
    public FreundlichSorption(double mobility, double alpha, double beta)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(mobility);
        Mobility = mobility;
        _alpha = Within(alpha, 0, LargestAlpha, "factor of a Freundlich law", nameof(alpha));
        _beta = Within(beta, LeastBeta, 1, "exponent of a Freundlich law", nameof(beta));
    }

    /// <inheritdoc/>
    public override double Mobility { get; }

    /// <inheritdoc/>
    public override bool IsLinear => false;

    /// <inheritdoc/>
    public override double Total(double free) =>
        (Mobility * free) + (_alpha * Math.CopySign(Math.Pow(Math.Abs(free), _beta), free));

    /// <inheritdoc/>
    public override double Slope(double free) =>
        Mobility + (_alpha * _beta * Math.Pow(Math.Abs(free), _beta - 1));
}
