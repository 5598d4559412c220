using DeckLife.Materials;

namespace DeckLife.ReferenceChecks;

/// <summary>Laboratory tests of overlay materials.</summary>
public sealed class LaboratoryTestCases : IReferenceCaseSet
{
    // U [V], T [°C], L [mm], xd [mm], simplified, full [1e-12 m²/s]; 24 h each.
    private static readonly (
        double U,
        double T,
        double L,
        double Xd,
        double Simplified,
        double Full
    )[] Migration =
    [
        (30, 22, 50, 15, 6.759021975, 6.770104667),
        (60, 21, 50, 12.4, 2.792913121, 2.797425541),
        (25, 23.5, 50.3, 22.7, 12.79354024, 12.81438763),
        (10, 20, 50, 30, 44.53567209, 44.61027147),
    ];

    private static readonly (double Ma, double Volts, double Hours)[] Voltages =
    [
        (4.9, 60, 96),
        (5, 60, 48),
        (12, 60, 24),
        (15, 50, 24),
        (25, 40, 24),
        (35, 35, 24),
        (40, 30, 24),
        (75, 25, 24),
        (100, 20, 24),
        (150, 15, 24),
        (359, 10, 24),
        (360, 10, 6),
    ];

    // Sums by hand: 0+1+2+3+4+5+6+8+10 = 39, and so on.
    private static readonly (double Ratio, double Sum, double Deepest)[] Layers =
    [
        (0.25, 39, 10),
        (0.30, 46, 12),
        (0.35, 55, 16),
        (0.40, 75, 20),
        (0.50, 90, 25),
        (0.60, 110, 30),
        (0.70, 141, 35),
    ];

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return new(
            "materials/rapid-migration",
            "Non-steady-state migration coefficient, both forms",
            "U [V], T [°C], L [mm], xd [mm] as named; 24 h; 2 and 0.07 mol/L",
            "NT Build 492 (1999), full and simplified expressions (equations from memory); values by a second code with its own inverse error function",
            HowGot.ComputedIndependently,
            "printed to 10 digits",
            [
                .. Migration.SelectMany(m =>
                    new ReferenceValue[]
                    {
                        new(
                            FormattableString.Invariant(
                                $"simplified [1e-12 m²/s], {m.U} V, {m.T} °C, {m.L}, {m.Xd} mm"
                            ),
                            m.Simplified,
                            () => Of(m.U, m.T, m.L, m.Xd, full: false),
                            1e-9
                        ),
                        new(
                            FormattableString.Invariant(
                                $"full [1e-12 m²/s], {m.U} V, {m.T} °C, {m.L}, {m.Xd} mm"
                            ),
                            m.Full,
                            () => Of(m.U, m.T, m.L, m.Xd, full: true),
                            1e-9
                        ),
                    }
                ),
            ]
        );
        yield return new(
            "materials/migration-voltage",
            "Voltage and duration by the current at 30 V",
            "current [mA] as named: one inside each class, and the class limits",
            "NT Build 492 (1999), table of the method (from memory)",
            HowGot.FromMemory,
            "whole volts and hours",
            [
                .. Voltages.SelectMany(v =>
                    new ReferenceValue[]
                    {
                        new(
                            FormattableString.Invariant($"{v.Ma} mA [V]"),
                            v.Volts,
                            () => MigrationVoltage.For(v.Ma).Volts,
                            0
                        ),
                        new(
                            FormattableString.Invariant($"{v.Ma} mA [h]"),
                            v.Hours,
                            () => MigrationVoltage.For(v.Ma).Hours,
                            0
                        ),
                    }
                ),
            ]
        );
        yield return new(
            "materials/grinding-layers",
            "Limits of the layers of a bulk diffusion test",
            "water by cementitious material as named; sum of the nine limits, and the deepest",
            "NT Build 443 and ASTM C1556, table of layers (from memory)",
            HowGot.FromMemory,
            "whole millimetres",
            [
                .. Layers.SelectMany(l =>
                    new ReferenceValue[]
                    {
                        new(
                            FormattableString.Invariant($"w/cm {l.Ratio}: sum of the limits [mm]"),
                            l.Sum,
                            () => GrindingLayers.LimitsMm(l.Ratio).Sum(),
                            0
                        ),
                        new(
                            FormattableString.Invariant($"w/cm {l.Ratio}: deepest [mm]"),
                            l.Deepest,
                            () => GrindingLayers.LimitsMm(l.Ratio)[^1],
                            0
                        ),
                    }
                ),
            ]
        );
        yield return new(
            "materials/charge-passed",
            "Charge passed and classes",
            "currents rising linearly from 60 to 100 mA over 6 h; specimens of 95 and 102 mm",
            "ASTM C1202: 900 (I0 + 2 I30 + … + I360), scaled by (95/d)² (from memory); by arithmetic",
            HowGot.ComputedIndependently,
            "printed to 10 digits",
            [
                new("charge [C], 95 mm", 1728, () => Charge(95), 1e-12),
                new("charge [C], 102 mm", 1498.961938, () => Charge(102), 1e-9),
            ]
        );
        yield return new(
            "materials/charge-classes",
            "Limits of the classes of charge passed",
            "the greatest charge of each class below high, found by halving",
            "ASTM C1202, table of classes: above 4000 high, 2000 to 4000 moderate, 1000 to 2000 low, 100 to 1000 very low",
            HowGot.Printed,
            "a limit is exact; halving leaves 1e-9 C",
            [
                new("high above [C]", 4000, () => ChargeLimit(ChloridePenetrability.High), 1e-9),
                new(
                    "moderate from [C]",
                    2000,
                    () => ChargeLimit(ChloridePenetrability.Moderate),
                    1e-9
                ),
                new("low from [C]", 1000, () => ChargeLimit(ChloridePenetrability.Low), 1e-9),
                new(
                    "very low from [C]",
                    100,
                    () => ChargeLimit(ChloridePenetrability.VeryLow),
                    1e-9
                ),
            ]
        );
        yield return new(
            "materials/resistivity-classes",
            "Limits of the classes of surface resistivity",
            "the resistivity where a class ends, found by halving",
            "AASHTO T 358, limits for 4 by 8 in and 6 by 12 in cylinders",
            HowGot.FromMemory,
            "a limit is exact; halving leaves 1e-9",
            [
                .. Resistivity(ResistivityCylinder.FourByEightInch, "4 by 8 in", [12, 21, 37, 254]),
                .. Resistivity(
                    ResistivityCylinder.SixByTwelveInch,
                    "6 by 12 in",
                    [9.5, 16.5, 29, 199]
                ),
            ]
        );
    }

    private static double Of(double u, double t, double l, double xd, bool full)
    {
        var test = new RapidMigrationTest
        {
            AppliedVoltageV = u,
            TemperatureC = t,
            ThicknessMm = l,
            PenetrationMm = xd,
            DurationH = 24,
        };
        var done = full ? test.TryFull(out var d, out _) : test.TrySimplified(out d, out _);
        return done ? d.SquareMetresPerSecond * 1e12 : -1;
    }

    private static double Charge(double diameterMm) =>
        ChargePassed.Coulombs(
            [.. Enumerable.Range(0, 13).Select(i => 0.060 + (0.040 * i / 12))],
            diameterMm
        );

    // The classes fall with the charge: halve until the class or a more penetrable one begins.
    private static double ChargeLimit(ChloridePenetrability from) =>
        Halve(10_000, q => ChargePassed.Classify(q) <= from);

    private static IEnumerable<ReferenceValue> Resistivity(
        ResistivityCylinder cylinder,
        string name,
        double[] limits
    ) =>
        limits.Select(
            (limit, i) =>
                new ReferenceValue(
                    $"{name}, class {(ChloridePenetrability)i} ends [kΩ·cm]",
                    limit,
                    () =>
                        Halve(1000, r => (int)SurfaceResistivity.Classify(r, cylinder, false) > i),
                    1e-9
                )
        );

    private static double Halve(double high, Func<double, bool> beyond)
    {
        var low = 1e-6;
        for (var i = 0; i < 80; i++)
        {
            var middle = (low + high) / 2;
            if (beyond(middle))
            {
                high = middle;
            }
            else
            {
                low = middle;
            }
        }

        return high;
    }
}
