using System.CommandLine;
using DeckLife.Data;
using DeckLife.Data.Ingress;
using DeckLife.Transport;

namespace DeckLife.Cli.Verbs;

/// <summary><c>decklife ingress CASE.json</c>: chloride at given depths and times for a layered section with dated events.</summary>
internal sealed class IngressVerb : IVerb
{
    /// <inheritdoc/>
    public Command Create(TextWriter output, TextWriter error)
    {
        var file = new Argument<string>("case") { Description = "The case: a JSON file." };
        var format = new Option<string>("--format")
        {
            Description = "How results are printed.",
            DefaultValueFactory = _ => "text",
        };
        format.AcceptOnlyFromAmong("text", "json", "csv");
        var command = new VerbCommand(
            "ingress",
            "Chloride at given depths and times for a layered section with dated events: the transport engine alone."
        )
        {
            file,
            format,
        };
        command.ShowExamples(
            "decklife ingress reference-checks/ingress-cases/02-overlay-with-ageing.json"
        );
        command.SetAction(parsed =>
            Run(parsed.GetValue(file)!, parsed.GetValue(format)!, output, error)
        );
        return command;
    }

    private static int Run(string file, string format, TextWriter output, TextWriter error)
    {
        string text;
        try
        {
            // UTF-8, or what the mark at its start says.
            using var reader = new StreamReader(new MemoryStream(WholeFile.Read(file).ToArray()));
            text = reader.ReadToEnd();
        }
        catch (Exception e)
            when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return Unusable(
                [Diagnostics.DiagnosticCatalogue.IngressNotReadable.With(file, e.Message)],
                format,
                output,
                error
            );
        }

        var reading = IngressCaseReader.Read(text);
        if (reading.Case is not { } item)
        {
            return Unusable(reading.Problems, format, output, error);
        }

        var result = SectionSolver.Solve(item.Section, item.Queries);
        ProblemLine.Write(error, result.Diagnostics);

        if (!result.IsComplete)
        {
            return ExitCodes.NotCompleted;
        }

        output.Write(
            format switch
            {
                "json" => IngressResultWriter.ToJson(result),
                "csv" => IngressResultWriter.ToCsv(result),
                _ => IngressResultWriter.ToText(item, result),
            }
        );
        return ExitCodes.Done;
    }

    private static int Unusable(
        System.Collections.Immutable.ImmutableArray<Diagnostics.Diagnostic> problems,
        string format,
        TextWriter output,
        TextWriter error
    )
    {
        ProblemLine.Write(error, problems);

        if (format == "json")
        {
            output.Write(IngressResultWriter.ProblemsToJson(problems));
        }

        return ExitCodes.UnusableInput;
    }
}
