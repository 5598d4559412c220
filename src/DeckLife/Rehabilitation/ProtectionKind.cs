namespace DeckLife.Rehabilitation;

/// <summary>How a thin protection keeps salt off the concrete.</summary>
public enum ProtectionKind
{
    /// <summary>A penetrating sealer: the concrete's surface takes on a share of the content that it would have without.</summary>
    Sealer,

    /// <summary>A waterproofing membrane or a thin polymer overlay: no salt passes, but for the share of the area where it leaks.</summary>
    Barrier,
}
