namespace DeckLife.Fitting;

/// <summary>How the apparent coefficient of a salted deck falls with exposure age, given the ageing exponent of the instantaneous one.</summary>
/// <remarks>
/// Equation: D(t') = Dref (tref/t')^m at concrete age t'; the apparent coefficient over an exposure t that began at concrete age tex is
/// Dapp(t) = Dref tref^m ((t + tex)^(1-m) - tex^(1-m)) / ((1 - m) t). Source: Tang and Gulikers, On the mathematics of
/// time-dependent apparent chloride diffusion coefficient in concrete (Cement and Concrete Research 37, 2007).
/// With tex = 0 it is the power law Dapp in t^-m, 1/(1 - m) times the instantaneous coefficient.
/// </remarks>
internal static class AgeingRatio
{
    /// <summary>ln(Dapp(t)/Dapp(t₀)) for exposure ages t and t₀.</summary>
    /// <param name="exponent">Ageing exponent m, from 0 to below 1.</param>
    /// <param name="years">Exposure age t [yr], positive.</param>
    /// <param name="referenceYears">Exposure age t₀ [yr], positive.</param>
    /// <param name="startYears">Age of the concrete at its first salt, tex [yr].</param>
    public static double LogBetween(
        double exponent,
        double years,
        double referenceYears,
        double startYears
    ) =>
        years == referenceYears
            ? 0
            : LogIntegral(exponent, years, startYears)
                - LogIntegral(exponent, referenceYears, startYears)
                - Math.Log(years / referenceYears);

    // ln of ((t + tex)^(1-m) - tex^(1-m)) / (1 - m), the second term small or equal to the first.
    private static double LogIntegral(double exponent, double years, double startYears)
    {
        var power = 1 - exponent;
        var whole = power * Math.Log(years + startYears);
        return startYears > 0
            ? whole
                + Math.Log(
                    -ExpMinusOne(power * Math.Log(startYears / (years + startYears))) / power
                )
            : whole - Math.Log(power);
    }

    // 2 sinh(x/2) exp(x/2): no cancellation near 0.
    private static double ExpMinusOne(double x) =>
        Math.Abs(x) < 1 ? 2 * Math.Sinh(0.5 * x) * Math.Exp(0.5 * x) : Math.Exp(x) - 1;
}
