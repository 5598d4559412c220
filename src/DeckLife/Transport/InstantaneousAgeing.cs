using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>The instantaneous coefficient as a power of the concrete's age: D(t) = Dref (tref/t)^m.</summary>
/// <remarks>
/// Source: the form of Tang and Gulikers 2007 (Cement and Concrete Research 37:589-595) and Nilsson and Carcasses 2004;
/// the apparent coefficient of an exposure from age tex on is
/// Dapp = Dref/(1-m) [(1+tex/t)^(1-m) - (tex/t)^(1-m)] (tref/t)^m. Not to be mixed with <see cref="ApparentAgeing"/>,
/// whose exponent means another thing. Checked by DiffusionLawTests and reference case transport/ageing.
/// </remarks>
public sealed record InstantaneousAgeing : DiffusionLaw
{
    /// <summary>Makes the law.</summary>
    /// <param name="coefficient">Dref, the instantaneous coefficient at the reference age.</param>
    /// <param name="exponent">m, from 0 to 2.</param>
    /// <param name="referenceAge">tref, greater than 0.</param>
    /// <param name="constantAfter">Age from which D stays as it is; absent: ageing never fades.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of range.</exception>
    public InstantaneousAgeing(
        DiffusionCoefficient coefficient,
        double exponent,
        Age referenceAge,
        Age? constantAfter = null
    )
    {
        if (!(exponent >= 0 && exponent <= 2))
        {
            throw new ArgumentOutOfRangeException(
                nameof(exponent),
                exponent,
                "An ageing exponent of an instantaneous coefficient lies between 0 and 2."
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

    /// <summary>Dref.</summary>
    public DiffusionCoefficient Coefficient { get; }

    /// <summary>m of the instantaneous coefficient.</summary>
    public double Exponent { get; }

    /// <summary>tref.</summary>
    public Age ReferenceAge { get; }

    /// <summary>Age from which D stays constant.</summary>
    public Age? ConstantAfter { get; }

    /// <inheritdoc/>
    /// <exception cref="ArgumentException">The exponent is at least 1 and the age at start 0: the integral has no value.</exception>
    public override double ClockMm2(double ageAtStartYears, double exposureYears)
    {
        if (Exponent >= 1 && ageAtStartYears == 0)
        {
            throw new ArgumentException(
                "An ageing exponent of at least 1 needs an age above 0 at the start of the exposure."
            );
        }

        var end = ageAtStartYears + exposureYears;
        var fades = ConstantAfter?.Years ?? double.PositiveInfinity;
        var ageing = Integral(Math.Min(ageAtStartYears, fades), Math.Min(end, fades));
        return ageing + (end > fades ? At(fades) * (end - Math.Max(ageAtStartYears, fades)) : 0);
    }

    /// <inheritdoc/>
    public override double InstantaneousMm2PerYear(double ageAtStartYears, double exposureYears) =>
        At(
            Math.Min(
                ageAtStartYears + exposureYears,
                ConstantAfter?.Years ?? double.PositiveInfinity
            )
        );

    /// <summary>The apparent coefficient that an error-function fit would return for an exposure.</summary>
    /// <param name="ageAtStart">tex: the concrete's age when the exposure starts.</param>
    /// <param name="exposure">t: time since then, greater than 0.</param>
    public DiffusionCoefficient ApparentAfter(Age ageAtStart, Age exposure) =>
        DiffusionCoefficient.FromSquareMillimetresPerYear(
            ClockMm2(ageAtStart.Years, exposure.Years) / exposure.Years
        );

    /// <summary>The apparent law of an exposure from birth: Dapp(t) = Dref/(1-m) (tref/t)^m.</summary>
    /// <exception cref="InvalidOperationException">The exponent is not below 1, so an exposure from birth has no apparent coefficient.</exception>
    public ApparentAgeing ToApparentFromBirth() =>
        Exponent < 1
            ? new ApparentAgeing(
                DiffusionCoefficient.FromSquareMillimetresPerYear(
                    Coefficient.SquareMillimetresPerYear / (1 - Exponent)
                ),
                Exponent,
                ReferenceAge,
                ConstantAfter
            )
            : throw new InvalidOperationException(
                "An instantaneous law with an exponent of at least 1 has no apparent law from birth."
            );

    private double At(double age) =>
        Coefficient.SquareMillimetresPerYear * Math.Pow(ReferenceAge.Years / age, Exponent);

    // ∫ Dref (tref/t)^m dt from a to b, written so that nothing cancels where m is near 1 or b near a.
    private double Integral(double from, double to)
    {
        if (!(to > from))
        {
            return 0;
        }

        var reference = ReferenceAge.Years;
        var factor = Coefficient.SquareMillimetresPerYear * reference;
        var rest = 1 - Exponent;
        if (from == 0)
        {
            return factor * Math.Pow(to / reference, rest) / rest;
        }

        // (b^r - a^r)/r = 2 (ab)^(r/2) sinh(r ln(b/a)/2)/r
        var half = 0.5 * Math.Log(to / from);
        var bracket = rest * half is 0 ? half : Math.Sinh(rest * half) / rest;
        return 2
            * factor
            * Math.Pow(Math.Sqrt(from / reference) * Math.Sqrt(to / reference), rest)
            * bracket;
    }
}
