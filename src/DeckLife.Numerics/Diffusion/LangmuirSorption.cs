namespace DeckLife.Numerics.Diffusion;

/// <summary>T = w u + α u / (1 + β |u|), mobility w.</summary>
public sealed class LangmuirSorption : Sorption
{
    /// <summary>Largest α and β, far beyond all concretes.</summary>
    public const double Largest = 1e6;

    private readonly double _alpha;
    private readonly double _beta;

    /// <summary>Makes the law.</summary>
    /// <param name="mobility">w, greater than 0.</param>
    /// <param name="alpha">α, from 0 to <see cref="Largest"/>.</param>
    /// <param name="beta">β, from 0 to <see cref="Largest"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">A parameter lies outside.</exception>
    public LangmuirSorption(double mobility, double alpha, double beta)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(mobility);
        Mobility = mobility;
        _alpha = Within(alpha, 0, Largest, "factor of a Langmuir law", nameof(alpha));
        _beta = Within(beta, 0, Largest, "rate of a Langmuir law", nameof(beta));
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
