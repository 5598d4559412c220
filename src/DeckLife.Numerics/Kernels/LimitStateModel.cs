namespace DeckLife.Numerics.Kernels;

/// <summary>
/// A closed-form limit state with five random variables: the content at a depth under constant exposure, C = Cs erfc(x / (2 sqrt(s(t)))),
/// s = ∫D dt with D(a) = Dref (aref/a)^m, reaches a threshold. Depth and m are normal (clamped), Dref, Cs and the threshold lognormal; all independent.
/// </summary>
/// <param name="DepthMeanMm">Mean of the depth x [mm].</param>
/// <param name="DepthStandardDeviationMm">Standard deviation of x [mm], at least 0.</param>
/// <param name="DiffusionLogMean">Mean of ln Dref, Dref in mm²/yr.</param>
/// <param name="DiffusionLogStandardDeviation">Standard deviation of ln Dref, at least 0.</param>
/// <param name="AgeingMean">Mean of m.</param>
/// <param name="AgeingStandardDeviation">Standard deviation of m, at least 0.</param>
/// <param name="SurfaceLogMean">Mean of ln Cs.</param>
/// <param name="SurfaceLogStandardDeviation">Standard deviation of ln Cs, at least 0.</param>
/// <param name="ThresholdLogMean">Mean of the threshold's logarithm.</param>
/// <param name="ThresholdLogStandardDeviation">Standard deviation of the threshold's logarithm; with that of ln Cs above 0.</param>
public sealed record LimitStateModel(
    double DepthMeanMm,
    double DepthStandardDeviationMm,
    double DiffusionLogMean,
    double DiffusionLogStandardDeviation,
    double AgeingMean,
    double AgeingStandardDeviation,
    double SurfaceLogMean,
    double SurfaceLogStandardDeviation,
    double ThresholdLogMean,
    double ThresholdLogStandardDeviation
)
{
    /// <summary>The depth is clamped to at least this [mm], above 0.</summary>
    public double LeastDepthMm { get; init; } = 1;

    /// <summary>m is clamped to at least this.</summary>
    public double LeastAgeing { get; init; }

    /// <summary>m is clamped to at most this, below 1.</summary>
    public double LargestAgeing { get; init; } = 0.95;

    /// <summary>Age at which Dref holds [yr], above 0.</summary>
    public double ReferenceAgeYr { get; init; } = 28.0 / 365.25;

    /// <summary>Age at the start of exposure [yr], at least 0.</summary>
    public double AgeAtStartYr { get; init; }

    /// <summary>Age after which D stays constant [yr]; positive infinity: ageing never fades.</summary>
    public double ConstantAfterYr { get; init; } = double.PositiveInfinity;

    /// <summary>Whether D at an age is Dref (aref/a)^m at that moment, and s its integral; otherwise it is the apparent coefficient, and s that times the age.</summary>
    public bool IsAgeingInstantaneous { get; init; } = true;

    internal void Check()
    {
        foreach (
            var (value, name) in new[]
            {
                (DepthStandardDeviationMm, nameof(DepthStandardDeviationMm)),
                (DiffusionLogStandardDeviation, nameof(DiffusionLogStandardDeviation)),
                (AgeingStandardDeviation, nameof(AgeingStandardDeviation)),
                (SurfaceLogStandardDeviation, nameof(SurfaceLogStandardDeviation)),
                (ThresholdLogStandardDeviation, nameof(ThresholdLogStandardDeviation)),
                (AgeAtStartYr, nameof(AgeAtStartYr)),
                (LeastAgeing, nameof(LeastAgeing)),
            }
        )
        {
            if (!(value >= 0 && double.IsFinite(value)))
            {
                throw new ArgumentException(
                    FormattableString.Invariant($"{name} is {value}; it must be at least 0.")
                );
            }
        }

        if (!IsAgeingInstantaneous && (AgeAtStartYr > 0 || double.IsFinite(ConstantAfterYr)))
        {
            throw new ArgumentException(
                "An apparent coefficient holds from age 0 on, and its ageing never fades."
            );
        }

        if (
            !(
                LargestAgeing < 1
                && LargestAgeing >= LeastAgeing
                && LeastDepthMm > 0
                && ReferenceAgeYr > 0
                && ConstantAfterYr > 0
            )
        )
        {
            throw new ArgumentException(
                "The clamps and ages must be m below 1, depth above 0 mm, ages above 0 yr."
            );
        }
    }

    internal void CheckSpread()
    {
        if (!(SurfaceLogStandardDeviation + ThresholdLogStandardDeviation > 0))
        {
            throw new ArgumentException(
                "The threshold or the surface content must have a spread: it is integrated analytically."
            );
        }
    }
}
