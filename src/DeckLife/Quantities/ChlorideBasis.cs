namespace DeckLife.Quantities;

/// <summary>What a stated chloride content is a share of.</summary>
public enum ChlorideBasis
{
    /// <summary>Mass by volume of concrete (kg/m³, lb/yd³).</summary>
    ConcreteVolume,

    /// <summary>Mass by mass of concrete (%, ppm): needs the concrete's density.</summary>
    ConcreteMass,

    /// <summary>Mass by mass of binder (%): needs the binder content.</summary>
    BinderMass,
}
