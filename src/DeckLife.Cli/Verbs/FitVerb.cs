using System.CommandLine;
using DeckLife.Cli.Fitting;
using DeckLife.Data.Fitting;
using DeckLife.Data.Json;
using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Numerics.Sampling;
using DeckLife.Reporting.Fitting;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife fit FILE or FOLDER</c>: fits each core and pools the deck.</summary>
internal sealed partial class FitVerb : IVerb
{
    private readonly Argument<string> _path = new("file-or-folder")
    {
        Description = "A chloride table (CSV or workbook, one row a slice), or a deck folder.",
    };

    private readonly Option<string?> _age = Text(
        "--age",
        "Exposure age of cores without their own, such as \"30 yr\" (bare tables)."
    );

    private readonly Option<string?> _background = Text(
        "--background",
        "Holds the background (chloride that the concrete was mixed with), such as \"0.1 kg/m3\"; else it is fitted, at least 0."
    );

    private readonly Option<string?> _skipSurface = Text(
        "--skip-surface",
        "Leaves out this many slices at the surface, whatever they hold; 0 keeps all. Absent: only a washed-out skin is left out, by rule."
    );

    private readonly Option<bool> _asPoints = new("--as-points")
    {
        Description = "Fits contents at mid-depth instead of slice means.",
    };

    private readonly Option<bool> _robust = new("--robust")
    {
        Description =
            "A slice far from the curve pulls less (errors after Student's t with 4 degrees of freedom).",
    };

    private readonly Option<string?> _weights = Text(
        "--weights",
        "What the laboratory's error is: constant, relative (in proportion to the content), or given (the table's sd column). Not stated: fitted as constant, with limits that hold for errors from constant to relative."
    );

    private readonly Option<string?> _low = Text(
        "--d-low",
        "Lower end of the search for the diffusion coefficient D, such as \"1 mm2/yr\"."
    );

    private readonly Option<string?> _high = Text(
        "--d-high",
        "Upper end of the search for the diffusion coefficient D, such as \"1000 mm2/yr\"."
    );

    private readonly Option<string?> _density = Text(
        "--concrete-density",
        "Density of the concrete, such as \"3915 lb/yd3\" (bare tables)."
    );

    private readonly Option<string?> _binder = Text(
        "--binder-content",
        "Binder content of the concrete, such as \"658 lb/yd3\" (bare tables)."
    );

    private readonly Option<string?> _format = Text("--format", "text (default), json, or csv.");

    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        var command = new VerbCommand(
            "fit",
            "Fits surface content, diffusion coefficient and background of each core, and pools the cores to a deck."
        )
        {
            _path,
            _age,
            _background,
            _skipSurface,
            _asPoints,
            _robust,
            _weights,
            _low,
            _high,
            _density,
            _binder,
            _format,
        };
        command.ShowExamples(
            "decklife fit demo-data/quillmarsh-crossing",
            "decklife fit demo-data/quillmarsh-crossing/chlorides.csv --age \"40.5 yr\" --format csv"
        );
        command.SetAction((parsed, cancel) => Task.FromResult(Run(parsed, output, error, cancel)));
        return command;
    }

    private int Run(
        ParseResult parsed,
        TextWriter output,
        TextWriter error,
        CancellationToken cancel
    )
    {
        var format = parsed.GetValue(_format) ?? "text";
        var reader = new FitOptionReader();
        reader.Choice("--format", format, ["text", "json", "csv"]);
        var json = format == "json";
        var choices = ReadChoices(parsed, reader);
        var table = ReadTable(parsed, reader);
        if (reader.Problems.Count > 0)
        {
            return Unusable(reader.Problems, json, output, error);
        }

        var input = FitInput.Read(parsed.GetValue(_path)!, table);
        if (input.Cores.Length == 0 || input.Problems.Any(p => p.Severity == Severity.Error))
        {
            return Unusable(input.Problems, json, output, error, input.Units.Messages);
        }

        if (input.Overlay is { IsTwoLayers: true })
        {
            return RunTwoLayers(parsed, input, choices, format, output, error, cancel);
        }

        if (input.Overlay is { } covered)
        {
            input = input with { Problems = [.. input.Problems, covered.OneLayer] };
        }

        ProblemLine.Write(error, input.Problems, input.Units.Messages);
        var fits = FixedOrderParallel.Map(
            input.Cores.Length,
            i => ProfileFitter.Fit(input.Cores[i], choices),
            cancellation: cancel
        );

        var (deck, reason) = Pool(fits, choices, input);
        output.Write(
            format switch
            {
                "json" => FitJson.Write(fits, deck, reason, input.Problems) + "\n",
                "csv" => FitCsv.Write(fits),
                _ => FitTable.Write(fits, deck, reason, input.Units),
            }
        );
        return fits.Any(f => f.Status != FitStatus.Refused)
            ? ExitCodes.Done
            : ExitCodes.NotCompleted;
    }

    private static (DeckFit? Deck, string? Reason) Pool(
        ProfileFit[] fits,
        ProfileFitOptions choices,
        FitInput input
    )
    {
        if (fits.Count(f => f.Status != FitStatus.Refused && !f.Profile.OnCrack) < 2)
        {
            return (null, "fewer than two usable cores off cracks are not a deck");
        }

        if (choices.AsPoints)
        {
            return (
                null,
                "the deck model fits slices as slices, and --as-points asks for points: leave it out to pool"
            );
        }

        var deck = DeckFitter.TryFit(
            fits,
            input.Pooling with
            {
                Background = choices.Background,
                FixedBackground = choices.FixedBackground,
                Weights = choices.Weights,
            },
            out var refusal
        );
        return (deck, refusal?.Text);
    }

    private ProfileFitOptions ReadChoices(ParseResult parsed, FitOptionReader reader)
    {
        var background = reader.Background("--background", parsed.GetValue(_background));
        var low = reader.Diffusion("--d-low", parsed.GetValue(_low));
        var high = reader.Diffusion("--d-high", parsed.GetValue(_high));
        if (low is { } l && high is { } h && !(l < h))
        {
            reader.Report("--d-low", l.ToString(), $"it must be below --d-high, {h}");
        }

        return new ProfileFitOptions
        {
            Background = background is null
                ? BackgroundTreatment.Fitted
                : BackgroundTreatment.Fixed,
            FixedBackground = background ?? default,
            SkipSurface = reader.Count("--skip-surface", parsed.GetValue(_skipSurface)),
            AsPoints = parsed.GetValue(_asPoints),
            Law = parsed.GetValue(_robust) ? ErrorLaw.Student : ErrorLaw.Normal,
            Weights = reader.Choice(
                "--weights",
                parsed.GetValue(_weights) ?? "constant",
                ["constant", "relative", "given"]
            ) switch
            {
                "relative" => SliceWeights.Relative,
                "given" => SliceWeights.Given,
                _ => SliceWeights.Constant,
            },
            LimitsOverErrorKinds = parsed.GetValue(_weights) is null,
            SearchLow = low,
            SearchHigh = high,
        };
    }

    private FitTableFacts ReadTable(ParseResult parsed, FitOptionReader reader) =>
        new(
            reader.PositiveAge("--age", parsed.GetValue(_age)),
            reader.PositiveContent("--concrete-density", parsed.GetValue(_density)),
            reader.PositiveContent("--binder-content", parsed.GetValue(_binder))
        );

    private static int Unusable(
        IReadOnlyList<Diagnostic> problems,
        bool json,
        TextWriter output,
        TextWriter error,
        MessageUnits? units = null
    )
    {
        ProblemLine.Write(error, problems, units);

        if (json)
        {
            output.Write(ProblemsJson.Write(problems) + "\n");
        }

        return ExitCodes.UnusableInput;
    }

    private static Option<string?> Text(string name, string description) =>
        new(name) { Description = description };
}
