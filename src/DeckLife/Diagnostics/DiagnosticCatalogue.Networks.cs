namespace DeckLife.Diagnostics;

public static partial class DiagnosticCatalogue
{
    /// <summary>A folder of the network is not in its list.</summary>
    public static DiagnosticEntry DeckNotListed { get; } =
        new(
            "DL7001",
            Severity.Warning,
            "Deck not in the network's list",
            "The folder {0} holds a deck but network.json does not list it: it is not part of the network. Add the folder to \"decks\", or move it away.",
            "A network is what network.json lists, so that a copy or a draft beside it does not count. Add the folder to \"decks\", or move it away."
        );

    /// <summary>A deck stands in the list twice.</summary>
    public static DiagnosticEntry DeckListedTwice { get; } =
        new(
            "DL7002",
            Severity.Error,
            "Deck listed twice",
            "network.json lists the folder {0} more than once: list each deck once.",
            "A deck listed twice would be paid for and counted twice."
        );

    /// <summary>A deck of the network has no answer.</summary>
    public static DiagnosticEntry NetworkDeckFailed { get; } =
        new(
            "DL7003",
            Severity.Warning,
            "A deck of the network has no answer",
            "{0} ({1}): {2}",
            "The deck stays in every table with its reason, but not in the sums: program, condition and budget are those of the other decks. Mend its folder and run again with --resume."
        );

    /// <summary>The condition asked for can't be held.</summary>
    public static DiagnosticEntry NetworkConditionMissed { get; } =
        new(
            "DL7004",
            Severity.Warning,
            "The condition asked for can't be held",
            "With these budgets and closures the damaged share can't be kept at or below {0}: the program misses it in {1} years, by {2} of the network's area at most. Raise the budget or the limits of closures, or ask for less.",
            "No choice of strategies and years holds the condition. The program shown is the one that misses it least, and of those the most valuable. Raise the budget or the limits of closures, or ask for less."
        );

    /// <summary>A shard belongs to something else.</summary>
    public static DiagnosticEntry NetworkShardOfAnother { get; } =
        new(
            "DL7005",
            Severity.Error,
            "Shard of another network",
            "{0} was made from other files, settings or another version: it can't be merged with this network. Run that shard again.",
            "A shard carries a fingerprint of the network's file, of its decks' files, of seed, draws and points, and of the version that made it. Run that shard again, or merge with the files that it was made from."
        );

    /// <summary>Shards are missing.</summary>
    public static DiagnosticEntry NetworkShardsMissing { get; } =
        new(
            "DL7006",
            Severity.Error,
            "Shards missing",
            "{0}: run the missing shards, or merge the folders of all of them.",
            "A network is merged only when every shard is there: sums over some decks would look like the whole."
        );

    /// <summary>A year of the program can't be used.</summary>
    public static DiagnosticEntry NetworkYears { get; } =
        new(
            "DL7007",
            Severity.Error,
            "Years of the program don't fit together",
            "{0}",
            "The program runs from firstYear for years; budgets, start years and the condition lie within it or after it, and the condition is looked at until lastYear."
        );
}
