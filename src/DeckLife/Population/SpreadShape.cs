namespace DeckLife.Population;

/// <summary>The shape of an uncertain value's distribution.</summary>
public enum SpreadShape
{
    /// <summary>Lognormal, given by mean and coefficient of variation.</summary>
    Lognormal,

    /// <summary>Normal, truncated at 0.</summary>
    Normal,
}
