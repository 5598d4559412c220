namespace DeckLife.Numerics.Reliability;

/// <summary>A probability estimated by sampling, with its limits.</summary>
public sealed record ProbabilityEstimate
{
    /// <summary>The estimate.</summary>
    public required double Value { get; init; }

    /// <summary>Its standard error.</summary>
    public required double StandardError { get; init; }

    /// <summary>Lower limit.</summary>
    public required double Lower { get; init; }

    /// <summary>Upper limit.</summary>
    public required double Upper { get; init; }

    /// <summary>Confidence level of the limits.</summary>
    public required double Level { get; init; }

    /// <summary>How the limits were got, in words.</summary>
    public required string LimitMethod { get; init; }

    /// <summary>Number of draws.</summary>
    public required long Draws { get; init; }

    /// <summary>Number of draws in which the event happened.</summary>
    public required long Events { get; init; }
}
