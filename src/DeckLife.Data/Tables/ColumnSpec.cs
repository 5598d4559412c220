using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>A column that a table knows.</summary>
/// <param name="Name">Its documented name, without a unit.</param>
/// <param name="Kind">What its cells hold.</param>
/// <param name="Dimension">What a quantity measures.</param>
/// <param name="Group">Quantities that share a unit column or a unit line.</param>
/// <param name="Synonyms">Other names in use, in snake case.</param>
internal sealed record ColumnSpec(
    string Name,
    ColumnKind Kind,
    Dimension Dimension = default,
    string Group = "",
    string[]? Synonyms = null
)
{
    public IEnumerable<string> Names => [Name, .. Synonyms ?? []];

    /// <summary>The head that a message offers.</summary>
    public string Example =>
        Kind == ColumnKind.Quantity
            ? Name
                + Dimension switch
                {
                    Dimension.Chloride => "_lb_per_yd3 or " + Name + "_kg_per_m3",
                    Dimension.Time => "_yr",
                    Dimension.Potential => "_mv_cse",
                    Dimension.Area => "_ft2 or " + Name + "_m2",
                    _ => Group == "position" ? "_ft or " + Name + "_m" : "_in or " + Name + "_mm",
                }
            : Name;
}
