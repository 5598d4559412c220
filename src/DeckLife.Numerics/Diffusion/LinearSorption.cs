namespace DeckLife.Numerics.Diffusion;

/// <summary>A total proportional to the free concentration: T = R u, with flux -D m ∂u/∂x.</summary>
public sealed class LinearSorption : Sorption
{
    private readonly double _capacity;

    /// <summary>Makes the law.</summary>
    /// <param name="capacity">R, greater than 0.</param>
    /// <param name="mobility">m, greater than 0; equal to R where D is the coefficient of the total.</param>
    public LinearSorption(double capacity, double mobility)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(capacity);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(mobility);
        _capacity = capacity;
        Mobility = mobility;
    }

    /// <summary>R = m = 1: the total is the free concentration.</summary>
    public static LinearSorption None { get; } = new(1, 1);

    /// <inheritdoc/>
    public override double Mobility { get; }

    /// <inheritdoc/>
    public override bool IsLinear => true;

    /// <inheritdoc/>
    public override double Total(double free) => _capacity * free;

    /// <inheritdoc/>
    public override double Slope(double free) => _capacity;
}
