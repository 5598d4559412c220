using DeckLife.Propagation;

namespace DeckLife.ReferenceChecks;

/// <summary>From initiation to damage: rust pressure, corrosion rate, Faraday's law.</summary>
public sealed class PropagationCases : IReferenceCaseSet
{
    // cover [mm], bar [mm], rate as the paper's number, observed [yr]
    private static readonly (double Cover, double Bar, double Rate)[] Slabs =
    [
        (48, 16, 2.41),
        (70, 16, 1.79),
        (27, 16, 3.75),
        (52, 12.7, 1.80),
    ];

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        double[] alphas = [0.523, 0.57, 0.622];
        double[][] liuWeyers =
        [
            [1.44326, 1.66611, 1.94144],
            [3.15589, 3.64318, 4.24524],
            [0.51252, 0.59166, 0.68943],
            [1.66779, 1.92531, 2.24348],
        ];
        yield return new(
            "propagation/liu-weyers",
            "Time to cracking of the cover by rust pressure",
            "ft 3.3 MPa, Ec 27 GPa, creep 2.0, nu 0.18, d0 12.5 um, rust 3600, steel 7850 kg/m3; rates as the paper gives them with its factor 0.098 for mA/ft2, here 0.0913 for uA/cm2",
            "Liu and Weyers, ACI Materials Journal 95 (1998) 675 (form and constants from memory); times computed independently from that form",
            HowGot.ComputedIndependently,
            "printed to 6 digits",
            [
                .. Slabs.SelectMany(
                    (s, row) =>
                        alphas.Select(
                            (alpha, column) =>
                                new ReferenceValue(
                                    FormattableString.Invariant(
                                        $"cover {s.Cover}, bar {s.Bar}, rate {s.Rate}, alpha {alpha} [yr]"
                                    ),
                                    liuWeyers[row][column],
                                    () =>
                                        LiuWeyers1998.YearsToCracking(
                                            s.Cover,
                                            s.Bar,
                                            s.Rate * 0.098 / 0.0913,
                                            new() { SteelInRust = alpha }
                                        ),
                                    1e-5
                                )
                        )
                ),
                new(
                    "critical rust, cover 48, bar 16, alpha 0.523 [mg/mm]",
                    8.09456,
                    () => LiuWeyers1998.CriticalRust(48, 16, new() { SteelInRust = 0.523 }),
                    2e-6
                ),
                new(
                    "the same, alpha 0.57 [mg/mm]",
                    8.33077,
                    () => LiuWeyers1998.CriticalRust(48, 16, new() { SteelInRust = 0.57 }),
                    2e-6
                ),
                new(
                    "the same, alpha 0.622 [mg/mm]",
                    8.60872,
                    () => LiuWeyers1998.CriticalRust(48, 16, new() { SteelInRust = 0.622 }),
                    2e-6
                ),
            ]
        );
        double[] zones = [10, 15, 20];
        double[][] soudki =
        [
            [0.50988, 0.59097, 0.67206],
            [0.88990, 0.99920, 1.10850],
            [0.23687, 0.28893, 0.34099],
            [0.71436, 0.82303, 0.93169],
        ];
        yield return new(
            "propagation/el-maaddawy-soudki",
            "Time to cracking of the cover, thick-walled cylinder",
            "as above, rates in uA/cm2, porous zone 10, 15, 20 um",
            "El Maaddawy and Soudki, Cement and Concrete Composites 29 (2007) 168 (memory); computed independently from that form",
            HowGot.ComputedIndependently,
            "printed to 5 digits",
            [
                .. Slabs.SelectMany(
                    (s, row) =>
                        zones.Select(
                            (zone, column) =>
                                new ReferenceValue(
                                    FormattableString.Invariant(
                                        $"cover {s.Cover}, bar {s.Bar}, rate {s.Rate}, zone {zone} um [yr]"
                                    ),
                                    soudki[row][column],
                                    () =>
                                        ElMaaddawySoudki2007.YearsToCracking(
                                            s.Cover,
                                            s.Bar,
                                            s.Rate,
                                            new() { PorousZoneUm = zone }
                                        ),
                                    2e-5
                                )
                        )
                ),
            ]
        );
        yield return new(
            "propagation/faraday",
            "Loss of radius for 1 uA/cm2",
            "densities 7870, 7874, 7850 kg/m3",
            "Faraday's law with CODATA constants; the literature's constant is 11.6 (Andrade and Alonso, memory)",
            HowGot.ComputedIndependently,
            "printed to 8 digits; the molar mass of iron has 5",
            [
                new("7870 [um/yr]", 11.604388, () => FaradayLaw.MicrometresPerYear(7870), 1e-6),
                new("7874 [um/yr]", 11.598493, () => FaradayLaw.MicrometresPerYear(7874), 1e-6),
                new("7850 [um/yr]", 11.633953, () => FaradayLaw.MicrometresPerYear(), 1e-6),
            ]
        );
        yield return new(
            "propagation/vu-stewart",
            "Corrosion rate from cover and water-cement ratio",
            "(w/c, cover): (0.5, 50), (0.45, 40), (0.4, 60); first year and after 10 yr",
            "Vu and Stewart, Structural Safety 22 (2000) 313 (memory); computed independently from that form",
            HowGot.ComputedIndependently,
            "printed to 10 digits",
            [
                new("0.5, 50", 2.356193689, () => VuStewart2000.CorrosionRate(0.5, 50), 1e-9),
                new(
                    "0.5, 50, 10 yr",
                    1.027140643,
                    () => VuStewart2000.CorrosionRate(0.5, 50, 10),
                    1e-9
                ),
                new("0.45, 40", 2.519051218, () => VuStewart2000.CorrosionRate(0.45, 40), 1e-9),
                new(
                    "0.45, 40, 10 yr",
                    1.09813548,
                    () => VuStewart2000.CorrosionRate(0.45, 40, 10),
                    5e-9
                ),
                new("0.4, 60", 1.456037294, () => VuStewart2000.CorrosionRate(0.4, 60), 1e-9),
                new(
                    "0.4, 60, 10 yr",
                    0.6347335064,
                    () => VuStewart2000.CorrosionRate(0.4, 60, 10),
                    1e-9
                ),
            ]
        );
    }
}
