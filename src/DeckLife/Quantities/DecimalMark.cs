namespace DeckLife.Quantities;

/// <summary>What is known about the decimal mark of a text's surroundings.</summary>
public enum DecimalMark
{
    /// <summary>Nothing: a comma that could also group thousands is refused.</summary>
    Unknown,

    /// <summary>Other numbers beside it have a decimal point: a comma groups thousands.</summary>
    Point,

    /// <summary>Other numbers beside it have a decimal comma, none a point.</summary>
    Comma,

    /// <summary>Both occur: a mark followed by three digits is refused.</summary>
    Mixed,
}
