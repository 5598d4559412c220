using System.Collections.Immutable;
using DeckLife.Numerics.SpatialStatistics;

namespace DeckLife.Mapping;

/// <summary>Where on the deck corrosion and damage are probable, by the draws that the projection uses and the readings of each place.</summary>
/// <remarks>
/// A deck's share says how much, its map where: the field has mean 0 over the plan, so that the map spreads the deck's share and does not move it.
/// By the chain rule p(deck, field | surveys) = p(deck | surveys) p(field | deck, surveys) each reading counts once in each factor.
/// </remarks>
public sealed record DeckMap
{
    /// <summary>Side of a cell along the deck [m].</summary>
    public required double CellLengthM { get; init; }

    /// <summary>Side of a cell across the deck [m].</summary>
    public required double CellWidthM { get; init; }

    /// <summary>The cells, along the deck first.</summary>
    public required ImmutableArray<DeckMapCell> Cells { get; init; }

    /// <summary>Years after the survey of <see cref="DeckMapCell.DamagedLater"/>.</summary>
    public required ImmutableArray<double> LaterYr { get; init; }

    /// <summary>Share of the deck that corrodes, mean over the draws that the map stands on.</summary>
    public required double DeckActive { get; init; }

    /// <summary>Share of the deck damaged until now, patched places included, mean over the same draws.</summary>
    public required double DeckDamaged { get; init; }

    /// <summary>Distance over which the severity of places goes together [m]: median of its posterior on the lengths tried.</summary>
    public required double LengthM { get; init; }

    /// <summary>5 % point of that length [m].</summary>
    public required double LengthP05M { get; init; }

    /// <summary>95 % point of that length [m].</summary>
    public required double LengthP95M { get; init; }

    /// <summary>Share of the severity's variance that goes with no neighbour, mean of its posterior.</summary>
    public required double LocalShare { get; init; }

    /// <summary>Correlation of severity with cover in the model, where the covers of the places are known; else 0.</summary>
    public required double CoverWeight { get; init; }

    /// <summary>Cores that were read in at their places.</summary>
    public int Cores { get; init; }

    /// <summary>Correlation of severity with what those cores read, surface content and diffusion coefficient taken together; 0 without any.</summary>
    public double CoreWeight { get; init; }

    /// <summary>Share of the smooth severity that goes with the stated zone whatever the distance, mean of its posterior; 0 where no zones are stated.</summary>
    public double ZoneShare { get; init; }

    /// <summary>How the potentials go together; absent where there are too few.</summary>
    public ExponentialFieldEstimate? Potentials { get; init; }

    /// <summary>How the covers go together; absent where there are too few with positions.</summary>
    public ExponentialFieldEstimate? Cover { get; init; }

    /// <summary>Shares by zone of the deck.</summary>
    public ImmutableArray<ZoneShare> Zones { get; init; } = [];

    /// <summary>The cell that a place falls in, or the nearest one.</summary>
    /// <param name="x">Position along the deck [m].</param>
    /// <param name="y">Position across the deck [m].</param>
    public DeckMapCell At(double x, double y) =>
        Cells.MinBy(c => ((c.X - x) * (c.X - x)) + ((c.Y - y) * (c.Y - y)))!;
}
