using DeckLife.Quantities;

namespace DeckLife.ReferenceChecks;

/// <summary>Conversion factors and rules of thumb of the trade.</summary>
public sealed class QuantityFactorCases : IReferenceCaseSet
{
    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return new ReferenceCase(
            "quantities/factors",
            "Exact unit factors",
            "one unit of each",
            "International yard and pound agreement (1959); Julian year of 365.25 d",
            HowGot.ComputedIndependently,
            "exact definitions: rounding of doubles only",
            [
                new(
                    "1 lb/yd3 [kg/m3]",
                    0.593276421257783,
                    () => ChlorideContent.FromPoundsPerCubicYard(1).KilogramsPerCubicMetre,
                    1e-14
                ),
                new(
                    "1 in2/yr [mm2/yr]",
                    645.16,
                    () => DiffusionCoefficient.FromSquareInchesPerYear(1).SquareMillimetresPerYear,
                    1e-15
                ),
                new(
                    "1 in2/yr [m2/s]",
                    2.04438867340989e-11,
                    () => DiffusionCoefficient.FromSquareInchesPerYear(1).SquareMetresPerSecond,
                    1e-14
                ),
                new(
                    "1 mm2/yr [m2/s]",
                    3.16880878140290e-14,
                    () =>
                        DiffusionCoefficient.FromSquareMillimetresPerYear(1).SquareMetresPerSecond,
                    1e-14
                ),
                new(
                    "1e-12 m2/s [mm2/yr]",
                    31.5576,
                    () =>
                        DiffusionCoefficient
                            .FromSquareMetresPerSecond(1e-12)
                            .SquareMillimetresPerYear,
                    1e-14
                ),
            ]
        );
    }
}
