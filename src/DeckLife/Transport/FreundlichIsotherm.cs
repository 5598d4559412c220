using DeckLife.Numerics.Diffusion;

namespace DeckLife.Transport;

/// <summary>Cb = α Cf^β.</summary>
/// <remarks>
/// Its slope has no bound at 0, so chloride enters perfectly clean concrete behind a sharp foot; there the error estimate
/// of the engine is not shown to hold. A background content, as all concrete has, removes the foot.
/// </remarks>
public sealed record FreundlichIsotherm : BindingIsotherm
{
    /// <summary>Makes the isotherm.</summary>
    /// <param name="waterContent">w [m³/m³].</param>
    /// <param name="alpha">α, from 0 to <see cref="FreundlichSorption.LargestAlpha"/>.</param>
    /// <param name="beta">β, from <see cref="FreundlichSorption.LeastBeta"/> to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A parameter lies outside.</exception>
    public FreundlichIsotherm(double waterContent, double alpha, double beta)
        : base(waterContent)
    {
        // The engine's law knows what it can be computed with.
        _ = new FreundlichSorption(waterContent, alpha, beta);
        Alpha = alpha;
        Beta = beta;
    }

    /// <summary>α.</summary>
    public double Alpha { get; }

    /// <summary>β.</summary>
    public double Beta { get; }

    internal override Sorption ToSorption() => new FreundlichSorption(WaterContent, Alpha, Beta);
}
