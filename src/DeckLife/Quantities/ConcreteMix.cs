namespace DeckLife.Quantities;

/// <summary>What a conversion between bases of chloride content must know of the concrete.</summary>
/// <param name="DensityKgPerM3">Density (unit weight) of the concrete [kg/m³]; absent: not known.</param>
/// <param name="BinderContentKgPerM3">Binder content, all cementitious material [kg/m³]; absent: not known.</param>
public readonly record struct ConcreteMix(double? DensityKgPerM3, double? BinderContentKgPerM3)
{
    /// <summary>Nothing is known.</summary>
    public static ConcreteMix Unknown => default;
}
