namespace DeckLife.Data.Json;

/// <summary>What the value of a key may be.</summary>
internal enum JsonShape
{
    /// <summary>A text.</summary>
    Text,

    /// <summary>A text with a number and a unit.</summary>
    Quantity,

    /// <summary>A quantity, or an object with mean, cov and distribution.</summary>
    Uncertain,

    /// <summary>A quantity, or an object that says it is assumed.</summary>
    Assumable,

    /// <summary>A number without a unit, or a text such as "10 %".</summary>
    Fraction,

    /// <summary>A number.</summary>
    Number,

    /// <summary>A whole number.</summary>
    Whole,

    /// <summary>A date, year-month-day.</summary>
    Date,

    /// <summary>One of a list of words.</summary>
    Choice,

    /// <summary>A price with what it is per.</summary>
    Price,

    /// <summary>An object.</summary>
    Object,

    /// <summary>An array of objects.</summary>
    Objects,

    /// <summary>An object whose keys are free and whose values are texts.</summary>
    TextMap,
}
