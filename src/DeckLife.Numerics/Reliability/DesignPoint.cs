using System.Collections.Immutable;

namespace DeckLife.Numerics.Reliability;

/// <summary>A point of the limit state that lies nearest to the origin of the standard normal scores (locally).</summary>
public sealed record DesignPoint
{
    /// <summary>How the search ended; the other members are of its last point.</summary>
    public required DesignPointStatus Status { get; init; }

    /// <summary>The reliability index β: the signed distance from the origin; negative where the origin has failed.</summary>
    public required double Beta { get; init; }

    /// <summary>Independent standard normal scores u*.</summary>
    public required ImmutableArray<double> Scores { get; init; }

    /// <summary>Values of the variables x*.</summary>
    public required ImmutableArray<double> Values { get; init; }

    /// <summary>The unit vector α = -∇g/|∇g|, of the independent scores.</summary>
    public required ImmutableArray<double> Direction { get; init; }

    /// <summary>Length of the gradient |∇g| in the scores.</summary>
    public required double Slope { get; init; }

    /// <summary>Iterations used.</summary>
    public required int Iterations { get; init; }

    /// <summary>The importance factors α²; they add up to 1. For correlated variables they belong to the independent scores, in the order of the variables.</summary>
    public ImmutableArray<double> ImportanceFactors => [.. Direction.Select(a => a * a)];

    /// <summary>The first-order probability of failure Φ(-β).</summary>
    public double Probability => Sampling.NormalQuantile.Probability(-Beta);
}
