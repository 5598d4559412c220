using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>How diffusion quickens with temperature: k = exp(b (1/Tref - 1/T)).</summary>
/// <param name="CoefficientKelvin">b = U/R [K], at least 0.</param>
/// <param name="ReferenceTemperature">Tref, at which k is 1.</param>
/// <remarks>Source: Arrhenius' form as in fib Bulletin 34 (2006), where b is about 4800 K and Tref 293 K (from memory).</remarks>
public sealed record Activation(double CoefficientKelvin, Temperature ReferenceTemperature)
{
    /// <summary>The molar gas constant [J/(mol K)], exact in the SI of 2019.</summary>
    public const double GasConstant = 8.31446261815324;

    /// <summary>From an activation energy.</summary>
    /// <param name="kilojoulesPerMole">U [kJ/mol], at least 0.</param>
    /// <param name="referenceTemperature">Tref.</param>
    public static Activation FromEnergy(
        double kilojoulesPerMole,
        Temperature referenceTemperature
    ) => new(1000 * kilojoulesPerMole / GasConstant, referenceTemperature);

    /// <summary>The factor k on the coefficient at a temperature.</summary>
    /// <param name="celsius">Temperature [°C].</param>
    public double Factor(double celsius) =>
        Math.Exp(
            CoefficientKelvin * ((1 / ReferenceTemperature.Kelvin) - (1 / (celsius + 273.15)))
        );
}
