using System.Collections.Immutable;
using System.Globalization;
using System.Reflection;
using Microsoft.DotNet.Interactive;
using Microsoft.DotNet.Interactive.Commands;
using Microsoft.DotNet.Interactive.CSharp;

namespace DeckLife.Notebooks;

/// <summary>
/// Runs a C# notebook inside this process: no server, no network, no package download. Cells see the library that is
/// loaded here. A run stops at the first cell that fails.
/// </summary>
/// <remarks>
/// A cell that passes its time limit is abandoned, not ended: its thread goes on until the process ends, and holds the
/// console of later runs in the same process meanwhile. One run at a time in a process.
/// </remarks>
public sealed class NotebookRunner
{
    /// <summary>Tag of the cell that declares parameters.</summary>
    public const string ParametersTag = "parameters";

    /// <summary>Tag of the cell that loads the library under Jupyter; its directives are not needed here.</summary>
    public const string SetupTag = "setup";

    private const string TimeLimitError = "TimeLimit";

    private readonly NotebookRunnerOptions options;

    /// <summary>Makes a runner.</summary>
    /// <param name="options">Choices; absent: the defaults.</param>
    public NotebookRunner(NotebookRunnerOptions? options = null) => this.options = options ?? new();

    /// <summary>Runs a notebook on a copy; the document given stays as it is.</summary>
    /// <param name="notebook">The notebook.</param>
    /// <param name="parameters">Values for its parameters cell, by name.</param>
    /// <param name="cancellationToken">Ends the run between or within cells.</param>
    /// <exception cref="NotebookException">A parameter is unknown or of the wrong type, or a cell holds a directive that is not allowed.</exception>
    /// <exception cref="OperationCanceledException">The run was interrupted.</exception>
    public async Task<NotebookRun> RunAsync(
        NotebookDocument notebook,
        IReadOnlyDictionary<string, string> parameters,
        CancellationToken cancellationToken = default
    )
    {
        ArgumentNullException.ThrowIfNull(notebook);
        ArgumentNullException.ThrowIfNull(parameters);
        var document = notebook.Cleared();
        FillParameters(document, parameters);
        foreach (var cell in document.Cells.Where(c => c.IsCode))
        {
            CheckDirectives(document, cell);
        }

        // Kernels redirect the console for the whole process and leave it so. While an abandoned cell still holds
        // their redirection, putting the writers back would leave every later run without its console.
        var abandoned = true;
        var (output, error, culture) = (Console.Out, Console.Error, CultureInfo.CurrentCulture);
        var (ui, everyThread) = (
            CultureInfo.CurrentUICulture,
            CultureInfo.DefaultThreadCurrentCulture
        );
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
            CultureInfo.CurrentUICulture = CultureInfo.InvariantCulture;
            CultureInfo.DefaultThreadCurrentCulture = CultureInfo.InvariantCulture;
            var run = await RunCellsAsync(document, cancellationToken).ConfigureAwait(false);
            abandoned = run.Failure?.ErrorName == TimeLimitError;
            return run;
        }
        finally
        {
            if (!abandoned)
            {
                Console.SetOut(output);
                Console.SetError(error);
            }

            CultureInfo.CurrentCulture = culture;
            CultureInfo.CurrentUICulture = ui;
            CultureInfo.DefaultThreadCurrentCulture = everyThread;
        }
    }

    private async Task<NotebookRun> RunCellsAsync(
        NotebookDocument document,
        CancellationToken cancellationToken
    )
    {
        DomainFormatters.Register();
        using var csharp = new CSharpKernel();
        csharp.AddAssemblyReferences(
            LibraryAssemblies
                .All.Concat(options.References)
                .Select(a => a.Location)
                .Where(l => l.Length > 0)
                .Distinct()
        );
        csharp.UseKernelHelpers();
        using var root = new CompositeKernel { csharp };
        root.DefaultKernelName = csharp.Name;
        NotebookRun Ended(NotebookFailure? failure) =>
            new(document, failure)
            {
                Kept = options
                    .Keep.Select(name =>
                        csharp.TryGetValue(name, out object value)
                            ? new KeyValuePair<string, object>(name, value)
                            : default
                    )
                    .Where(kept => kept.Value is not null)
                    .ToImmutableDictionary(),
            };
        var count = 0;
        var code = document.Cells.Where(c => c.IsCode).ToList();
        foreach (var cell in code)
        {
            cancellationToken.ThrowIfCancellationRequested();
            count++;
            options.Progress?.Invoke(count, code.Count);
            var failure = await RunCellAsync(root, cell, count, cancellationToken)
                .ConfigureAwait(false);
            if (failure is not null)
            {
                return Ended(failure);
            }
        }

        return Ended(null);
    }

    private async Task<NotebookFailure?> RunCellAsync(
        CompositeKernel root,
        NotebookCell cell,
        int count,
        CancellationToken cancellationToken
    )
    {
        var outputs = new CellOutputs();
        NotebookFailure? failure = null;
        using (root.KernelEvents.Subscribe(new EventSink(outputs.Add)))
        using (var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken))
        {
            try
            {
                await root.SendAsync(new SubmitCode(WithoutDirectives(cell), "csharp"), limit.Token)
                    .WaitAsync(options.CellTimeLimit, cancellationToken)
                    .ConfigureAwait(false);
            }
            catch (TimeoutException)
            {
                failure = new(
                    cell.Number,
                    count,
                    TimeLimitError,
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"the cell took longer than the limit of {options.CellTimeLimit.TotalSeconds:G6} s."
                    )
                );
                await limit.CancelAsync().ConfigureAwait(false);
            }
        }

        if (failure is null && outputs.Failure is { } failed)
        {
            var (name, message) = CellError.Describe(failed);
            failure = new(cell.Number, count, name, message);
        }

        var all = outputs.ToArray();
        if (failure is not null)
        {
            all = all.Add(
                NotebookOutput.Plain(NotebookOutputKind.Error, failure.Message) with
                {
                    ErrorName = failure.ErrorName,
                }
            );
        }

        cell.SetOutputs(count, all);
        return failure;
    }

    private static void FillParameters(
        NotebookDocument document,
        IReadOnlyDictionary<string, string> parameters
    )
    {
        var cell = document.Cells.FirstOrDefault(c => c.IsCode && c.Tags.Contains(ParametersTag));
        if (cell is not null)
        {
            cell.SetSource(ParametersCell.Fill(cell.Source, parameters));
        }
        else if (parameters.Count > 0)
        {
            throw new NotebookException(
                $"{document.Name} has no cell tagged '{ParametersTag}', so it takes no parameters: "
                    + string.Join(", ", parameters.Keys.Order(StringComparer.Ordinal))
                    + "."
            );
        }
    }

    private static void CheckDirectives(NotebookDocument document, NotebookCell cell)
    {
        if (cell.Tags.Contains(SetupTag))
        {
            return;
        }

        var directive = cell.Source.Split('\n').FirstOrDefault(IsDirective);
        if (directive is not null)
        {
            throw new NotebookException(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{document.Name}: cell {cell.Number} holds the directive '{directive.Trim()}'. Directives are allowed only in the cell tagged '{SetupTag}'."
                )
            );
        }
    }

    private static string WithoutDirectives(NotebookCell cell) =>
        cell.Tags.Contains(SetupTag)
            ? string.Join('\n', cell.Source.Split('\n').Where(l => !IsDirective(l)))
            : cell.Source;

    private static bool IsDirective(string line) =>
        line.TrimStart() is { } text
        && (
            text.StartsWith("#!", StringComparison.Ordinal)
            || text.StartsWith("#r", StringComparison.Ordinal)
                && !text.StartsWith("#region", StringComparison.Ordinal)
            || text.StartsWith("#i ", StringComparison.Ordinal)
            || text.StartsWith("#load", StringComparison.Ordinal)
        );

    private sealed class EventSink(Action<Microsoft.DotNet.Interactive.Events.KernelEvent> take)
        : IObserver<Microsoft.DotNet.Interactive.Events.KernelEvent>
    {
        public void OnCompleted() { }

        public void OnError(Exception error) { }

        public void OnNext(Microsoft.DotNet.Interactive.Events.KernelEvent value) => take(value);
    }
}
