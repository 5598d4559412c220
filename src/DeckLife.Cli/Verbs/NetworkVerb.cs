using System.Collections.Immutable;
using System.CommandLine;
using DeckLife.Data;
using DeckLife.Data.Json;
using DeckLife.Data.Networks;
using DeckLife.Data.Projection;
using DeckLife.Diagnostics;
using DeckLife.Reporting.Networks;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife network FOLDER</c>: many decks under yearly budgets; <c>network merge</c> puts shards together.</summary>
internal sealed class NetworkVerb : IVerb
{
    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        var options = new NetworkOptions();
        var shard = new Option<string?>("--shard")
        {
            Description =
                "k/n: do the k-th of n shares of the decks and leave it under --out, to be merged. Done shares are not done again.",
        };
        var resume = new Option<bool>("--resume")
        {
            Description =
                "Go on in a folder where an earlier run ended: what is there and still right is kept.",
        };
        var command = new VerbCommand(
            "network",
            "Many decks under yearly budgets: every deck with every strategy and start year, the best program of work, and what the network becomes."
        )
        {
            options.Folder,
        };
        foreach (var option in options.Common.Append(shard).Append(resume))
        {
            command.Options.Add(option);
        }

        command.SetAction(
            (parsed, cancel) =>
                RunAsync(
                    options.Of(parsed) with
                    {
                        Shard = parsed.GetValue(shard),
                        Resume = parsed.GetValue(resume),
                    },
                    output,
                    error,
                    cancel
                )
        );
        command.ShowExamples(
            "decklife network demo-data/harrowmere-district --out out --page",
            "decklife network demo-data/harrowmere-district --shard 3/8 --out part-3"
        );
        command.Subcommands.Add(Merge(output, error));
        return command;
    }

    private static VerbCommand Merge(TextWriter output, TextWriter error)
    {
        var options = new NetworkOptions();
        var shards = new Argument<string[]>("shards")
        {
            Description = "The folders that hold the shards.",
            Arity = ArgumentArity.OneOrMore,
        };
        var command = new VerbCommand("merge", "Puts the shards of a network together.")
        {
            options.Folder,
            shards,
        };
        foreach (var option in options.Common)
        {
            command.Options.Add(option);
        }

        command.ShowExamples(
            "decklife network merge demo-data/harrowmere-district part-1 part-2 --out whole"
        );
        command.SetAction(
            (parsed, cancel) =>
                RunAsync(
                    options.Of(parsed) with
                    {
                        Shards = [.. parsed.GetValue(shards)!],
                    },
                    output,
                    error,
                    cancel
                )
        );
        return command;
    }

    private static async Task<int> RunAsync(
        NetworkRequest request,
        TextWriter output,
        TextWriter error,
        CancellationToken cancel
    )
    {
        if (request.Problem() is { } wrong)
        {
            await error.WriteLineAsync(wrong).ConfigureAwait(false);
            return ExitCodes.UnusableInput;
        }

        if (
            request.Out is { } target
            && OutputFolder.Problem(target, force: true) is { } unwritable
        )
        {
            return Unusable([unwritable], request, output, error);
        }

        var reading = request.Settle(NetworkFolder.Read(request.Folder));
        if (reading.Network is null)
        {
            return Unusable(reading.Problems, request, output, error);
        }

        ProblemLine.Write(error, reading.Problems);

        var temporary =
            request.Out is null && request.Shards.IsEmpty
                ? Directory.CreateTempSubdirectory("decklife-network-")
                : null;
        try
        {
            var version = BuildStamp.OfThisBuild().Version;
            var places = request.Shards;
            if (places.IsEmpty)
            {
                var place = Path.Combine(
                    request.Out ?? temporary!.FullName,
                    NetworkShards.FolderName
                );
                places = [place];
                await ShardsAsync(request, reading, place, version, error, cancel)
                    .ConfigureAwait(false);
                if (request.Share is not null)
                {
                    return ExitCodes.Done;
                }
            }

            var files = NetworkShards.Find(reading, places, version, out var missing);
            if (missing is not null)
            {
                return Unusable([missing], request, output, error);
            }

            return await FinishAsync(request, reading, files, output, error, cancel)
                .ConfigureAwait(false);
        }
        finally
        {
            temporary?.Delete(recursive: true);
        }
    }

    private static async Task ShardsAsync(
        NetworkRequest request,
        NetworkReading reading,
        string place,
        string version,
        TextWriter error,
        CancellationToken cancel
    )
    {
        var decks = reading.Network!.Members.Length;
        var (only, count) = request.Share ?? (0, NetworkShards.DefaultCount(decks));
        var wanted =
            only == 0 ? decks
            : NetworkShards.Range(decks, only, count) is var (f, e) ? e - f
            : 0;
        async Task<int> Work(Action<long, long>? told)
        {
            var done = 0;
            for (var k = only == 0 ? 1 : only; k <= (only == 0 ? count : only); k++)
            {
                cancel.ThrowIfCancellationRequested();
                await NetworkShards
                    .DoAsync(
                        reading,
                        k,
                        count,
                        place,
                        version,
                        request.Threads,
                        more => told?.Invoke(done += more, wanted),
                        cancel
                    )
                    .ConfigureAwait(false);
            }

            return done;
        }

        await (
            request.Quiet
                ? Work(null)
                : WorkProgress.FollowAsync(
                    error,
                    "decks",
                    (done, of) =>
                        error.WriteLine(FormattableString.Invariant($"{done} of {of} decks")),
                    Work
                )
        ).ConfigureAwait(false);
    }

    private static async Task<int> FinishAsync(
        NetworkRequest request,
        NetworkReading reading,
        ImmutableArray<string> files,
        TextWriter output,
        TextWriter error,
        CancellationToken cancel
    )
    {
        var session = NetworkSession.Merge(reading, files, null, cancel);
        ProblemLine.Write(error, session.Result.Flags);

        if (request.Out is { } folder)
        {
            await session.WriteAsync(folder).ConfigureAwait(false);
            if (request.Page)
            {
                await WholeFile
                    .WriteTextAsync(
                        Path.Combine(folder, "network.html"),
                        new NetworkReport(session.Result).ToPage(session.Provenance.Fingerprint)
                    )
                    .ConfigureAwait(false);
            }
        }

        switch (request.Format)
        {
            case "json":
                await output
                    .WriteAsync(NetworkJson.Write(session.Result, session.Provenance))
                    .ConfigureAwait(false);
                break;
            case "csv":
                await output.WriteAsync(session.DecksToCsv()).ConfigureAwait(false);
                break;
            default:
                NetworkText.Write(session.Result, session.Provenance, output);
                break;
        }

        return session.Result.Decks.Any(d => d.Failure is null)
            ? ExitCodes.Done
            : ExitCodes.NotCompleted;
    }

    private static int Unusable(
        ImmutableArray<Diagnostic> problems,
        NetworkRequest request,
        TextWriter output,
        TextWriter error
    )
    {
        ProblemLine.Write(error, problems);

        if (request.Format == "json")
        {
            output.WriteLine(ProblemsJson.Write(problems));
        }

        return ExitCodes.UnusableInput;
    }
}
