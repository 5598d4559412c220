namespace DeckLife.Rehabilitation;

/// <summary>How diffusion adds up in a new material from its first exposure on.</summary>
/// <remarks>
/// Equation: ∫ (tref/age)^m dt with age = age at exposure + t, the factor held from the age after which D stays constant.
/// m is the exponent of the instantaneous law.
/// </remarks>
public static class MaterialClock
{
    /// <summary>The integral from first exposure [yr]; times the reference coefficient it is the layer's clock s [mm²].</summary>
    /// <param name="material">The material.</param>
    /// <param name="timeYr">Time since first exposure [yr], not negative.</param>
    public static double EffectiveYears(OverlayMaterial material, double timeYr)
    {
        ArgumentNullException.ThrowIfNull(material);
        var m = material.AgeingExponent;
        if (m == 0 || timeYr <= 0)
        {
            return Math.Max(0, timeYr);
        }

        var reference = material.ReferenceAge.Years;
        var from = material.AgeAtExposure.Years;
        var to = from + timeYr;
        var constant = material.ConstantAfter?.Years ?? double.PositiveInfinity;
        var ageingEnd = Math.Clamp(constant, from, to);
        var ageing = Integral(reference, m, from, ageingEnd);
        return ageingEnd >= to
            ? ageing
            : ageing + (to - ageingEnd) * Math.Pow(reference / Math.Max(constant, 1e-12), m);
    }

    private static double Integral(double reference, double m, double from, double to) =>
        Math.Abs(1 - m) < 1e-12
            ? reference * Math.Log(to / from)
            : Math.Pow(reference, m) * (Math.Pow(to, 1 - m) - Math.Pow(from, 1 - m)) / (1 - m);
}
