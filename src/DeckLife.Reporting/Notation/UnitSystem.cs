namespace DeckLife.Reporting.Notation;

/// <summary>The units that a page shows.</summary>
public enum UnitSystem
{
    /// <summary>mm, kg/m³, mm²/yr, m².</summary>
    Si,

    /// <summary>in, lb/yd³, in²/yr, ft².</summary>
    UsCustomary,
}
