using DeckLife.Numerics.Diffusion;

namespace DeckLife.Transport;

/// <summary>Cb = α Cf / (1 + β Cf).</summary>
public sealed record LangmuirIsotherm : BindingIsotherm
{
    /// <summary>Makes the isotherm.</summary>
    /// <param name="waterContent">w [m³/m³].</param>
    /// <param name="alpha">α [m³/m³], at least 0.</param>
    /// <param name="beta">β [m³/kg], at least 0.</param>
    public LangmuirIsotherm(double waterContent, double alpha, double beta)
        : base(waterContent)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(alpha);
        ArgumentOutOfRangeException.ThrowIfNegative(beta);
        Alpha = alpha;
        Beta = beta;
    }

    /// <summary>α.</summary>
    public double Alpha { get; }

    /// <summary>β.</summary>
    public double Beta { get; }

    internal override Sorption ToSorption() => new LangmuirSorption(WaterContent, Alpha, Beta);
}
