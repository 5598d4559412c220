using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>Something done to a section on a date: removal, then placing, then a change of the surface, or any of them.</summary>
public sealed record SectionChange
{
    /// <summary>When, from the start of the first exposure.</summary>
    public required Age At { get; init; }

    /// <summary>Thickness removed from the top; it may cross layers.</summary>
    public Depth Remove { get; init; }

    /// <summary>Layer placed after the removal.</summary>
    public ConcreteLayer? Place { get; init; }

    /// <summary>Surface law from then on, its time counted from the change; absent: the present law goes on.</summary>
    public SurfaceLaw? Surface { get; init; }
}
