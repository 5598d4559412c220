using DeckLife.Quantities;

namespace DeckLife.Cli.Fitting;

/// <summary>What a bare chloride table does not say itself, from the command line.</summary>
/// <param name="Age">Exposure age.</param>
/// <param name="Density">Density of the concrete, by volume.</param>
/// <param name="Binder">Binder content, by volume of concrete.</param>
internal sealed record FitTableFacts(Age? Age, ChlorideContent? Density, ChlorideContent? Binder)
{
    /// <summary>The options that were given, by name.</summary>
    public IEnumerable<string> Given =>
        new[]
        {
            Age is null ? null : "--age",
            Density is null ? null : "--concrete-density",
            Binder is null ? null : "--binder-content",
        }.OfType<string>();
}
