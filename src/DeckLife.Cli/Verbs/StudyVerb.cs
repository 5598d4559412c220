using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using System.Text;
using DeckLife.Data;
using DeckLife.Data.Json;
using DeckLife.Data.Studies;
using DeckLife.Diagnostics;
using DeckLife.Studies;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife study FILE</c>: sensitivity and reliability studies; <c>study merge</c> puts shards together.</summary>
internal sealed class StudyVerb : IVerb
{
    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        var file = new Argument<string>("file") { Description = "The study: a JSON file." };
        var format = Format();
        var folder = new Option<string?>("--out")
        {
            Description =
                "Folder for the results as JSON, CSV and Parquet. A run that was interrupted is continued from it.",
        };
        var force = new Option<bool>("--force")
        {
            Description = "Overwrite results in the folder.",
        };
        var threads = Threads();
        var shard = new Option<string?>("--shard")
        {
            Description =
                "k/n: do the k-th of n shares of the work and leave it in the folder, to be merged.",
        };
        var command = new VerbCommand(
            "study",
            "Sensitivity and reliability studies of a section or of a deck under a strategy: the same bytes for the same study on any number of threads and shards. "
                + "A deck's study with the input surveyedState starts from what the deck's own surveys teach a projection."
        )
        {
            file,
            format,
            folder,
            force,
            threads,
            shard,
        };
        command.SetAction(
            (parsed, cancellation) =>
                RunAsync(
                    new(
                        parsed.GetValue(file)!,
                        parsed.GetValue(format)!,
                        parsed.GetValue(folder),
                        parsed.GetValue(force),
                        parsed.GetValue(threads),
                        parsed.GetValue(shard),
                        []
                    ),
                    output,
                    error,
                    cancellation
                )
        );
        command.ShowExamples(
            "decklife study demo-data/studies/bare-deck.json",
            "decklife study demo-data/studies/bare-deck.json --shard 1/2 --out part-1",
            "decklife study demo-data/studies/bare-deck.json --shard 2/2 --out part-2"
        );
        command.Subcommands.Add(Merge(output, error));
        return command;
    }

    private static VerbCommand Merge(TextWriter output, TextWriter error)
    {
        var file = new Argument<string>("file") { Description = "The study: a JSON file." };
        var shards = new Argument<string[]>("folders")
        {
            Description = "The folders of all shards.",
            Arity = ArgumentArity.OneOrMore,
        };
        var format = Format();
        var folder = new Option<string?>("--out") { Description = "Folder for the results." };
        var force = new Option<bool>("--force")
        {
            Description = "Overwrite results in the folder.",
        };
        var threads = Threads();
        var command = new VerbCommand("merge", "Puts the shards of a study together.")
        {
            file,
            shards,
            format,
            folder,
            force,
            threads,
        };
        command.ShowExamples(
            "decklife study merge demo-data/studies/bare-deck.json part-1 part-2 --out whole"
        );
        command.SetAction(
            (parsed, cancellation) =>
                RunAsync(
                    new(
                        parsed.GetValue(file)!,
                        parsed.GetValue(format)!,
                        parsed.GetValue(folder),
                        parsed.GetValue(force),
                        parsed.GetValue(threads),
                        null,
                        [.. parsed.GetValue(shards)!]
                    ),
                    output,
                    error,
                    cancellation
                )
        );
        return command;
    }

    private static Option<string> Format()
    {
        var format = new Option<string>("--format")
        {
            Description = "How results are printed.",
            DefaultValueFactory = _ => "text",
        };
        format.AcceptOnlyFromAmong("text", "json", "csv");
        return format;
    }

    private static Option<int> Threads() =>
        new("--threads") { Description = "Number of threads; absent: all processors." };

    private static async Task<int> RunAsync(
        StudyRequest request,
        TextWriter output,
        TextWriter error,
        CancellationToken cancellation
    )
    {
        if (
            request.Folder is { } target
            && OutputFolder.Problem(target, force: true) is { } unwritable
        )
        {
            return Unusable([unwritable], request, output, error);
        }

        byte[] bytes;
        try
        {
            bytes = WholeFile.Read(request.File).ToArray();
        }
        catch (Exception e)
            when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return Unusable(
                [
                    DiagnosticCatalogue.StudyFileUnreadable.With(
                        $"{request.File} can't be read: {e.Message}"
                    ),
                ],
                request,
                output,
                error
            );
        }

        var reading = StudyFileReader.Read(
            Encoding.UTF8.GetString(bytes).TrimStart('\uFEFF'),
            Path.GetDirectoryName(Path.GetFullPath(request.File))
        );
        if (reading.Study is not { } study)
        {
            return Unusable(reading.Problems, request, output, error, reading.Units);
        }

        if (Arguments(request) is { } problem)
        {
            await error.WriteLineAsync(problem).ConfigureAwait(false);
            return ExitCodes.UnusableInput;
        }

        var provenance = StudyProvenance.Of(study, request.File, bytes);
        var runner = new StudyRunner(study);
        var pieces = new StudyAccumulator(study);
        if (ReadShards(request, provenance, pieces) is { } foreign)
        {
            return Unusable([foreign], request, output, error);
        }

        if (request.Shards.IsEmpty)
        {
            var refused = await WorkProgress
                .FollowAsync(
                    error,
                    "evaluations",
                    WorkProgress.Tenths(error, "evaluating"),
                    told =>
                        Task.FromResult(
                            Work(request, runner, pieces, provenance, error, told, cancellation)
                        )
                )
                .ConfigureAwait(false);
            if (refused is not null)
            {
                return Unusable([refused], request, output, error);
            }

            if (request.Shard is not null)
            {
                return ExitCodes.Done;
            }
        }

        var missing = runner.Pieces.Count(p => !pieces.Has(p));
        if (missing > 0)
        {
            return Unusable(
                [DiagnosticCatalogue.StudyPartsMissing.With(missing, runner.Pieces.Length)],
                request,
                output,
                error
            );
        }

        var result = runner.Finish(pieces, request.Threads, cancellation);
        ProblemLine.Write(error, result.Flags, reading.Units);

        if (request.Folder is { } folder)
        {
            await StudyFolder.WriteAsync(folder, result, provenance).ConfigureAwait(false);
            File.Delete(PartPath(request));
        }

        await output
            .WriteAsync(
                request.Format switch
                {
                    "json" => StudyWriter.ToJson(result, provenance),
                    "csv" => StudyWriter.ToCsv(result, provenance),
                    _ => StudyWriter.ToText(result, provenance),
                }
            )
            .ConfigureAwait(false);
        return ExitCodes.Done;
    }

    private static string? Arguments(StudyRequest request)
    {
        if (request.Threads < 0)
        {
            return "--threads: a number of 0 or more is needed; 0 takes all processors.";
        }

        if (request.Shard is not null && Share(request.Shard) is null)
        {
            return $"--shard {request.Shard}: k/n is needed, k from 1 to n, such as 2/8.";
        }

        if (request.Shard is not null && request.Folder is null)
        {
            return "--shard leaves its part in a folder: give --out.";
        }

        if (
            request.Folder is { } folder
            && !request.Force
            && request.Shard is null
            && StudyFolder.FileNames.FirstOrDefault(n => File.Exists(Path.Combine(folder, n)))
                is { } there
        )
        {
            return $"{Path.Combine(folder, there)} is there already: give --force to overwrite it, or another folder.";
        }

        return null;
    }

    private static (int Share, int Shares)? Share(string text)
    {
        var parts = text.Split('/');
        return
            parts.Length == 2
            && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var k)
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var n)
            && k >= 1
            && k <= n
            ? (k, n)
            : null;
    }

    private static string PartPath(StudyRequest request) =>
        Path.Combine(
            request.Folder!,
            request.Shard is { } shard
                ? $"shard-{shard.Replace("/", "-of-", StringComparison.Ordinal)}.part"
                : "study.part"
        );

    private static Diagnostic? ReadShards(
        StudyRequest request,
        StudyProvenance provenance,
        StudyAccumulator pieces
    )
    {
        foreach (var folder in request.Shards)
        {
            var parts = Directory.Exists(folder)
                ? Directory.GetFiles(folder, "*.part").Order(StringComparer.Ordinal).ToArray()
                : [];
            if (parts.Length == 0)
            {
                return DiagnosticCatalogue.StudyFileUnreadable.With(
                    $"{folder} holds no part of a study."
                );
            }

            foreach (var part in parts)
            {
                if (StudyPartFile.Read(part, provenance, pieces) is null)
                {
                    return DiagnosticCatalogue.StudyPartOfAnother.With(part);
                }
            }
        }

        return null;
    }

    private static Diagnostic? Work(
        StudyRequest request,
        StudyRunner runner,
        StudyAccumulator pieces,
        StudyProvenance provenance,
        TextWriter error,
        Action<long, long> told,
        CancellationToken cancellation
    )
    {
        StudyPartFile? part = null;
        try
        {
            if (request.Folder is { } folder)
            {
                Directory.CreateDirectory(folder);
                var path = PartPath(request);
                if (StudyPartFile.Read(path, provenance, pieces) is not { } sound)
                {
                    return DiagnosticCatalogue.StudyPartOfAnother.With(path);
                }

                if (pieces.Count > 0)
                {
                    error.WriteLine($"continued: {pieces.Count} pieces of an earlier run");
                }

                part = StudyPartFile.Open(path, provenance, sound);
            }

            var wanted = request.Shard is { } text
                ? runner.Shard(Share(text)!.Value.Share, Share(text)!.Value.Shares)
                : runner.Pieces;
            runner.Run(
                wanted,
                pieces,
                request.Threads,
                (piece, payload) => part?.Add(piece, payload),
                new Told(told),
                cancellation
            );
            return null;
        }
        finally
        {
            part?.Dispose();
        }
    }

    private static int Unusable(
        ImmutableArray<Diagnostic> problems,
        StudyRequest request,
        TextWriter output,
        TextWriter error,
        MessageUnits? units = null
    )
    {
        ProblemLine.Write(error, problems, units);

        if (request.Format == "json")
        {
            output.Write(ProblemsJson.Write(problems));
        }

        return ExitCodes.UnusableInput;
    }

    private sealed record StudyRequest(
        string File,
        string Format,
        string? Folder,
        bool Force,
        int Threads,
        string? Shard,
        ImmutableArray<string> Shards
    );

    private sealed class Told(Action<long, long> told) : IProgress<StudyProgress>
    {
        public void Report(StudyProgress value) => told(value.Done, value.Total);
    }
}
