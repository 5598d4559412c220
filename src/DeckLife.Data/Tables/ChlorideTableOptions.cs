using System.Collections.Immutable;
using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>What a chloride table does not say itself.</summary>
public sealed record ChlorideTableOptions
{
    /// <summary>Exposure age of cores that have no age of their own.</summary>
    public Age? ExposureAge { get; init; }

    /// <summary>Date of the first salt, for cores that give only the date of sampling.</summary>
    public DateOnly? FirstSalt { get; init; }

    /// <summary>What is known of the concrete, for contents by mass.</summary>
    public ConcreteMix Mix { get; init; }

    /// <summary>How the laboratory extracted the chloride, where it is stated outside the table.</summary>
    public ChlorideExtraction Extraction { get; init; }

    /// <summary>The detection limit of non-detects without a number.</summary>
    public StatedChloride? DetectionLimit { get; init; }

    /// <summary>Heads of this file (lower case) and the documented column that each stands for, such as <c>profile_id</c> for <c>core</c>.</summary>
    public ImmutableDictionary<string, string> ColumnNames { get; init; } =
        ImmutableDictionary<string, string>.Empty;

    /// <summary>What a message tells the user to give where an age is missing.</summary>
    public string AgeHint { get; init; } = "give --age";

    /// <summary>What a message tells the user to give where the density of the concrete is missing.</summary>
    public string DensityHint { get; init; } = "--concrete-density, for example \"3915 lb/yd3\"";

    /// <summary>What a message tells the user to give where the binder content is missing.</summary>
    public string BinderHint { get; init; } = "--binder-content, for example \"658 lb/yd3\"";

    // A folder reports a missing age or mix at deck.json, once, not again at each core.
    internal bool AgeIsReported { get; init; }

    internal bool MixIsReported { get; init; }
}
