using System.Collections.Immutable;

namespace DeckLife.Transport;

/// <summary>A layered section of a deck with its exposure and what is done to it in time.</summary>
public sealed record Section
{
    /// <summary>Least concrete that a removal must leave [mm].</summary>
    public const double LeastRemainingMm = 10;

    /// <summary>Layers from the top, at least one.</summary>
    public required ImmutableArray<ConcreteLayer> Layers { get; init; }

    /// <summary>Surface law from time 0.</summary>
    public required SurfaceLaw Surface { get; init; }

    /// <summary>The bottom.</summary>
    public required BottomFace Bottom { get; init; }

    /// <summary>Changes; those of one time apply in the order listed.</summary>
    public ImmutableArray<SectionChange> Changes { get; init; } = [];

    /// <summary>Temperature history; absent: the layers' reference temperatures hold.</summary>
    public TemperatureHistory? Temperature { get; init; }

    /// <summary>Thickness of the section just before a time [mm].</summary>
    /// <param name="years">Time [yr]; a change at that very time is not in it.</param>
    public double ThicknessMm(double years) =>
        Layers.Sum(l => l.Thickness.Millimetres)
        + Changes
            .Where(c => c.At.Years < years)
            .Sum(c => (c.Place?.Thickness.Millimetres ?? 0) - c.Remove.Millimetres);

    /// <inheritdoc/>
    public bool Equals(Section? other) =>
        other is not null
        && Layers.SequenceEqual(other.Layers)
        && Changes.SequenceEqual(other.Changes)
        && Surface == other.Surface
        && Bottom == other.Bottom
        && Temperature == other.Temperature;

    /// <inheritdoc/>
    public override int GetHashCode() =>
        HashCode.Combine(Layers.Length, Changes.Length, Surface, Bottom);
}
