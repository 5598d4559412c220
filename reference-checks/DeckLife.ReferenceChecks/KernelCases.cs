using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;

namespace DeckLife.ReferenceChecks;

/// <summary>The batched kernels against tables, quadrature and closed forms.</summary>
public sealed class KernelCases : IReferenceCaseSet
{
    private const double Unit = 31.5576; // 1e-12 m²/s in mm²/yr

    /// <inheritdoc/>
    public IEnumerable<ReferenceCase> Cases()
    {
        yield return new ReferenceCase(
            "kernels/special-functions",
            "Vectorised special functions",
            "arguments as doubles",
            "mpmath 1.2.1 at 40 digits: erfc, and the normal quantile by Newton on ln erfc",
            HowGot.ComputedIndependently,
            "stated accuracy of the functions: 5e-15 and 2e-15",
            [
                new("erfc(0.5)", 0.47950012218695346, () => Erfc(0.5), 5e-15),
                new("erfc(2.5)", 0.00040695201744495894, () => Erfc(2.5), 5e-15),
                new("erfc(6.5)", 3.8421483271206475e-20, () => Erfc(6.5), 5e-15),
                new("quantile(0.975)", 1.9599639845400539, () => Quantile(0.975), 2e-15),
                new("quantile(1e-10)", -6.3613409024040562, () => Quantile(1e-10), 2e-15),
            ]
        );
        yield return new ReferenceCase(
            "kernels/limit-state",
            "Probability that the threshold is reached, five random variables",
            "x ~ N(65, 8) mm; ln D28 ~ N(ln 126.2304, 0.3), mm²/yr; m ~ N(0.5, 0.08) clamped to [0.05, 0.9]; ln Cs ~ N(ln 0.5, 0.35); ln Ct ~ N(ln 0.09, 0.25)",
            "Tensor Gauss-Hermite quadrature of the conditional probability, 100³ points (SciPy 1.10.1 ndtr, log_ndtr); 80³ points agree to 1e-8",
            HowGot.ComputedIndependently,
            "four standard errors of 2^16 points and 8 shifts, at most 1.5e-5",
            [
                new("P at 10 yr", 0.0014378385, () => Probability(10), 1.5e-5, true),
                new("P at 25 yr", 0.0208595375, () => Probability(25), 1.5e-5, true),
                new("P at 50 yr", 0.0829341530, () => Probability(50), 1.5e-5, true),
                new("P at 100 yr", 0.2127627065, () => Probability(100), 1.5e-5, true),
            ]
        );
        yield return new ReferenceCase(
            "kernels/contact",
            "Interface content of two half spaces in contact (batched solver, point at the interface)",
            "overlay 100 mm at content 0, substrate 200 mm at content 1; D1/D2 = 5 and 0.2, D2 = 31.5576 mm²/yr; 1 yr",
            "Crank, The Mathematics of Diffusion (1975), section 3.2: C2 sqrt(D2) / (sqrt(D1) + sqrt(D2))",
            HowGot.ComputedIndependently,
            "the solver's tolerance of 1e-3 of the largest content",
            [
                new("D1/D2 = 5", 0.30901699437494745, () => Contact(5), 1e-3, true),
                new("D1/D2 = 0.2", 0.69098300562505255, () => Contact(0.2), 1e-3, true),
            ]
        );
    }

    private static double Erfc(double x)
    {
        var value = new double[1];
        VectorFunctions.Erfc([x], value);
        return value[0];
    }

    private static double Quantile(double p)
    {
        var value = new double[1];
        NormalQuantile.At([p], value);
        return value[0];
    }

    private static double Probability(double years) =>
        new ConditionalEstimator(
            new LimitStateModel(
                65,
                8,
                Math.Log(4 * Unit),
                0.3,
                0.5,
                0.08,
                Math.Log(0.5),
                0.35,
                Math.Log(0.09),
                0.25
            )
            {
                LeastAgeing = 0.05,
                LargestAgeing = 0.9,
            }
        )
            .Estimate([years], 1 << 16, 8, 1)[0]
            .Probability;

    private static double Contact(double ratio)
    {
        var overlay = new LayerSamples(1);
        var substrate = new LayerSamples(1);
        overlay.ThicknessMm[0] = 100;
        substrate.ThicknessMm[0] = 200;
        overlay.DiffusionMm2PerYr[0] = ratio * Unit;
        substrate.DiffusionMm2PerYr[0] = Unit;
        substrate.Background[0] = 1;
        var samples = new SectionSamples(overlay, substrate);
        samples.PointDepthMm[0] = 100;
        return new BatchedOverlaySolver().Solve(samples, [1]).Content[0];
    }
}
