namespace DeckLife.Numerics.Kernels;

/// <summary>Whether and when the content at the point first reached the threshold.</summary>
public enum CrossingStatus
{
    /// <summary>No threshold was given.</summary>
    NotAsked,

    /// <summary>At the start already.</summary>
    AtStart,

    /// <summary>At the time given.</summary>
    Reached,

    /// <summary>Not within the times asked.</summary>
    NotWithin,
}
