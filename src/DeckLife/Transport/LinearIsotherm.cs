using DeckLife.Numerics.Diffusion;

namespace DeckLife.Transport;

/// <summary>Cb = α Cf.</summary>
public sealed record LinearIsotherm : BindingIsotherm
{
    /// <summary>Makes the isotherm.</summary>
    /// <param name="waterContent">w [m³/m³].</param>
    /// <param name="alpha">α [m³/m³], at least 0.</param>
    public LinearIsotherm(double waterContent, double alpha)
        : base(waterContent)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(alpha);
        Alpha = alpha;
    }

    /// <summary>α.</summary>
    public double Alpha { get; }

    internal override Sorption ToSorption() =>
        new LinearSorption(WaterContent + Alpha, WaterContent);
}
