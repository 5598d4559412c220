using System.Diagnostics;

namespace DeckLife.Diagnostics;

/// <summary>Names the phases of long work, for whoever measures them; costs nothing where nobody listens.</summary>
internal static class PhaseTrace
{
    /// <summary>Name of the source that a listener asks for.</summary>
    public const string SourceName = "DeckLife";

    private static readonly ActivitySource Source = new(SourceName);

    /// <summary>Begins a phase, which ends when the result is disposed of.</summary>
    /// <param name="name">Its name.</param>
    /// <returns>The phase; nothing where nobody listens.</returns>
    public static Activity? Begin(string name) => Source.StartActivity(name);
}
