namespace DeckLife.Data.Tables;

/// <summary>What the cells of a column hold.</summary>
internal enum ColumnKind
{
    /// <summary>Text.</summary>
    Text,

    /// <summary>A number with a unit.</summary>
    Quantity,

    /// <summary>A station such as 12+50 or a plain length, with a unit.</summary>
    Station,

    /// <summary>Corners of a polygon, with a unit.</summary>
    Corners,

    /// <summary>A whole number without a unit.</summary>
    Count,

    /// <summary>A date.</summary>
    Date,

    /// <summary>Yes or no.</summary>
    Flag,

    /// <summary>The unit of a group of columns in this row.</summary>
    UnitOf,

    /// <summary>Text that people write beside data; known and not read.</summary>
    Remark,
}
