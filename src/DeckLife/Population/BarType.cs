namespace DeckLife.Population;

/// <summary>The kind of top bars.</summary>
public enum BarType
{
    /// <summary>Uncoated carbon steel.</summary>
    Bare,

    /// <summary>Epoxy-coated carbon steel.</summary>
    EpoxyCoated,

    /// <summary>Galvanised carbon steel.</summary>
    Galvanised,

    /// <summary>Stainless steel.</summary>
    Stainless,
}
