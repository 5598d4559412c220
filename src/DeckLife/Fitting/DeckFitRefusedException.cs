using DeckLife.Diagnostics;

namespace DeckLife.Fitting;

/// <summary>A deck could not be fitted; the diagnostic says why, with its numbers.</summary>
/// <param name="diagnostic">Why.</param>
public sealed class DeckFitRefusedException(Diagnostic diagnostic)
    : InvalidOperationException(diagnostic?.Text)
{
    /// <summary>Why the deck could not be fitted.</summary>
    public Diagnostic Diagnostic { get; } =
        diagnostic ?? throw new ArgumentNullException(nameof(diagnostic));
}
