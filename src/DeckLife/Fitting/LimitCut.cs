using MathNet.Numerics.Distributions;

namespace DeckLife.Fitting;

/// <summary>How far the objective may rise within a confidence set: quantiles of Student's t and of the normal law.</summary>
/// <param name="Student">Quantile of Student's t at the residual degrees of freedom; its square is the F(1, n - p) cut.</param>
/// <param name="Normal">Quantile of the normal law, for errors that are known.</param>
internal readonly record struct LimitCut(double Student, double Normal)
{
    // Quantiles for the degrees of freedom that cores have; computed once, since the inverse is a root search.
    private static readonly Lazy<LimitCut>[] TwoSidedCuts = Table(0.975);

    /// <summary>The cut of two-sided 95 % limits.</summary>
    public static LimitCut TwoSided95(int degreesOfFreedom) => Of(TwoSidedCuts, degreesOfFreedom);

    private static LimitCut Of(Lazy<LimitCut>[] table, int degreesOfFreedom) =>
        table[Math.Clamp(degreesOfFreedom, 1, table.Length) - 1].Value;

    private static Lazy<LimitCut>[] Table(double probability) =>
        [
            .. Enumerable
                .Range(1, 200)
                .Select(nu => new Lazy<LimitCut>(() =>
                    new LimitCut(
                        StudentT.InvCDF(0, 1, nu, probability),
                        MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, probability)
                    )
                )),
        ];
}
