using DeckLife.Numerics.Diffusion;

namespace DeckLife.Transport;

/// <summary>Cb = α Cf / (1 + β Cf).</summary>
public sealed record LangmuirIsotherm : BindingIsotherm
{
    /// <summary>Makes the isotherm.</summary>
    /// <param name="waterContent">w [m³/m³].</param>
    /// <param name="alpha">α [m³/m³], from 0 to <see cref="LangmuirSorption.Largest"/>.</param>
    /// <param name="beta">β [m³/kg], from 0 to <see cref="LangmuirSorption.Largest"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">A parameter lies outside.</exception>
    public LangmuirIsotherm(double waterContent, double alpha, double beta)
        : base(waterContent)
    {
        // The engine's law knows what it can be computed with.
        _ = new LangmuirSorption(waterContent, alpha, beta);
        Alpha = alpha;
        Beta = beta;
    }

    /// <summary>α.</summary>
    public double Alpha { get; }

    /// <summary>β.</summary>
    public double Beta { get; }

    internal override Sorption ToSorption() => new LangmuirSorption(WaterContent, Alpha, Beta);
}
