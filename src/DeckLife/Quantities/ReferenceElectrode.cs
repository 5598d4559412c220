namespace DeckLife.Quantities;

/// <summary>A reference electrode and its own potential against the copper/copper-sulfate electrode.</summary>
/// <param name="Name">Its name, such as <c>CSE</c>, <c>SCE</c>, <c>Ag/AgCl</c>.</param>
/// <param name="MillivoltsAgainstCse">Its potential against CSE [mV], added to each reading; 0 for CSE itself.</param>
public sealed record ReferenceElectrode(string Name, double MillivoltsAgainstCse)
{
    /// <summary>The copper/copper-sulfate electrode of ASTM C876.</summary>
    public static ReferenceElectrode CopperSulfate { get; } = new("CSE", 0);

    /// <summary>Whether two names mean the same kind of electrode.</summary>
    /// <param name="name">The name as written.</param>
    public bool IsNamed(string name) => Key(Name) == Key(name);

    // How a message names an electrode that a column head spells in small letters.
    internal static string Display(string name) =>
        Key(name) switch
        {
            "cse" => "CSE",
            "sce" => "SCE",
            "agagcl" => "Ag/AgCl",
            "she" => "SHE",
            _ => $"'{name}'",
        };

    // The many spellings of the few electrodes that surveys use.
    internal static string Key(string name)
    {
        var key = string.Concat(
            name.Where(char.IsLetterOrDigit).Select(c => char.ToLowerInvariant(c == '₄' ? '4' : c))
        );
        return key switch
        {
            "cse" or "cucuso4" or "coppercoppersulfate" or "coppercoppersulphate" or "cucs" =>
                "cse",
            "sce" or "saturatedcalomel" or "calomel" => "sce",
            "agagcl" or "agcl" or "silversilverchloride" or "sse" => "agagcl",
            "she" or "nhe" or "standardhydrogen" => "she",
            _ => key,
        };
    }
}
