using System.CommandLine;

namespace DeckLife.Cli;

/// <summary>Options that running and merging a network share.</summary>
internal sealed class NetworkOptions
{
    private readonly Option<string?> _out = new("--out")
    {
        Description =
            "Folder for the results as JSON, CSV and Parquet, and for the shards: new, or empty.",
    };

    private readonly Option<string> _format = new("--format")
    {
        Description = "text (default), json, or csv (one row a deck).",
        DefaultValueFactory = _ => "text",
    };

    private readonly Option<bool> _force = new("--force")
    {
        Description = "Overwrites results in the folder.",
    };

    private readonly Option<bool> _page = new("--page")
    {
        Description = "Writes the report as well: network.html, one page that opens offline.",
    };

    private readonly Option<ulong?> _seed = new("--seed")
    {
        Description = "Seed of the random numbers; 0 is a seed. Overrides network.json.",
    };

    private readonly Option<int?> _draws = new("--draws")
    {
        Description =
            "How many states of what is not known are drawn for each deck, 20 to 10000. Overrides network.json.",
    };

    private readonly Option<int?> _points = new("--points")
    {
        Description =
            "How many points stand for a deck in each draw, 16 to 65536. Overrides network.json.",
    };

    private readonly Option<int> _threads = new("--threads")
    {
        Description = "Most threads to use; absent: all processors. Never changes a result.",
    };

    private readonly Option<bool> _quiet = new("--quiet")
    {
        Description = "No progress on standard error.",
    };

    /// <summary>Makes them.</summary>
    public NetworkOptions() => _format.AcceptOnlyFromAmong("text", "json", "csv");

    /// <summary>The network's folder.</summary>
    public Argument<string> Folder { get; } =
        new("folder") { Description = "The network's folder: network.json and one folder a deck." };

    /// <summary>The options.</summary>
    public IEnumerable<Option> Common =>
        [_out, _format, _force, _page, _seed, _draws, _points, _threads, _quiet];

    /// <summary>What was asked for.</summary>
    public NetworkRequest Of(ParseResult parsed) =>
        new()
        {
            Folder = parsed.GetValue(Folder)!,
            Out = parsed.GetValue(_out),
            Format = parsed.GetValue(_format)!,
            Force = parsed.GetValue(_force),
            Page = parsed.GetValue(_page),
            Seed = parsed.GetValue(_seed),
            Draws = parsed.GetValue(_draws),
            Points = parsed.GetValue(_points),
            Threads = parsed.GetValue(_threads),
            Quiet = parsed.GetValue(_quiet),
        };
}
