using System.Reflection;

namespace DeckLife.Data.Projection;

/// <summary>Which build made a result.</summary>
/// <param name="Version">Version.</param>
/// <param name="Commit">Commit; absent where the build does not know it.</param>
public sealed record BuildStamp(string Version, string? Commit)
{
    /// <summary>The stamp of the library itself.</summary>
    public static BuildStamp OfThisBuild()
    {
        var text =
            typeof(Deck)
                .Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()
                ?.InformationalVersion
            ?? "0";
        var plus = text.IndexOf('+', StringComparison.Ordinal);
        return plus < 0 ? new(text, null) : new(text[..plus], text[(plus + 1)..]);
    }
}
