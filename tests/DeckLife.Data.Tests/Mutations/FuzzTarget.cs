using DeckLife.Diagnostics;

namespace DeckLife.Data.Tests.Mutations;

/// <summary>One reader, what it reads in health, how that is changed, and its share of a run.</summary>
/// <param name="Name">The reader, in words.</param>
/// <param name="Weight">Share of the inputs of a run, in thousandths.</param>
/// <param name="Originals">Sound inputs.</param>
/// <param name="Mutate">Changes one by a seed.</param>
/// <param name="Read">Reads: whether there is a result, and the problems; absent where the reader gives none.</param>
internal sealed record FuzzTarget(
    string Name,
    int Weight,
    IReadOnlyList<byte[]> Originals,
    Func<int, byte[], byte[]> Mutate,
    Func<byte[], (bool HasResult, IReadOnlyCollection<Diagnostic>? Problems)> Read
);
