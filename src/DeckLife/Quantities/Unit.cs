namespace DeckLife.Quantities;

/// <summary>A unit of measure that the library reads.</summary>
/// <param name="Name">The spelling that the library prints.</param>
/// <param name="Dimension">What it measures.</param>
/// <param name="Factor">Canonical units of <paramref name="Dimension"/> in one of this unit.</param>
/// <param name="Basis">What a chloride unit is a share of.</param>
public sealed record Unit(
    string Name,
    Dimension Dimension,
    double Factor,
    ChlorideBasis Basis = ChlorideBasis.ConcreteVolume
)
{
    /// <summary>The unit's name as the suffix of a column head, for example <c>lb_per_yd3</c>.</summary>
    public string Suffix =>
        Name.Replace("% of ", "percent_of_", StringComparison.Ordinal)
            .Replace("/", "_per_", StringComparison.Ordinal)
            .Replace("°", "", StringComparison.Ordinal)
            .Replace(" ", "_", StringComparison.Ordinal)
            .ToLowerInvariant();

    /// <inheritdoc/>
    public override string ToString() => Name;
}
