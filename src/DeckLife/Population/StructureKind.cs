namespace DeckLife.Population;

/// <summary>How the deck carries load: removal below the top bars is never assumed for the last two.</summary>
public enum StructureKind
{
    /// <summary>Reinforced slab cast in place.</summary>
    CastInPlace,

    /// <summary>Precast panels.</summary>
    Precast,

    /// <summary>Post-tensioned slab.</summary>
    PostTensioned,
}
