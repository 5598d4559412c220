using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>The apparent coefficient as a power of exposure time: Dapp(t) = Da (ta/t)^a, so that s(t) = Dapp(t) t.</summary>
/// <remarks>
/// Source: ISO 16204 and fib Bulletin 34 (2006), annex B2 (from memory), with ta = 28 d there. The instantaneous
/// coefficient at the same time is (1-a) Dapp(t). The exponent is not that of <see cref="InstantaneousAgeing"/>.
/// </remarks>
public sealed record ApparentAgeing : DiffusionLaw
{
    /// <summary>Makes the law.</summary>
    /// <param name="coefficient">Da, the apparent coefficient at the reference age.</param>
    /// <param name="exponent">a, at least 0 and below 1: the clock must not run backwards.</param>
    /// <param name="referenceAge">ta, greater than 0.</param>
    /// <param name="constantAfter">Exposure time from which the instantaneous coefficient stays as it is; absent: never.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of range.</exception>
    public ApparentAgeing(
        DiffusionCoefficient coefficient,
        double exponent,
        Age referenceAge,
        Age? constantAfter = null
    )
    {
        if (!(exponent >= 0 && exponent < 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(exponent),
                exponent,
                "An ageing exponent of an apparent coefficient is at least 0 and below 1."
            );
        }

        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(referenceAge.Years);
        if (constantAfter is { } age)
        {
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(age.Years, nameof(constantAfter));
        }

        Coefficient = coefficient;
        Exponent = exponent;
        ReferenceAge = referenceAge;
        ConstantAfter = constantAfter;
    }

    /// <summary>Da.</summary>
    public DiffusionCoefficient Coefficient { get; }

    /// <summary>a of the apparent coefficient.</summary>
    public double Exponent { get; }

    /// <summary>ta.</summary>
    public Age ReferenceAge { get; }

    /// <summary>Exposure time from which the instantaneous coefficient stays constant.</summary>
    public Age? ConstantAfter { get; }

    /// <inheritdoc/>
    public override double ClockMm2(double ageAtStartYears, double exposureYears)
    {
        var fades = ConstantAfter?.Years ?? double.PositiveInfinity;
        var ageing = Math.Min(exposureYears, fades);
        var clock = ageing > 0 ? ApparentMm2PerYear(ageing) * ageing : 0;
        return clock
            + (
                exposureYears > fades
                    ? (1 - Exponent) * ApparentMm2PerYear(fades) * (exposureYears - fades)
                    : 0
            );
    }

    /// <inheritdoc/>
    public override double InstantaneousMm2PerYear(double ageAtStartYears, double exposureYears) =>
        (1 - Exponent)
        * ApparentMm2PerYear(
            Math.Min(exposureYears, ConstantAfter?.Years ?? double.PositiveInfinity)
        );

    /// <summary>The instantaneous law of an exposure from birth: Dref = (1-a) Da at the same reference age.</summary>
    public InstantaneousAgeing ToInstantaneousFromBirth() =>
        new(
            DiffusionCoefficient.FromSquareMillimetresPerYear(
                (1 - Exponent) * Coefficient.SquareMillimetresPerYear
            ),
            Exponent,
            ReferenceAge,
            ConstantAfter
        );

    private double ApparentMm2PerYear(double exposureYears) =>
        Coefficient.SquareMillimetresPerYear
        * Math.Pow(ReferenceAge.Years / exposureYears, Exponent);
}
