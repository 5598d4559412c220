namespace DeckLife.Population;

/// <summary>How diffusion adds up over the life of the deck's concrete, seen from the apparent coefficient at the survey.</summary>
/// <remarks>
/// The apparent coefficient is what a fit of a profile at the survey returns. With the instantaneous law
/// D(age) = Dref (tref/age)^m, the clock s(t) = ∫ D dt from the first salt is
/// s(t) = Dapp · Te · [(tex + t)^(1−m) − tex^(1−m)] / [(tex + Te)^(1−m) − tex^(1−m)],
/// with Te the exposure at the survey and tex the age of the concrete at its first salt.
/// Source: Tang and Gulikers, Cement and Concrete Research 37 (2007), integrated from the first salt.
/// </remarks>
public sealed class ExposureClock
{
    private readonly double atFirstSaltYr;
    private readonly double exponent;
    private readonly double scale;
    private readonly double start;

    /// <summary>Makes the clock.</summary>
    /// <param name="exposureAtSurveyYr">Exposure at the survey Te [yr], positive.</param>
    /// <param name="ageAtFirstSaltYr">Age of the concrete at its first salt tex [yr], not negative.</param>
    /// <param name="ageingExponent">Exponent m of the instantaneous law, 0 up to (not including) 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public ExposureClock(
        double exposureAtSurveyYr,
        double ageAtFirstSaltYr = 0,
        double ageingExponent = 0
    )
    {
        if (!(exposureAtSurveyYr > 0) || !double.IsFinite(exposureAtSurveyYr))
        {
            throw new ArgumentOutOfRangeException(
                nameof(exposureAtSurveyYr),
                exposureAtSurveyYr,
                "The exposure at the survey must be positive [yr]."
            );
        }

        if (!(ageAtFirstSaltYr >= 0) || !double.IsFinite(ageAtFirstSaltYr))
        {
            throw new ArgumentOutOfRangeException(
                nameof(ageAtFirstSaltYr),
                ageAtFirstSaltYr,
                "The age at the first salt can't be negative [yr]."
            );
        }

        if (!(ageingExponent >= 0 && ageingExponent < 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(ageingExponent),
                ageingExponent,
                "The ageing exponent lies between 0 and 1 (1 not included)."
            );
        }

        ExposureAtSurveyYr = exposureAtSurveyYr;
        atFirstSaltYr = ageAtFirstSaltYr;
        exponent = ageingExponent;
        start = Math.Pow(atFirstSaltYr, 1 - exponent);
        scale =
            exposureAtSurveyYr
            / (Math.Pow(atFirstSaltYr + exposureAtSurveyYr, 1 - exponent) - start);
    }

    /// <summary>Exposure at the survey Te [yr].</summary>
    public double ExposureAtSurveyYr { get; }

    /// <summary>Age of the concrete at the survey [yr].</summary>
    public double ConcreteAgeAtSurveyYr => atFirstSaltYr + ExposureAtSurveyYr;

    /// <summary>Instantaneous over apparent coefficient at the survey: 1 where D is constant, 1 − m where salt came at birth.</summary>
    public double InstantaneousAtSurvey =>
        exponent == 0
            ? 1
            : scale * (1 - exponent) * Math.Pow(atFirstSaltYr + ExposureAtSurveyYr, -exponent);

    /// <summary>s(t) divided by the apparent coefficient at the survey [yr]: the exposure itself where D is constant.</summary>
    /// <param name="exposureYr">Exposure t [yr]; at or before 0 the clock stands at 0.</param>
    public double EffectiveYears(double exposureYr) =>
        exposureYr <= 0 ? 0
        : exponent == 0 ? exposureYr
        : scale * (Math.Pow(atFirstSaltYr + exposureYr, 1 - exponent) - start);
}
