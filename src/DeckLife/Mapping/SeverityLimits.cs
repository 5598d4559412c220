using DeckLife.Numerics.Sampling;

namespace DeckLife.Mapping;

/// <summary>Where on the scale of severity a place becomes active and damaged, in one draw and one cell.</summary>
/// <param name="ActiveScore">Added to the severity: active where the sum and the local scatter lie above 0.</param>
/// <param name="DamagedScore">The same for damaged; at most the former.</param>
/// <param name="LocalSd">Standard deviation of the local scatter.</param>
internal readonly record struct SeverityLimits(
    double ActiveScore,
    double DamagedScore,
    double LocalSd
)
{
    /// <summary>Probability of active with its first two derivatives by the severity.</summary>
    public (double Value, double First, double Second) Active(double f) => At(f + ActiveScore);

    /// <summary>Probability of damaged with its first two derivatives by the severity.</summary>
    public (double Value, double First, double Second) Damaged(double f) => At(f + DamagedScore);

    private (double Value, double First, double Second) At(double sum)
    {
        var z = sum / LocalSd;
        var density = Math.Exp(-0.5 * z * z) / (Math.Sqrt(2 * Math.PI) * LocalSd);
        return (NormalQuantile.Probability(z), density, -z * density / LocalSd);
    }
}
