using DeckLife.Quantities;
using DeckLife.Transport;

namespace DeckLife.Fitting;

/// <summary>From the apparent coefficient that a deck fit states at its reference exposure age to the law of the instantaneous one.</summary>
/// <remarks>
/// What cores tell is the apparent coefficient, the mean of D over the exposure; what a projection integrates is the instantaneous one. The exponent
/// of a deck fit is that of the instantaneous coefficient, counted from the concrete's birth, not from its first salt. Source: Tang and Gulikers
/// 2007. Checked by DeckAgeingTests.
/// </remarks>
public static class DeckAgeing
{
    /// <summary>The instantaneous law whose mean over the exposure is the apparent coefficient.</summary>
    /// <param name="apparent">Apparent coefficient over the exposure.</param>
    /// <param name="exposureAge">Time from the first salt to coring, greater than 0.</param>
    /// <param name="concreteAgeAtFirstSalt">Age of the concrete when the first salt came.</param>
    /// <param name="ageingExponent">Exponent m of the instantaneous coefficient, from 0 to below 1.</param>
    /// <param name="constantAfter">Age of the concrete from which D stays as it is; absent: ageing never fades.</param>
    public static InstantaneousAgeing InstantaneousLaw(
        DiffusionCoefficient apparent,
        Age exposureAge,
        Age concreteAgeAtFirstSalt,
        double ageingExponent,
        Age? constantAfter = null
    )
    {
        var reference = Age.FromYears(exposureAge.Years + concreteAgeAtFirstSalt.Years);
        var unit = new InstantaneousAgeing(
            DiffusionCoefficient.FromSquareMillimetresPerYear(1),
            ageingExponent,
            reference,
            constantAfter
        );
        var mean = unit.ApparentAfter(concreteAgeAtFirstSalt, exposureAge);
        return new InstantaneousAgeing(
            DiffusionCoefficient.FromSquareMillimetresPerYear(
                apparent.SquareMillimetresPerYear / mean.SquareMillimetresPerYear
            ),
            ageingExponent,
            reference,
            constantAfter
        );
    }
}
