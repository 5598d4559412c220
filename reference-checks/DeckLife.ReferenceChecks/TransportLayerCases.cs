using DeckLife.Numerics.Diffusion;

namespace DeckLife.ReferenceChecks;

/// <summary>Slabs, overlays, contact of two bodies, and residual chloride.</summary>
public sealed class TransportLayerCases : IReferenceCaseSet
{
    private static readonly double Exact = ReferenceGrid.Digits(13);
    private static readonly double[] Fourier = [0.01, 0.05, 0.1, 0.2, 0.5, 1];

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases() => [Slab(), Overlay(), Contact(), Residual()];

    private static ReferenceCase Slab() =>
        Case(
            "slab",
            "Slab, one face held, the other sealed",
            "Fo = Dt/l², x from the sealed face",
            "Crank 1975 ch. 4 (from memory), 30 digits",
            [
                .. ReferenceGrid.Values(
                    ("Fo", Fourier),
                    ("x/l", [0, 0.5, 0.8]),
                    [
                        [3.074919588856e-12, 0.000406952017445, 0.1572992070503],
                        [0.003130804516005, 0.1138483994426, 0.5270892694107],
                        [0.05069463731553, 0.2643486847558, 0.654776971812],
                        [0.2276883931414, 0.4468241081499, 0.7557519398311],
                        [0.6292225702005, 0.7378117244251, 0.8854163257977],
                        [0.8920229555559, 0.9236486995249, 0.9666332581567],
                    ],
                    (fo, x) => FiniteSlab.Content(x, 1, fo),
                    Exact
                ),
                .. ReferenceGrid.Values(
                    "uptake Mt/Minf, Fo",
                    Fourier,
                    [
                        0.1128379167096,
                        0.2523132521778,
                        0.3568234004525,
                        0.5040878202025,
                        0.7639503307438,
                        0.9312596784633,
                    ],
                    fo => FiniteSlab.UptakeRatio(1, fo),
                    Exact
                ),
            ]
        );

    private static ReferenceCase Overlay()
    {
        var media = new TwoMedia(32, 5);
        return Case(
            "two-media",
            "Overlay on a deck, both clean, surface held",
            "overlay 32 mm of D 8, deck of D 40 mm²/yr, surface 10",
            "Carslaw and Jaeger 12.8; Crank 2.4.4 (from memory); image series, Laplace inversion and finite volumes agree",
            [
                .. ReferenceGrid.Values(
                    ("t", [10, 25, 50]),
                    ("x", [16, 32, 57, 82]),
                    [
                        [2.058467553701, 0.07053026367407, 0.00396071921649, 0.0001067133807435],
                        [4.17472628517, 0.6773602421824, 0.1906565665033, 0.0405869744377],
                        [5.391264763401, 1.595529069497, 0.7843121165441, 0.3375960122248],
                    ],
                    (t, x) => 10 * media.ConstantSurface(x, 8 * t),
                    Exact
                ),
            ]
        );
    }

    private static ReferenceCase Contact() =>
        Case(
            "contact",
            "Clean and contaminated half spaces in contact",
            "contaminated 4 for x > 0, t 10 yr",
            "Carslaw and Jaeger 2.15 (from memory), 30 digits",
            [
                .. ReferenceGrid.Values(
                    "D 30 and 30, x",
                    [-20, 0, 20],
                    [0.8284323564851, 2, 3.171567643515],
                    x => HalfSpaceResidual.Contact(x, 300, 300, 0, 4),
                    Exact
                ),
                .. ReferenceGrid.Values(
                    "D 8 and 40, x",
                    [-20, 0, 20],
                    [0.3146634287037, 2.7639320225002, 3.407305253757],
                    x => HalfSpaceResidual.Contact(x, 80, 400, 0, 4),
                    Exact
                ),
            ]
        );

    private static ReferenceCase Residual()
    {
        double Held(double x, double t) => 6 * HalfSpace.ConstantSurface(x, 30 * t);
        double Milled(double t) =>
            HalfSpaceResidual.SurfaceAtZero(
                75,
                30 * t,
                y => y < 50 ? 0 : 6 * HalfSpace.ConstantSurface(y - 25, 600),
                700,
                [50]
            );
        double Uncovered(double x) =>
            HalfSpaceResidual.SurfaceAtZero(x, 300, y => y < 40 ? 0 : 3, 600, [40]);
        return Case(
            "remove-and-replace",
            "Residual chloride under an overlay of the same D",
            "old profile 6 erfc(x/2sqrt(30·20)), 25 mm removed, 50 mm placed, bar now at 75 mm; D 30 mm²/yr",
            "Green's function of the half space (Carslaw and Jaeger 14.2, from memory), 30 digits; finite volumes agree to 5",
            [
                new("surface 0, t 5", 0.9014593152057, () => Milled(5), 2e-12),
                new("surface 0, t 20", 0.5899464198232, () => Milled(20), 2e-12),
                new("surface 6, t 5", 0.9015487292204, () => Milled(5) + Held(75, 5), 2e-12),
                new("surface 6, t 20", 0.7722433516826, () => Milled(20) + Held(75, 20), 2e-12),
                new(
                    "nothing removed or placed, 15 yr after 20 yr, x 50",
                    1.651401144449,
                    () =>
                        HalfSpaceResidual.SurfaceAtZero(50, 450, y => Held(y, 20), 700)
                        + Held(50, 15),
                    2e-12
                ),
                new("the same as one exposure of 35 yr", 1.651401144449, () => Held(50, 35), Exact),
                new(
                    "3 below 40 mm, surface 0, t 10, x 40",
                    1.498363747236,
                    () => Uncovered(40),
                    2e-12
                ),
                new("the same, x 60", 2.378608897, () => Uncovered(60), ReferenceGrid.Digits(10)),
            ],
            "the reference is given to 13 digits; the residual is integrated to 1e-12 of the largest content, 6 or 3"
        );
    }

    private static ReferenceCase Case(
        string name,
        string title,
        string inputs,
        string source,
        IReadOnlyList<ReferenceValue> values,
        string why = "the reference is given to 13 digits"
    ) => new("transport/" + name, title, inputs, source, HowGot.ComputedIndependently, why, values);
}
