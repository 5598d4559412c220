namespace DeckLife.Numerics.Vectors;

/// <summary>How many doubles a kernel works on at once.</summary>
public enum LaneWidth
{
    /// <summary>One: no vector instructions.</summary>
    Scalar = 1,

    /// <summary>Four: 256-bit vectors.</summary>
    Four = 4,

    /// <summary>Eight: 512-bit vectors.</summary>
    Eight = 8,
}
