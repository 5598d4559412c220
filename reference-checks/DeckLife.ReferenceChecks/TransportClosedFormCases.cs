using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.RootFinding;
using DeckLife.Numerics.SpecialFunctions;

namespace DeckLife.ReferenceChecks;

/// <summary>Closed forms of diffusion against values computed with 30 to 80 digits.</summary>
public sealed class TransportClosedFormCases : IReferenceCaseSet
{
    private const string Digits = "the reference is given to 12 or 13 digits";

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return Case(
            "error-function",
            "erfc and its inverse",
            "x and p as named",
            "DLMF 7.2; mpmath, 80 digits",
            "rounding of doubles",
            [
                new("erfc(0.5)", 0.479500122186953462, () => ErrorFunction.Erfc(0.5), 1e-15),
                new("erfc(1.5)", 0.0338948535246892729, () => ErrorFunction.Erfc(1.5), 1e-15),
                new("erfc(5)", 1.53745979442803485e-12, () => ErrorFunction.Erfc(5), 2e-15),
                new("erfc(26)", 5.6631924088561428e-296, () => ErrorFunction.Erfc(26), 2e-15),
                new(
                    "inverse at 0.001",
                    2.32675376551352467,
                    () => ErrorFunction.InverseErfc(0.001),
                    2e-15
                ),
                new(
                    "inverse at 0.2",
                    0.90619380243682322,
                    () => ErrorFunction.InverseErfc(0.2),
                    2e-15
                ),
                new(
                    "inverse at 0.99",
                    0.00886250128095059791,
                    () => ErrorFunction.InverseErfc(0.99),
                    2e-14
                ),
                new(
                    "inverse at 1.5",
                    -0.476936276204469873,
                    () => ErrorFunction.InverseErfc(1.5),
                    2e-15
                ),
                new("ierfc(3)", 3.3550349776176e-6, () => RepeatedErfcIntegral.First(3), 2e-14),
                new("i2erfc(5)", 1.40292151857752e-14, () => RepeatedErfcIntegral.Second(5), 2e-14),
                new(
                    "i4erfc(5)",
                    1.19872416817451e-16,
                    () => RepeatedErfcIntegral.Value(4, 5.0),
                    2e-14
                ),
                new(
                    "i3erfc(0.1)",
                    0.0716905769578624,
                    () => RepeatedErfcIntegral.Value(3, 0.1),
                    2e-14
                ),
            ]
        );
        yield return new ReferenceCase(
            "transport/error-function-printed",
            "erfc, values printed by others",
            "x as named",
            "printed in the documentation of general-purpose mathematics software and of a spreadsheet",
            HowGot.Printed,
            "the printed digits",
            [
                new("erfc(1.41)", 0.04614756064, () => ErrorFunction.Erfc(1.41), 2e-10),
                new("erfc(sqrt 2)", 0.0455002639, () => ErrorFunction.Erfc(Math.Sqrt(2)), 2e-9),
                new("erfc(3)", 2.209049700e-5, () => ErrorFunction.Erfc(3), 1e-9),
                new("erfc(-1)", 1.84270079294971, () => ErrorFunction.Erfc(-1), 1e-14),
                new("erfc(12)", 1.3562611692059e-64, () => ErrorFunction.Erfc(12), 1e-13),
            ]
        );

        double HalfSpaceA(double x, double t) => 0.1 + (4.9 * HalfSpace.ConstantSurface(x, 30 * t));
        yield return Case(
            "half-space",
            "Half space, constant surface content",
            "Cs 5, C0 0.1, D 30 mm²/yr",
            "Crank 1975 eq. 2.45 (from memory), evaluated with 30 digits",
            Digits,
            [
                new("t 5, x 10", 2.862144022089, () => HalfSpaceA(10, 5), 1e-12),
                new("t 5, x 100", 0.1000000380438, () => HalfSpaceA(100, 5), 1e-12),
                new("t 10, x 25", 1.606427413044, () => HalfSpaceA(25, 10), 1e-12),
                new("t 20, x 50", 0.829681898576, () => HalfSpaceA(50, 20), 1e-12),
                new("t 40, x 75", 0.7163534807308, () => HalfSpaceA(75, 40), 1e-12),
                new("t 40, x 0", 5, () => HalfSpaceA(0, 40), 1e-15),
                new(
                    "Cs 0.003, x 0.03 m, D 1e-12 m²/s, t 3e8 s",
                    0.00066201408575954,
                    () => 0.003 * HalfSpace.ConstantSurface(0.03, 3e-4),
                    1e-13
                ),
                new(
                    "flux into the surface, t 20",
                    3.3858426648191,
                    () => 4.9 * HalfSpace.SurfaceFlux(30, 600),
                    1e-13
                ),
                new("uptake, t 20", 135.43370659276, () => 4.9 * HalfSpace.Uptake(600), 1e-13),
                new(
                    "mean 0-6 mm, t 20",
                    4.662259661588,
                    () => 0.1 + (4.9 * SliceMean.Value(0, 6, 2 * Math.Sqrt(600))),
                    1e-12
                ),
                new(
                    "mean 38-51 mm, t 20",
                    1.087643193406,
                    () => 0.1 + (4.9 * SliceMean.Value(38, 51, 2 * Math.Sqrt(600))),
                    1e-12
                ),
            ]
        );
        yield return Case(
            "surface-laws",
            "Half space, growing surface content",
            "D 30 mm²/yr; linear 0.25/yr; square root 1/yr^0.5; exponential 6(1-exp(-0.1t)); linear to 6 in 15 yr, then held",
            "Crank 1975 ch. 3, Carslaw and Jaeger 2.5 (from memory), 30 digits; exponential also by Talbot's Laplace inversion",
            Digits,
            [
                new(
                    "linear, t 10, x 25",
                    0.3598524562692,
                    () => 0.25 * HalfSpace.LinearSurface(25, 30, 10),
                    1e-12
                ),
                new(
                    "linear, t 30, x 50",
                    0.7531747212488,
                    () => 0.25 * HalfSpace.LinearSurface(50, 30, 30),
                    1e-12
                ),
                new(
                    "square root, t 10, x 50",
                    0.06021979849854,
                    () => HalfSpace.SquareRootSurface(50, 30, 10),
                    1e-12
                ),
                new(
                    "square root, t 30, x 25",
                    2.356490665663,
                    () => HalfSpace.SquareRootSurface(25, 30, 30),
                    1e-12
                ),
                new(
                    "exponential, t 10, x 25",
                    0.6559163064417,
                    () => 6 * HalfSpace.ExponentialSurface(25, 30, 10, 0.1),
                    1e-11
                ),
                new(
                    "exponential, t 10, x 50",
                    0.05155938910077,
                    () => 6 * HalfSpace.ExponentialSurface(50, 30, 10, 0.1),
                    1e-11
                ),
                new(
                    "exponential, t 30, x 50",
                    0.9224911105186,
                    () => 6 * HalfSpace.ExponentialSurface(50, 30, 30, 0.1),
                    1e-11
                ),
                new(
                    "held, t 15, x 50",
                    0.176953193846,
                    () => 6 * HalfSpace.LinearThenHeldSurface(50, 30, 15, 15),
                    1e-11
                ),
                new(
                    "held, t 30, x 25",
                    2.946048354025,
                    () => 6 * HalfSpace.LinearThenHeldSurface(25, 30, 30, 15),
                    1e-12
                ),
                new(
                    "held, t 50, x 50",
                    1.924972488673,
                    () => 6 * HalfSpace.LinearThenHeldSurface(50, 30, 50, 15),
                    1e-12
                ),
            ]
        );
        yield return Case(
            "power-law",
            "Mejlbro and Poulsen's function",
            "Psi_p(z) = Gamma(p+1) 4^p i^(2p)erfc(z)",
            "Mejlbro 1996 (from memory); the integral form evaluated with 30 digits agrees with the series to 14",
            "the reference is given to 12 digits",
            [
                new(
                    "p 0.1, z 0.1",
                    0.874566421794,
                    () => HalfSpace.MejlbroPoulsen(0.1, 0.1),
                    1e-11
                ),
                new(
                    "p 0.2, z 0.8",
                    0.210276865466,
                    () => HalfSpace.MejlbroPoulsen(0.2, 0.8),
                    1e-11
                ),
                new("p 0.3, z 2", 0.00250945863262, () => HalfSpace.MejlbroPoulsen(0.3, 2), 1e-11),
                new(
                    "p 0.5, z 0.4",
                    0.446884520364,
                    () => HalfSpace.MejlbroPoulsen(0.5, 0.4),
                    1e-11
                ),
                new("p 0.75, z 1", 0.0703719677351, () => HalfSpace.MejlbroPoulsen(0.75, 1), 1e-11),
                new("p 1, z 1.5", 0.00802626055035, () => HalfSpace.MejlbroPoulsen(1, 1.5), 1e-11),
                new("p 0, z 0.6", 0.396143909152, () => HalfSpace.MejlbroPoulsen(0, 0.6), 1e-11),
            ]
        );
        yield return Case(
            "slab",
            "Slab, one face held, the other sealed",
            "Fo = Dt/l², x from the sealed face",
            "Crank 1975 ch. 4 (from memory), 30 digits",
            Digits,
            [
                new(
                    "Fo 0.01, x/l 0",
                    3.074919588856e-12,
                    () => FiniteSlab.Content(0, 1, 0.01),
                    1e-11
                ),
                new(
                    "Fo 0.05, x/l 0.5",
                    0.1138483994426,
                    () => FiniteSlab.Content(0.5, 1, 0.05),
                    1e-12
                ),
                new(
                    "Fo 0.2, x/l 0.8",
                    0.7557519398311,
                    () => FiniteSlab.Content(0.8, 1, 0.2),
                    1e-12
                ),
                new("Fo 1, x/l 0", 0.8920229555559, () => FiniteSlab.Content(0, 1, 1), 1e-12),
                new(
                    "Fo 0.05, uptake",
                    0.2523132521778,
                    () => FiniteSlab.UptakeRatio(1, 0.05),
                    1e-12
                ),
                new("Fo 0.5, uptake", 0.7639503307438, () => FiniteSlab.UptakeRatio(1, 0.5), 1e-12),
            ]
        );
        var media = new TwoMedia(32, 5);
        yield return Case(
            "two-media",
            "Overlay on a deck, both clean, surface held",
            "overlay 32 mm of D 8, deck of D 40 mm²/yr, surface 10",
            "Carslaw and Jaeger 12.8; Crank 2.4.4 (from memory); image series, Laplace inversion and finite volumes agree",
            Digits,
            [
                new("t 10, x 16", 2.058467553701, () => 10 * media.ConstantSurface(16, 80), 1e-11),
                new(
                    "t 10, x 82",
                    0.0001067133807435,
                    () => 10 * media.ConstantSurface(82, 80),
                    1e-11
                ),
                new(
                    "t 25, x 32",
                    0.6773602421824,
                    () => 10 * media.ConstantSurface(32, 200),
                    1e-11
                ),
                new(
                    "t 25, x 57",
                    0.1906565665033,
                    () => 10 * media.ConstantSurface(57, 200),
                    1e-11
                ),
                new("t 50, x 32", 1.595529069497, () => 10 * media.ConstantSurface(32, 400), 1e-11),
                new(
                    "t 50, x 82",
                    0.3375960122248,
                    () => 10 * media.ConstantSurface(82, 400),
                    1e-11
                ),
            ]
        );
        yield return Case(
            "contact",
            "Clean and contaminated half spaces in contact",
            "contaminated 4 for x > 0, t 10 yr",
            "Carslaw and Jaeger 2.15 (from memory), 30 digits",
            Digits,
            [
                new(
                    "D 30 and 30, interface",
                    2,
                    () => HalfSpaceResidual.Contact(0, 300, 300, 0, 4),
                    1e-14
                ),
                new(
                    "D 30 and 30, x -20",
                    0.8284323564851,
                    () => HalfSpaceResidual.Contact(-20, 300, 300, 0, 4),
                    1e-12
                ),
                new(
                    "D 8 and 40, interface",
                    2.7639320225002,
                    () => HalfSpaceResidual.Contact(0, 80, 400, 0, 4),
                    1e-12
                ),
                new(
                    "D 8 and 40, x -20",
                    0.3146634287037,
                    () => HalfSpaceResidual.Contact(-20, 80, 400, 0, 4),
                    1e-12
                ),
                new(
                    "D 8 and 40, x 20",
                    3.407305253757,
                    () => HalfSpaceResidual.Contact(20, 80, 400, 0, 4),
                    1e-12
                ),
            ]
        );
        double Milled(double x, double t) =>
            HalfSpaceResidual.SurfaceAtZero(
                x,
                30 * t,
                y => y < 50 ? 0 : 6 * HalfSpace.ConstantSurface(y - 25, 600),
                700
            );
        yield return Case(
            "remove-and-replace",
            "Residual chloride under an overlay of the same D",
            "old profile 6 erfc(x/2sqrt(30·20)), 25 mm removed, 50 mm placed, bar now at 75 mm; D 30 mm²/yr",
            "Green's function of the half space (Carslaw and Jaeger 14.2, from memory), 30 digits; finite volumes agree to 5",
            Digits,
            [
                new("surface 0, t 5", 0.9014593152057, () => Milled(75, 5), 1e-10),
                new("surface 0, t 20", 0.5899464198232, () => Milled(75, 20), 1e-10),
                new(
                    "surface 6, t 5",
                    0.9015487292204,
                    () => Milled(75, 5) + (6 * HalfSpace.ConstantSurface(75, 150)),
                    1e-10
                ),
                new(
                    "surface 6, t 20",
                    0.7722433516826,
                    () => Milled(75, 20) + (6 * HalfSpace.ConstantSurface(75, 600)),
                    1e-10
                ),
                new(
                    "3 below 40 mm, surface 0, t 10, x 40",
                    1.498363747236,
                    () => HalfSpaceResidual.SurfaceAtZero(40, 300, y => y < 40 ? 0 : 3, 600),
                    1e-10
                ),
                new(
                    "the same, x 60",
                    2.378608897,
                    () => HalfSpaceResidual.SurfaceAtZero(60, 300, y => y < 40 ? 0 : 3, 600),
                    1e-9
                ),
            ]
        );
        yield return Case(
            "first-crossing",
            "Time at which a content is reached, closed form against a bracketed root",
            "Cs 5, C0 0.1, D 30 mm²/yr; cover and content as named",
            "inverse of Crank 1975 eq. 2.45, 30 digits",
            "the reference is given to 14 digits",
            [
                new("38 mm, 0.71 [yr]", 10.198152027235, () => Crossing(38, 0.71), 1e-12),
                new("50 mm, 1.2 [yr]", 28.240218733606, () => Crossing(50, 1.2), 1e-12),
                new("70 mm, 1.2 [yr]", 55.350828717868, () => Crossing(70, 1.2), 1e-12),
                new(
                    "63.5 mm, 0.71 [yr], bracketed",
                    28.477492044197,
                    () => BracketedCrossing(63.5, 0.71),
                    1e-11
                ),
            ]
        );
    }

    private static double Crossing(double depth, double content)
    {
        var u = ErrorFunction.InverseErfc((content - 0.1) / 4.9);
        return depth * depth / (4 * u * u * 30);
    }

    private static double BracketedCrossing(double depth, double content)
    {
        BracketedRoot.TryFind(
            t => 0.1 + (4.9 * HalfSpace.ConstantSurface(depth, 30 * t)) - content,
            0.01,
            200,
            1e-12,
            out var root
        );
        return root;
    }

    private static ReferenceCase Case(
        string name,
        string title,
        string inputs,
        string source,
        string why,
        IReadOnlyList<ReferenceValue> values
    ) => new("transport/" + name, title, inputs, source, HowGot.ComputedIndependently, why, values);
}
