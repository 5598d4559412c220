namespace DeckLife.Numerics.Sensitivity;

/// <summary>The elementary effects of one input, summed up.</summary>
/// <param name="Mean">Mean μ of the effects.</param>
/// <param name="MeanAbsolute">Mean μ* of their absolute values.</param>
/// <param name="StandardDeviation">Standard deviation σ of the effects, divisor r - 1: interaction or curvature.</param>
/// <param name="StandardErrorOfMeanAbsolute">Standard error of μ*.</param>
/// <param name="Count">Number of effects r.</param>
public sealed record ElementaryEffect(
    double Mean,
    double MeanAbsolute,
    double StandardDeviation,
    double StandardErrorOfMeanAbsolute,
    int Count
)
{
    /// <summary>Sums up effects.</summary>
    /// <param name="effects">The effects, at least one.</param>
    public static ElementaryEffect FromEffects(IReadOnlyList<double> effects)
    {
        ArgumentNullException.ThrowIfNull(effects);
        var r = effects.Count;
        ArgumentOutOfRangeException.ThrowIfZero(r, nameof(effects));
        var mean = effects.Sum() / r;
        var absolute = effects.Sum(Math.Abs) / r;
        double Deviation(Func<double, double> of, double centre) =>
            r < 2 ? 0 : Math.Sqrt(effects.Sum(e => (of(e) - centre) * (of(e) - centre)) / (r - 1));
        return new(
            mean,
            absolute,
            Deviation(e => e, mean),
            Deviation(Math.Abs, absolute) / Math.Sqrt(r),
            r
        );
    }
}
