using DeckLife.Numerics.Diffusion;

namespace DeckLife.Numerics.Tests.Diffusion;

/// <summary>Random problems with Langmuir and Freundlich isotherms, against similarity solutions.</summary>
/// <remarks>
/// Freundlich layers hold some chloride at the start. Into a clean one chloride advances behind a sharp foot, where the
/// slope of the isotherm has no bound: neither the shooting nor, there, the estimate of the solver is shown to be right.
/// </remarks>
internal sealed partial record RandomLayeredCase
{
    private const double FarMm = 500;

    /// <summary>The case of a number: the same for ever.</summary>
    public static RandomLayeredCase WithIsotherm(int number)
    {
        var random = new Random(2_345_678 + number);
        return number % 2 == 0 ? HeldFace(random) : ContactOfTwo(random);
    }

    private static Sorption Isotherm(Random random)
    {
        var water = Between(random, 0.04, 0.12);
        return random.Next(2) == 0
            ? new LangmuirSorption(water, Between(random, 0.1, 1), LogBetween(random, 0.02, 0.5))
            : new FreundlichSorption(water, Between(random, 0.2, 1.5), Between(random, 0.3, 0.9));
    }

    // One layer, ageing, clean or salted at the start, its face held.
    private static RandomLayeredCase HeldFace(Random random)
    {
        var law = Isotherm(random);
        var exponent = random.Next(2) == 0 ? 0 : Between(random, 0.1, 0.6);
        var d = LogBetween(random, 2, 60);
        double Clock(double t) => d * Math.Pow(Math.Max(0, t), 1 - exponent);
        var face = Between(random, 5, 40);
        var start =
            random.Next(2) == 0 && law is LangmuirSorption ? 0 : Between(random, 0.05, 0.8) * face;
        var profile = SimilarProfile.Of(law, face, start, 8000);
        var total = law.Total(start);
        var queries = Asked(random, 0, 40, 60, []);
        return new(
            "isotherm, face held",
            new LayeredProblem
            {
                Layers =
                [
                    new DiffusionLayer(FarMm, Clock, _ => total)
                    {
                        IsUniform = true,
                        Sorption = law,
                    },
                ],
                Surface = BoundaryCondition.Constant(law.Total(face)),
            },
            queries,
            k => law.Total(profile.Free(queries[k].Depth / (2 * Math.Sqrt(Clock(queries[k].Time)))))
        );
    }

    // Two layers of their own D and isotherm, salted unequally, brought into contact far from both faces: the value at
    // the interface follows from equal fluxes.
    private static RandomLayeredCase ContactOfTwo(Random random)
    {
        var (top, bottom) = (Isotherm(random), Isotherm(random));
        var (first, second) = (LogBetween(random, 2, 60), LogBetween(random, 2, 60));
        var (high, low) = (
            Between(random, 5, 40),
            random.Next(2) == 0 && top is LangmuirSorption && bottom is LangmuirSorption
                ? 0
                : Between(random, 0.2, 4)
        );
        var isTopHigh = random.Next(2) == 0;
        var (above, below) = isTopHigh ? (high, low) : (low, high);
        double Imbalance(double face, int steps) =>
            (Math.Sqrt(first) * SimilarProfile.Of(top, face, above, steps).Gradient)
            + (Math.Sqrt(second) * SimilarProfile.Of(bottom, face, below, steps).Gradient);
        var found = RootFinding.BracketedRoot.TryFind(
            u => Imbalance(u, 2000),
            low,
            high,
            1e-9,
            out var interfaceFree
        );
        if (!found)
        {
            throw new InvalidOperationException("no interface value found");
        }

        var up = SimilarProfile.Of(top, interfaceFree, above, 8000);
        var down = SimilarProfile.Of(bottom, interfaceFree, below, 8000);
        List<LayeredQuery> queries =
        [
            .. Asked(random, 0, 40, 80, []).Select(q => q with { Depth = FarMm - 40 + q.Depth }),
        ];
        return new(
            "isotherms in contact",
            new LayeredProblem
            {
                Layers =
                [
                    new DiffusionLayer(FarMm, first, top.Total(above)) { Sorption = top },
                    new DiffusionLayer(FarMm, second, bottom.Total(below)) { Sorption = bottom },
                ],
                Surface = BoundaryCondition.Sealed,
            },
            queries,
            k =>
            {
                var (time, x) = (queries[k].Time, queries[k].Depth - FarMm);
                return x < 0
                    ? top.Total(up.Free(-x / (2 * Math.Sqrt(first * time))))
                    : bottom.Total(down.Free(x / (2 * Math.Sqrt(second * time))));
            }
        );
    }
}
