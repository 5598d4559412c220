namespace DeckLife.Numerics.Diffusion;

/// <summary>How much a layer holds in total for a given free (mobile) concentration, and how mobile that is.</summary>
/// <remarks>
/// The layers' equation is ∂T(u)/∂t = ∂/∂x (D m ∂u/∂x), u the free concentration, continuous across layers together
/// with the flux; T the total and m the <see cref="Mobility"/>. T is odd, increasing and, for u above 0, concave.
/// </remarks>
public abstract class Sorption
{
    /// <summary>m: what the gradient of the free concentration is multiplied by beside D.</summary>
    public abstract double Mobility { get; }

    /// <summary>Whether the total is proportional to the free concentration.</summary>
    public abstract bool IsLinear { get; }

    /// <summary>T(u).</summary>
    /// <param name="free">u.</param>
    public abstract double Total(double free);

    /// <summary>dT/du; may be infinite at 0.</summary>
    /// <param name="free">u.</param>
    public abstract double Slope(double free);

    // Beyond the bounds of a law its free concentrations fall below what a number can hold, and the contents come out wrong.
    private protected static double Within(
        double value,
        double least,
        double most,
        string what,
        string name
    ) =>
        value >= least && value <= most
            ? value
            : throw new ArgumentOutOfRangeException(
                name,
                value,
                FormattableString.Invariant($"The {what} lies from {least} to {most}.")
            );

    /// <summary>The free concentration that belongs to a total.</summary>
    /// <param name="total">T.</param>
    public double Free(double total) =>
        IsLinear ? total / Slope(1) : MassInversion.Solve(total, 1, this, 0, this, 0);
}
