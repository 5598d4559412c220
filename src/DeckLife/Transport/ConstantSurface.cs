using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>A content that does not change.</summary>
/// <param name="Content">The content.</param>
public sealed record ConstantSurface(ChlorideContent Content) : SurfaceLaw
{
    private protected override double FullContentAt(double years) => Content.KilogramsPerCubicMetre;
}
