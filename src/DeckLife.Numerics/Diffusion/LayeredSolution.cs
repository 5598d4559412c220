namespace DeckLife.Numerics.Diffusion;

/// <summary>What the layered solver found.</summary>
public sealed class LayeredSolution
{
    /// <summary>Total content at each query, in the order asked.</summary>
    public required IReadOnlyList<double> Contents { get; init; }

    /// <summary>Index of the layer each query lies in: first the layers of the problem, then those placed by the events, in order.</summary>
    public required IReadOnlyList<int> LayerIndices { get; init; }

    /// <summary>Estimate of the largest error over the queries, in the unit of the content.</summary>
    public required double ErrorEstimate { get; init; }

    /// <summary>Mass not accounted for by fluxes, as a share of the largest mass held.</summary>
    public required double MassBalanceError { get; init; }

    /// <summary>Largest content at the start, in placed layers and at the faces up to the last query.</summary>
    public required double LargestContent { get; init; }

    /// <summary>Whether the error estimate is below the tolerance asked.</summary>
    public required bool IsConverged { get; init; }

    /// <summary>Whether every equation was solved and every content is a number; else no content may be used.</summary>
    public required bool IsComplete { get; init; }

    /// <summary>Nodes of the finest mesh.</summary>
    public required int Nodes { get; init; }

    /// <summary>Steps of the finest level.</summary>
    public required int Steps { get; init; }
}
