namespace DeckLife.Studies;

/// <summary>FORM, SORM and importance sampling of each <see cref="StudyOutputKind.InitiatedBy"/>, and of a deck's life that ends within the horizon.</summary>
/// <param name="Draws">Number of draws of the importance sampling.</param>
public sealed record ReliabilityMethod(int Draws) : StudyMethod
{
    /// <inheritdoc/>
    public override string Name => "reliability";
}
