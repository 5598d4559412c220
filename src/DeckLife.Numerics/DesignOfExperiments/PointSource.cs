namespace DeckLife.Numerics.DesignOfExperiments;

/// <summary>Where the points of a sample come from.</summary>
public enum PointSource
{
    /// <summary>A randomly shifted lattice, folded by the baker's transformation: low discrepancy; counts are powers of 2.</summary>
    Lattice,

    /// <summary>A Latin hypercube.</summary>
    LatinHypercube,

    /// <summary>Independent random points.</summary>
    Random,
}
