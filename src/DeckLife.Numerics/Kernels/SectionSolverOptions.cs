using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>How finely <see cref="BatchedOverlaySolver"/> solves, and with how many threads.</summary>
public sealed record SectionSolverOptions
{
    /// <summary>Samples whose expected error exceeds this share of their largest content are solved again, finer; above 0.</summary>
    /// <remarks>
    /// Expected is half the difference of the two meshes. <see cref="SectionHistories.ErrorEstimate"/> is the whole of it or more and adds up over events, so that it can be twice the
    /// tolerance, three times where the point lies above another layer, without another solution.
    /// </remarks>
    public double Tolerance { get; init; } = 1e-3;

    /// <summary>The level to begin with, from 0 (36 cells, 24 steps for two layers) to 4.</summary>
    public int FirstLevel { get; init; }

    /// <summary>The finest level to go to, from <see cref="FirstLevel"/> to 4.</summary>
    public int LastLevel { get; init; } = 4;

    /// <summary>Number of threads; 0 for one a processor. The result does not depend on it.</summary>
    public int Threads { get; init; }

    /// <summary>The vectors to use; by default the widest that the machine has.</summary>
    public LaneWidth Width { get; init; } = VectorWidth.InUse;
}
