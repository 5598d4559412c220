using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>A content that approaches a plateau: content × (1 - exp(-t/timeConstant)).</summary>
/// <param name="Content">The plateau.</param>
/// <param name="TimeConstant">The time constant, greater than 0.</param>
public sealed record ExponentialSurface(ChlorideContent Content, Age TimeConstant) : SurfaceLaw
{
    private protected override double FullContentAt(double years) =>
        Content.KilogramsPerCubicMetre * (1 - Math.Exp(-years / TimeConstant.Years));
}
