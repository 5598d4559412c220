namespace DeckLife.Transport;

/// <summary>No flux through the face: a membrane or sealer that works.</summary>
public sealed record SealedSurface : SurfaceLaw
{
    /// <inheritdoc/>
    public override bool IsSealed => true;

    private protected override double FullContentAt(double years) => 0;
}
