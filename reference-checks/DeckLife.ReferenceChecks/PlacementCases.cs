using DeckLife.Placement;

namespace DeckLife.ReferenceChecks;

/// <summary>Evaporation on the day of placement.</summary>
public sealed class PlacementCases : IReferenceCaseSet
{
    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return new(
            "placement/evaporation",
            "Evaporation rate from fresh concrete",
            "concrete °C, air °C, humidity, wind km/h as named",
            "Uno 1998, ACI Materials Journal 95: 5 [(Tc+18)^2.5 - r (Ta+18)^2.5] (V+4) 1e-6 (formula read in a page that quotes it)",
            HowGot.ComputedIndependently,
            "printed to 8 to 10 digits",
            [
                new("31, 27, 0.5, 19 [kg/m²/h]", 1.151718505, () => At(31, 27, 0.5, 19), 1e-9),
                new(
                    "31, 27, 0.5, 19 [lb/ft²/h]",
                    0.23589054,
                    () => At(31, 27, 0.5, 19) / EvaporationRate.KgPerM2PerLbPerFt2,
                    1e-7
                ),
                new("25, 20, 0.6, 15 [kg/m²/h]", 0.6444662762, () => At(25, 20, 0.6, 15), 1e-9),
                new("20, 20, 0.5, 16 [kg/m²/h]", 0.445070691, () => At(20, 20, 0.5, 16), 1e-8),
                new("35, 32, 0.3, 24 [kg/m²/h]", 2.120513895, () => At(35, 32, 0.3, 24), 1e-9),
            ]
        );
        yield return new(
            "placement/menzel",
            "Evaporation rate by the older form",
            "concrete 31 °C, air 27 °C, 50 %, 19 km/h",
            "Menzel in the metric form of ACI 308 (from memory): 0.315 (e0 - r ea) (0.253 + 0.060 V), e = 0.61 exp(17.3 T/(237.3 + T)) kPa",
            HowGot.ComputedIndependently,
            "printed to 8 digits",
            [
                new(
                    "31, 27, 0.5, 19 [kg/m²/h]",
                    1.1919811,
                    () => EvaporationRate.Menzel(new("", 27, 31, 0.5, 19)).Estimate,
                    3e-8
                ),
            ]
        );
        yield return new(
            "placement/chart",
            "The example of the ACI 305 chart",
            "concrete 87 °F, air 80 °F, 50 %, 12 mph",
            "ACI 305R chart, read as about 0.25 lb/ft²/h",
            HowGot.FromMemory,
            "a chart is read to about 10 %",
            [
                new(
                    "rate [lb/ft²/h]",
                    0.25,
                    () =>
                        At(55 / 1.8, 48 / 1.8, 0.5, 12 * 1.609344)
                        / EvaporationRate.KgPerM2PerLbPerFt2,
                    0.1
                ),
            ]
        );
        yield return new(
            "placement/limits",
            "Limits in both systems of units",
            "0.20 and 0.10 lb/ft²/h",
            "0.45359237 kg/lb and 0.3048 m/ft by definition",
            HowGot.ComputedIndependently,
            "printed to 8 digits",
            [
                new(
                    "0.20 lb/ft²/h [kg/m²/h]",
                    0.97648553,
                    () => 0.20 * EvaporationRate.KgPerM2PerLbPerFt2,
                    1e-8
                ),
                new(
                    "0.10 lb/ft²/h [kg/m²/h]",
                    0.48824276,
                    () => 0.10 * EvaporationRate.KgPerM2PerLbPerFt2,
                    2e-8
                ),
            ]
        );
    }

    private static double At(double concrete, double air, double humidity, double wind) =>
        EvaporationRate.Uno1998(new("", air, concrete, humidity, wind)).Estimate;
}
