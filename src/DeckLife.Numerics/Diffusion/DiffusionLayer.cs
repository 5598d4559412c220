namespace DeckLife.Numerics.Diffusion;

/// <summary>One layer of a layered diffusion problem.</summary>
public sealed class DiffusionLayer
{
    /// <summary>Makes a layer.</summary>
    /// <param name="thickness">Thickness [mm], greater than 0.</param>
    /// <param name="clock">∫D dt from any fixed moment up to problem time t [mm²]; only differences are used.</param>
    /// <param name="initialContent">Total content at the start by depth below the layer's top [mm].</param>
    public DiffusionLayer(
        double thickness,
        Func<double, double> clock,
        Func<double, double> initialContent
    )
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(thickness);
        ArgumentNullException.ThrowIfNull(clock);
        ArgumentNullException.ThrowIfNull(initialContent);
        Thickness = thickness;
        Clock = clock;
        InitialContent = initialContent;
    }

    /// <summary>Makes a layer of constant D and uniform content.</summary>
    /// <param name="thickness">Thickness [mm].</param>
    /// <param name="coefficient">D [mm²/yr].</param>
    /// <param name="initialContent">Total content at the start.</param>
    public DiffusionLayer(double thickness, double coefficient, double initialContent)
        : this(thickness, t => coefficient * t, _ => initialContent) => IsUniform = true;

    /// <summary>Thickness [mm].</summary>
    public double Thickness { get; }

    /// <summary>∫D dt up to problem time t [mm²].</summary>
    public Func<double, double> Clock { get; }

    /// <summary>Total content at the start by depth below the layer's top [mm].</summary>
    public Func<double, double> InitialContent { get; }

    /// <summary>Whether the initial content is the same everywhere; else the mesh is kept finer.</summary>
    public bool IsUniform { get; init; }

    /// <summary>Depths below the layer's top at which the initial content has a kink or a jump [mm].</summary>
    public IReadOnlyList<double> InitialBreaks { get; init; } = [];

    /// <summary>How the layer holds what diffuses.</summary>
    public Sorption Sorption { get; init; } = LinearSorption.None;
}
