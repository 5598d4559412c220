using System.Collections.Immutable;
using Microsoft.DotNet.Interactive.Events;

namespace DeckLife.Notebooks;

/// <summary>Turns the kernel's events of one cell into outputs, in the order in which they came.</summary>
internal sealed class CellOutputs
{
    private readonly Lock gate = new();
    private readonly List<(string? ValueId, NotebookOutput Output)> outputs = [];
    private CommandFailed? failure;

    /// <summary>The failure that the kernel reported, or nothing.</summary>
    public CommandFailed? Failure
    {
        get
        {
            lock (gate)
            {
                return failure;
            }
        }
    }

    /// <summary>The outputs so far.</summary>
    public ImmutableArray<NotebookOutput> ToArray()
    {
        lock (gate)
        {
            return [.. outputs.Select(o => o.Output)];
        }
    }

    /// <summary>Takes one event.</summary>
    public void Add(KernelEvent kernelEvent)
    {
        lock (gate)
        {
            switch (kernelEvent)
            {
                case StandardOutputValueProduced e:
                    AddStream(NotebookOutputKind.StandardOutput, e);
                    break;
                case StandardErrorValueProduced e:
                    AddStream(NotebookOutputKind.StandardError, e);
                    break;
                case DisplayedValueUpdated e:
                    var at = outputs.FindIndex(o =>
                        o.ValueId == e.ValueId && e.ValueId is not null
                    );
                    if (at >= 0)
                    {
                        outputs[at] = (e.ValueId, Rich(NotebookOutputKind.Display, e));
                    }

                    break;
                case ReturnValueProduced e:
                    outputs.Add((e.ValueId, Rich(NotebookOutputKind.Result, e)));
                    break;
                case DisplayedValueProduced e:
                    outputs.Add((e.ValueId, Rich(NotebookOutputKind.Display, e)));
                    break;
                case CommandFailed e:
                    failure ??= e;
                    break;
                default:
                    break;
            }
        }
    }

    private void AddStream(NotebookOutputKind kind, DisplayEvent e)
    {
        var text = string.Concat(e.FormattedValues.Select(v => v.Value));
        if (outputs.Count > 0 && outputs[^1].Output.Kind == kind)
        {
            text = outputs[^1].Output["text/plain"] + text;
            outputs.RemoveAt(outputs.Count - 1);
        }

        outputs.Add((null, NotebookOutput.Plain(kind, text)));
    }

    private static NotebookOutput Rich(NotebookOutputKind kind, DisplayEvent e) =>
        new(
            kind,
            e.FormattedValues.ToImmutableSortedDictionary(
                v => v.MimeType,
                v => v.Value,
                StringComparer.Ordinal
            )
        );
}
