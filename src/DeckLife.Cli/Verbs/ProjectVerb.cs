using System.Collections.Immutable;
using System.CommandLine;
using DeckLife.Data;
using DeckLife.Data.Folders;
using DeckLife.Data.Json;
using DeckLife.Data.Projection;
using DeckLife.Decisions;
using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Projection;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife project FOLDER</c>: the deck's strategies against time, their lives, costs and ranking.</summary>
internal sealed class ProjectVerb : IVerb
{
    private readonly Argument<string> _folder = new("folder")
    {
        Description = "The deck's folder.",
    };

    private readonly Option<string> _format = new("--format")
    {
        Description = "text (default), json, or csv (the curves).",
        DefaultValueFactory = _ => "text",
    };

    private readonly Option<ulong?> _seed = new("--seed")
    {
        Description = "Seed of the random numbers; 0 is a seed. Overrides deck.json.",
    };

    private readonly Option<int?> _draws = new("--draws")
    {
        Description =
            "How many states of what is not known are drawn (the band), at least 20. Overrides deck.json.",
    };

    private readonly Option<int?> _points = new("--points")
    {
        Description =
            "How many points stand for the area in each draw, at least 16. Overrides deck.json.",
    };

    private readonly Option<int?> _threads = new("--threads")
    {
        Description = "Most threads to use; never changes a result.",
    };

    private readonly Option<bool> _depthMap = new("--depth-map")
    {
        Description =
            "Also tries removal depths and overlay thicknesses of each material: years, cost, grade, the best under the limits of depthSearch in deck.json.",
    };

    private readonly Option<int[]> _resurvey = new("--resurvey")
    {
        Description =
            "Also weighs waiting so many whole years, sounding again and then deciding, against deciding now; may be repeated.",
        AllowMultipleArgumentsPerToken = true,
    };

    private readonly Option<bool> _otherModels = new("--other-models")
    {
        Description = "Also compares the strategies under other forms of the model, side by side.",
    };

    private readonly Option<string?> _out = new("--out")
    {
        Description =
            "Folder for the results as JSON and as CSV tables of curves, strategies (lives, costs, ranking), work and costs: new, or empty.",
    };

    private readonly Option<bool> _force = new("--force")
    {
        Description = "Writes to a folder that holds something.",
    };

    private readonly Option<bool> _quiet = new("--quiet")
    {
        Description = "No progress on standard error.",
    };

    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        _format.AcceptOnlyFromAmong("text", "json", "csv");
        var command = new VerbCommand(
            "project",
            "Projects the deck's strategies: damaged area against year, year of the limit, cost, ranking."
        )
        {
            _folder,
            _format,
            _seed,
            _draws,
            _points,
            _threads,
            _depthMap,
            _resurvey,
            _otherModels,
            _out,
            _force,
            _quiet,
        };
        command.ShowExamples(
            "decklife project demo-data/quillmarsh-crossing",
            "decklife project demo-data/quillmarsh-crossing --draws 20 --points 16",
            "decklife project demo-data/quillmarsh-crossing --depth-map --resurvey 5 10",
            "decklife project demo-data/quillmarsh-crossing --out out"
        );
        command.SetAction((parsed, cancel) => RunAsync(parsed, output, error, cancel));
        return command;
    }

    private async Task<int> RunAsync(
        ParseResult parsed,
        TextWriter output,
        TextWriter error,
        CancellationToken cancel
    )
    {
        var format = parsed.GetValue(_format)!;
        var path = parsed.GetValue(_folder)!;
        if (string.IsNullOrWhiteSpace(path))
        {
            await error.WriteLineAsync("Name the deck's folder.").ConfigureAwait(false);
            return ExitCodes.UnusableInput;
        }

        var folder = parsed.GetValue(_out);
        if (
            folder is not null
            && OutputFolder.Problem(folder, parsed.GetValue(_force)) is { } unwritable
        )
        {
            return Unusable([unwritable], format, MessageUnits.Canonical, output, error);
        }

        var read = DeckFolder.Read(path);
        if (read.Deck is not { } deck)
        {
            return Unusable(read.Problems, format, read.Units, output, error);
        }

        ProblemLine.Write(error, read.Problems, read.Units);

        deck = deck with
        {
            Analysis = deck.Analysis with
            {
                Seed = parsed.GetValue(_seed) ?? deck.Analysis.Seed,
                Draws = parsed.GetValue(_draws) ?? deck.Analysis.Draws,
                Points = parsed.GetValue(_points) ?? deck.Analysis.Points,
                Threads = parsed.GetValue(_threads) ?? deck.Analysis.Threads,
            },
        };
        if (deck.Analysis.Threads is <= 0)
        {
            error.WriteLine(
                FormattableString.Invariant(
                    $"--threads {deck.Analysis.Threads} is not allowed: at least 1."
                )
            );
            return ExitCodes.UnusableInput;
        }

        DeckProjection projection;
        try
        {
            projection = parsed.GetValue(_quiet)
                ? DeckAnalysis.Run(deck, null, cancel)
                : await WorkProgress
                    .FollowAsync(
                        error,
                        "projecting",
                        WorkProgress.Tenths(error, "projecting"),
                        told => Task.FromResult(DeckAnalysis.Run(deck, new Fraction(told), cancel))
                    )
                    .ConfigureAwait(false);
        }
        catch (ProjectionRefusedException refused)
        {
            return Unusable(refused.Problems, format, read.Units, output, error);
        }
        catch (DeckFitRefusedException refused)
        {
            error.WriteLine(refused.Message);
            return ExitCodes.NotCompleted;
        }

        ProblemLine.Write(error, projection.Refused.Select(r => r.Reason), read.Units);

        var map = parsed.GetValue(_depthMap) ? DepthMap.Of(projection, cancellation: cancel) : null;
        if (map is null && parsed.GetValue(_depthMap))
        {
            ProblemLine.Write(error, [DiagnosticCatalogue.NothingToMap.With()]);
        }

        var decision = DecisionAnalysis.Of(
            projection,
            [.. parsed.GetValue(_resurvey) ?? []],
            cancel
        ) with
        {
            Models = parsed.GetValue(_otherModels) ? ModelEnsemble.Of(projection, cancel) : null,
        };
        var json = ProjectionJson.Write(projection, BuildStamp.OfThisBuild(), map, decision);
        if (folder is not null)
        {
            try
            {
                await ProjectionFolder.WriteAsync(folder, projection, json).ConfigureAwait(false);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                ProblemLine.Write(
                    error,
                    [DiagnosticCatalogue.OutputUnusable.With(folder, e.Message)]
                );
                return ExitCodes.NotCompleted;
            }
        }

        switch (format)
        {
            case "json":
                output.Write(json);
                break;
            case "csv":
                ProjectionCsv.Write(projection, output);
                break;
            default:
                ProjectionText.Write(projection, BuildStamp.OfThisBuild(), output, read.Units);
                DecisionText.Write(decision, output);
                if (map is not null)
                {
                    DepthMapText.Write(map, output, read.Units);
                }

                break;
        }

        return projection.Strategies.IsEmpty && !projection.Refused.IsEmpty
            ? ExitCodes.NotCompleted
            : ExitCodes.Done;
    }

    private static int Unusable(
        ImmutableArray<Diagnostic> problems,
        string format,
        MessageUnits units,
        TextWriter output,
        TextWriter error
    )
    {
        ProblemLine.Write(error, problems, units);

        if (format == "json")
        {
            output.WriteLine(ProblemsJson.Write(problems));
        }

        return ExitCodes.UnusableInput;
    }

    private sealed class Fraction(Action<long, long> told) : IProgress<double>
    {
        public void Report(double value) => told((long)Math.Floor(1000 * value), 1000);
    }
}
