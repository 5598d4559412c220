namespace DeckLife.Economics;

/// <summary>A real discount rate and the factors that follow from it.</summary>
/// <remarks>
/// Money at time 0 is not discounted; money at time t counts 1/(1 + i)^t, t in years and not necessarily whole.
/// Source: the textbook factors of engineering economy.
/// </remarks>
public readonly record struct DiscountRate
{
    /// <summary>Makes the rate.</summary>
    /// <param name="perYear">Real rate a year as a fraction, above −1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate is not finite or not above −1.</exception>
    public DiscountRate(double perYear)
    {
        PerYear =
            perYear > -1 && double.IsFinite(perYear)
                ? perYear
                : throw new ArgumentOutOfRangeException(
                    nameof(perYear),
                    perYear,
                    "A discount rate is a finite fraction above -1."
                );
    }

    /// <summary>Rate a year, as a fraction.</summary>
    public double PerYear { get; }

    /// <summary>The real rate that a nominal rate and an inflation rate leave: (1 + nominal)/(1 + inflation) − 1.</summary>
    /// <param name="nominal">Nominal rate a year.</param>
    /// <param name="inflation">Inflation a year.</param>
    public static DiscountRate FromNominal(double nominal, double inflation) =>
        new((1 + nominal) / (1 + inflation) - 1);

    /// <summary>Present worth of 1 paid at time t (P/F).</summary>
    /// <param name="timeYr">Time [yr], not negative.</param>
    public double PresentWorth(double timeYr) => Math.Pow(1 + PerYear, -timeYr);

    /// <summary>Present worth of 1 paid at the end of each of n years (P/A).</summary>
    /// <param name="years">Years n, positive; not necessarily whole.</param>
    public double PresentWorthOfAnnuity(double years) =>
        PerYear == 0 ? years : (1 - PresentWorth(years)) / PerYear;

    /// <summary>Equal payment at the end of each of n years that a present worth of 1 buys (A/P).</summary>
    /// <param name="years">Years n, positive; not necessarily whole.</param>
    public double AnnuityFromPresent(double years) => 1 / PresentWorthOfAnnuity(years);

    /// <summary>Present worth of payments that grow by 1 each year, 0 at the end of the first (P/G).</summary>
    /// <param name="years">Whole number of years, at least 1.</param>
    public double PresentWorthOfGradient(int years)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(years, 1);
        var sum = 0.0;
        for (var t = 2; t <= years; t++)
        {
            sum += (t - 1) * PresentWorth(t);
        }

        return sum;
    }

    /// <summary>Present worth of paying 1 now and again each time a life ends, for ever.</summary>
    /// <param name="lifeYr">Life [yr], positive.</param>
    /// <remarks>Exists for rates above 0 only.</remarks>
    public double PresentWorthOfPerpetualRenewal(double lifeYr) => 1 / (1 - PresentWorth(lifeYr));
}
