namespace DeckLife.Studies;

/// <summary>FORM, SORM and importance sampling of each event: <see cref="StudyOutputKind.InitiatedBy"/>, a deck's share that reaches a level, a deck's life that ends within the horizon.</summary>
/// <param name="Draws">Number of draws of the importance sampling.</param>
public sealed record ReliabilityMethod(int Draws) : StudyMethod
{
    /// <inheritdoc/>
    public override string Name => "reliability";
}
