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
        double[] binders = [300, 350, 390];
        double[] contents = [1.20, 1.40, 1.56];
        double[] ofConcrete = [0.0510638, 0.0595745, 0.066383];
        yield return new ReferenceCase(
            "quantities/chloride-basis",
            "Chloride by mass of binder, of concrete and by volume",
            "0.4 % of binder at 300, 350, 390 kg/m3 of concrete; concrete of 2350 kg/m3; 0.20 % of binder at 658 lb/yd3",
            "arithmetic; 0.20 % of cement beside 1.2 lb/yd3 after Clear (FHWA, from memory)",
            HowGot.ComputedIndependently,
            "printed to 6 digits",
            [
                .. binders.Select(
                    (b, i) =>
                        new ReferenceValue(
                            FormattableString.Invariant($"0.4 % of {b} kg/m3 [kg/m3]"),
                            contents[i],
                            () => OfBinder(0.4, b),
                            1e-14
                        )
                ),
                .. contents.Select(
                    (c, i) =>
                        new ReferenceValue(
                            FormattableString.Invariant($"{c} kg/m3 [% of concrete]"),
                            ofConcrete[i],
                            () =>
                                StatedChloride
                                    .FromContent(
                                        ChlorideContent.FromKilogramsPerCubicMetre(c),
                                        UnitOf("% of concrete"),
                                        new(2350, null),
                                        ChlorideExtraction.AcidSoluble
                                    )
                                    .Value,
                            1e-6
                        )
                ),
                new(
                    "0.20 % of 658 lb/yd3 [lb/yd3]",
                    1.316,
                    () =>
                        OfBinder(
                            0.2,
                            ChlorideContent.FromPoundsPerCubicYard(658).KilogramsPerCubicMetre
                        ) / ChlorideContent.FromPoundsPerCubicYard(1).KilogramsPerCubicMetre,
                    1e-14
                ),
                new(
                    "1.2 lb/yd3 [kg/m3]",
                    0.7119317055,
                    () => ChlorideContent.FromPoundsPerCubicYard(1.2).KilogramsPerCubicMetre,
                    1e-10
                ),
            ]
        );
    }

    private static double OfBinder(double percent, double binderKgPerM3) =>
        new StatedChloride(
            percent,
            UnitOf("% of binder"),
            ChlorideExtraction.AcidSoluble
        ).TryToContent(new(null, binderKgPerM3), out var content, out var problem)
            ? content.KilogramsPerCubicMetre
            : throw new InvalidOperationException(problem);

    private static Unit UnitOf(string name) =>
        Units.Of(Dimension.Chloride).Single(u => u.Name == name);
}
