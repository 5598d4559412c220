namespace DeckLife.Numerics.Diffusion;

/// <summary>What holds at a face: a total content given in time, or no flux.</summary>
public sealed class BoundaryCondition
{
    private BoundaryCondition(Func<double, double>? content) => Content = content;

    /// <summary>No flux.</summary>
    public static BoundaryCondition Sealed { get; } = new(null);

    /// <summary>Total content of the layer at the face, by problem time [yr]; absent: no flux.</summary>
    public Func<double, double>? Content { get; }

    /// <summary>Problem times at which the content has a kink.</summary>
    public IReadOnlyList<double> Kinks { get; init; } = [];

    /// <summary>Problem times at which the content jumps; at such a time the function gives the value after the jump.</summary>
    public IReadOnlyList<double> Jumps { get; init; } = [];

    /// <summary>Depth from the face that is held at the content as well [mm].</summary>
    public double HeldDepth { get; init; }

    /// <summary>A face held at a constant content.</summary>
    /// <param name="content">The content.</param>
    public static BoundaryCondition Constant(double content) => new(_ => content);

    /// <summary>A face whose content follows a function of problem time.</summary>
    /// <param name="content">Content by problem time [yr].</param>
    public static BoundaryCondition Varying(Func<double, double> content)
    {
        ArgumentNullException.ThrowIfNull(content);
        return new(content);
    }

    /// <summary>A copy with kinks, jumps and held depth.</summary>
    /// <param name="kinks">Times of kinks.</param>
    /// <param name="jumps">Times of jumps.</param>
    /// <param name="heldDepth">Depth held at the content [mm].</param>
    public BoundaryCondition With(
        IReadOnlyList<double> kinks,
        IReadOnlyList<double> jumps,
        double heldDepth
    ) =>
        new(Content)
        {
            Kinks = kinks,
            Jumps = jumps,
            HeldDepth = heldDepth,
        };
}
