namespace DeckLife.Quantities;

/// <summary>How the laboratory took the chloride out of the powder: the two are never compared with each other.</summary>
public enum ChlorideExtraction
{
    /// <summary>Not stated by the source.</summary>
    NotStated,

    /// <summary>Acid-soluble (for example ASTM C1152, AASHTO T 260).</summary>
    AcidSoluble,

    /// <summary>Water-soluble (for example ASTM C1218).</summary>
    WaterSoluble,
}
