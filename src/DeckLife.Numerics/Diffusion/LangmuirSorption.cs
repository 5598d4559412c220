namespace DeckLife.Numerics.Diffusion;

/// <summary>T = w u + α u / (1 + β |u|), mobility w.</summary>
public sealed class LangmuirSorption : Sorption
{
    private readonly double _alpha;
    private readonly double _beta;

    /// <summary>Makes the law.</summary>
    /// <param name="mobility">w, greater than 0.</param>
    /// <param name="alpha">α, at least 0.</param>
    /// <param name="beta">β, at least 0.</param>
    public LangmuirSorption(double mobility, double alpha, double beta)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(mobility);
        ArgumentOutOfRangeException.ThrowIfNegative(alpha);
        ArgumentOutOfRangeException.ThrowIfNegative(beta);
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
        (Mobility * free) + (_alpha * free / (1 + (_beta * Math.Abs(free))));

    /// <inheritdoc/>
    public override double Slope(double free)
    {
        var factor = 1 + (_beta * Math.Abs(free));
        return Mobility + (_alpha / (factor * factor));
    }
}
