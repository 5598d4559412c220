namespace DeckLife.Transport;

/// <summary>How diffusion slows as pores empty: the share of the saturated coefficient that is left at a humidity.</summary>
/// <remarks>
/// Equation: f(h) = 1/(1 + (1-h)⁴/(1-hc)⁴), hc = 0.75.
/// Source: Saetta, Scotta and Vitaliani, ACI Materials Journal 90 (1993) 441-451, in the form of Bažant and Najjar 1972
/// (from memory). Valid for: pore humidities from about 0.5 to 1, in equilibrium; says nothing of chloride carried by
/// suction in wetting. Checked by reference case transport/humidity.
/// </remarks>
public static class SaettaEtAl1993
{
    /// <summary>hc, the humidity at which the coefficient has halved.</summary>
    public const double HalfHumidity = 0.75;

    /// <summary>The share of the saturated coefficient, from 0 to 1.</summary>
    /// <param name="humidity">Relative humidity of the pores h, from 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The humidity is outside 0 to 1.</exception>
    public static double HumidityFactor(double humidity)
    {
        MixRange.Check(humidity, 0, 1, "A relative humidity lies between 0 and 1.");
        var dryness = (1 - humidity) / (1 - HalfHumidity);
        return 1 / (1 + (dryness * dryness * dryness * dryness));
    }
}
