namespace DeckLife.Materials;

/// <summary>Classes of chloride penetrability by charge passed or resistivity, from the most to the least penetrable.</summary>
/// <remarks>A class orders concretes; it is no diffusion coefficient. See <see cref="IndicatorRelation"/> and <see cref="ClassRelation"/>.</remarks>
public enum ChloridePenetrability
{
    /// <summary>High.</summary>
    High,

    /// <summary>Moderate.</summary>
    Moderate,

    /// <summary>Low.</summary>
    Low,

    /// <summary>Very low.</summary>
    VeryLow,

    /// <summary>Negligible.</summary>
    Negligible,
}
