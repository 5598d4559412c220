namespace DeckLife.Numerics.Diffusion;

/// <summary>T = w u + α |u|^β sign u, mobility w.</summary>
public sealed class FreundlichSorption : Sorption
{
    private readonly double _alpha;
    private readonly double _beta;

    /// <summary>Makes the law.</summary>
    /// <param name="mobility">w, greater than 0.</param>
    /// <param name="alpha">α, at least 0.</param>
    /// <param name="beta">β, greater than 0 and at most 1.</param>
    public FreundlichSorption(double mobility, double alpha, double beta)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(mobility);
        ArgumentOutOfRangeException.ThrowIfNegative(alpha);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(beta);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(beta, 1);
        Mobility = mobility;
        _alpha = alpha;
        _beta = beta;
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
