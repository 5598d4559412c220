using Xunit;

namespace DeckLife.Notebooks.Tests;

/// <summary>Tests that run a kernel: it redirects the console of the whole process, so they run one after the other.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class KernelRuns
{
    public const string Name = "kernel";
}
