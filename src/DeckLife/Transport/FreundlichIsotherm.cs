using DeckLife.Numerics.Diffusion;

namespace DeckLife.Transport;

/// <summary>Cb = α Cf^β.</summary>
public sealed record FreundlichIsotherm : BindingIsotherm
{
    /// <summary>Makes the isotherm.</summary>
    /// <param name="waterContent">w [m³/m³].</param>
    /// <param name="alpha">α, at least 0.</param>
    /// <param name="beta">β, greater than 0 and at most 1.</param>
    public FreundlichIsotherm(double waterContent, double alpha, double beta)
        : base(waterContent)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(alpha);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(beta);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(beta, 1);
        Alpha = alpha;
        Beta = beta;
    }

    /// <summary>α.</summary>
    public double Alpha { get; }

    /// <summary>β.</summary>
    public double Beta { get; }

    internal override Sorption ToSorption() => new FreundlichSorption(WaterContent, Alpha, Beta);
}
