using System.CommandLine;
using DeckLife.Cli.Fitting;
using DeckLife.Data.Fitting;
using DeckLife.Fitting;
using DeckLife.Reporting.Fitting;

namespace DeckLife.Cli.Verbs;

internal sealed partial class FitVerb
{
    // Cores through an overlay: what their fit can't do is refused before anything is computed.
    private int RunTwoLayers(
        ParseResult parsed,
        FitInput input,
        ProfileFitOptions choices,
        string format,
        TextWriter output,
        TextWriter error,
        CancellationToken cancel
    )
    {
        var reader = new FitOptionReader();
        void Refuse(bool asked, string option, string value)
        {
            if (asked)
            {
                reader.Report(
                    option,
                    value,
                    "the deck wears an overlay and depths count from its surface, so cores are fitted as two layers, by slice means with constant errors; the option is for one layer"
                );
            }
        }

        Refuse(choices.AsPoints, "--as-points", "true");
        Refuse(choices.Law != ErrorLaw.Normal, "--robust", "true");
        Refuse(
            choices.Weights != SliceWeights.Constant,
            "--weights",
            parsed.GetValue(_weights) ?? string.Empty
        );
        Refuse(
            choices.SkipSurface is not null,
            "--skip-surface",
            parsed.GetValue(_skipSurface) ?? string.Empty
        );
        Refuse(format == "csv", "--format", "csv");
        if (reader.Problems.Count > 0)
        {
            return Unusable(reader.Problems, format == "json", output, error);
        }

        ProblemLine.Write(error, input.Problems, input.Units.Messages);

        var overlay = input.Overlay!;
        var fits = new List<OverlaidProfileFit>(input.Cores.Length);
        foreach (var core in input.Cores)
        {
            cancel.ThrowIfCancellationRequested();
            fits.Add(overlay.Fit(core, choices));
        }

        const string reason =
            "the deck model is of one layer, and these cores were fitted as two: the overlay and the deck under it";
        output.Write(
            format == "json"
                ? FitJson.Write(fits, overlay.Overlay.AgeAtSurvey.Years, reason, input.Problems)
                    + "\n"
                : FitTable.Write(fits, reason, input.Units)
        );
        return fits.Any(f => f.Status != FitStatus.Refused)
            ? ExitCodes.Done
            : ExitCodes.NotCompleted;
    }
}
