namespace DeckLife.Transport;

/// <summary>What holds at the bottom of a section.</summary>
public sealed record BottomFace
{
    private BottomFace(bool isOpen, SurfaceLaw? law)
    {
        IsOpen = isOpen;
        Law = law;
    }

    /// <summary>No flux.</summary>
    public static BottomFace Sealed { get; } = new(false, null);

    /// <summary>Held at the initial content of the lowest layer.</summary>
    public static BottomFace Open { get; } = new(true, null);

    /// <summary>Whether it is held at the lowest layer's initial content.</summary>
    public bool IsOpen { get; }

    /// <summary>The law, where salt reaches the soffit.</summary>
    public SurfaceLaw? Law { get; }

    /// <summary>Salt on the soffit by a law of its own.</summary>
    /// <param name="law">The law; its convection depth must be 0.</param>
    public static BottomFace Exposed(SurfaceLaw law)
    {
        ArgumentNullException.ThrowIfNull(law);
        if (law.ConvectionDepth.Millimetres > 0)
        {
            throw new ArgumentException(
                "A convection zone is taken at the top face only.",
                nameof(law)
            );
        }

        return law.IsSealed ? Sealed : new(false, law);
    }
}
