using System.Collections.Immutable;

namespace DeckLife.Numerics.Reliability;

/// <summary>The curvature of a limit state at a design point, and the probabilities corrected for it.</summary>
public sealed record SecondOrderResult
{
    /// <summary>Main curvatures κ, in the order of size; positive where the surface bends away from the origin.</summary>
    public required ImmutableArray<double> Curvatures { get; init; }

    /// <summary>Whether the corrections exist: every 1 + |β|κ and every 1 + ψκ is above 0, with κ of the other sign where β is negative.</summary>
    public required bool IsValid { get; init; }

    /// <summary>Φ(-β) Π (1 + βκ)^-½ (Breitung 1984), for a negative β 1 less that of the safe set; absent where not valid.</summary>
    public required double? Breitung { get; init; }

    /// <summary>Φ(-β) Π (1 + ψκ)^-½ with ψ = φ(β)/Φ(-β) (Hohenbichler &amp; Rackwitz 1988), for a negative β 1 less that of the safe set; absent where not valid.</summary>
    public required double? HohenbichlerRackwitz { get; init; }
}
