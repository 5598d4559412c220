namespace DeckLife.Numerics.Kernels;

/// <summary>How a profile's fit ended.</summary>
public enum BatchedFitStatus
{
    /// <summary>At a minimum inside the search interval.</summary>
    Converged,

    /// <summary>The best point of the search grid is its lower or upper end.</summary>
    AtEndOfInterval,

    /// <summary>The contents do not fall with depth: the amplitude is not above 0.</summary>
    NoDecrease,

    /// <summary>The search did not settle.</summary>
    NotConverged,
}
