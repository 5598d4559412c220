namespace DeckLife.Materials;

/// <summary>How a property of a mix compares with a specification.</summary>
public enum MixOutcome
{
    /// <summary>Within the limit, or on it.</summary>
    WithinLimit,

    /// <summary>Beyond the limit.</summary>
    BeyondLimit,

    /// <summary>The specification states no limit: nothing was checked.</summary>
    NoLimitStated,

    /// <summary>The mix does not say: nothing could be checked.</summary>
    ValueNotStated,
}
