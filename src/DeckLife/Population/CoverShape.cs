namespace DeckLife.Population;

/// <summary>The shape that a cover survey is given.</summary>
public enum CoverShape
{
    /// <summary>Normal, truncated at 0.</summary>
    Normal,

    /// <summary>The readings' own shape, smoothed and truncated at 0: for two mats, or a tail that a normal does not have.</summary>
    Readings,
}
