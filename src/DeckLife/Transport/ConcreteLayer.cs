using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>A layer of concrete in a section.</summary>
public sealed record ConcreteLayer
{
    /// <summary>Its name in the results.</summary>
    public required string Name { get; init; }

    /// <summary>Thickness.</summary>
    public required Depth Thickness { get; init; }

    /// <summary>Diffusion coefficient and its ageing.</summary>
    public required DiffusionLaw Diffusion { get; init; }

    /// <summary>Age of the concrete when the layer is placed, or at time 0 for the first layers; used by <see cref="InstantaneousAgeing"/>.</summary>
    public Age AgeAtStart { get; init; }

    /// <summary>Total chloride when the layer is placed, or at time 0.</summary>
    public required ChlorideContent InitialChloride { get; init; }

    /// <summary>Total chloride held per free chloride, relative to the other layers; greater than 0.</summary>
    public double Capacity { get; init; } = 1;

    /// <summary>Binding isotherm; absent: the total is the capacity times the free chloride.</summary>
    public BindingIsotherm? Isotherm { get; init; }

    /// <summary>How diffusion quickens with temperature; absent: it does not.</summary>
    public Activation? Activation { get; init; }
}
