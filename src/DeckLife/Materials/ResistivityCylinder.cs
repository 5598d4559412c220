namespace DeckLife.Materials;

/// <summary>The cylinder on which surface resistivity is measured; the limits of the classes differ.</summary>
public enum ResistivityCylinder
{
    /// <summary>4 by 8 in (100 by 200 mm).</summary>
    FourByEightInch,

    /// <summary>6 by 12 in (150 by 300 mm).</summary>
    SixByTwelveInch,
}
