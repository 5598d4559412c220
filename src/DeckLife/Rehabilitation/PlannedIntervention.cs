using System.Collections.Immutable;
using DeckLife.Quantities;

namespace DeckLife.Rehabilitation;

/// <summary>An intervention as it would be let: depths decided, material found.</summary>
internal sealed record PlannedIntervention
{
    /// <summary>When, from the survey [yr].</summary>
    public required double AtYr { get; init; }

    /// <summary>Depths of removal by class, rising [mm]; one of 0 where nothing comes off.</summary>
    public required ImmutableArray<double> DepthsMm { get; init; }

    /// <summary>Content that may stay [kg/m³], where depths follow the content.</summary>
    public ChlorideContent? Limit { get; init; }

    /// <summary>The material that goes on; absent: none.</summary>
    public OverlayMaterial? Material { get; init; }

    /// <summary>Index of the material in the deck; −1 for none.</summary>
    public int MaterialIndex { get; init; } = -1;

    /// <summary>Thickness above the removed surface [mm].</summary>
    public double ThicknessMm { get; init; }

    /// <summary>Whether it waits for the overlay in place to end; <see cref="AtYr"/> is then the earliest date.</summary>
    public bool WhenOverlayEnds { get; init; }

    /// <summary>The thin protection that goes on last; absent: none.</summary>
    public SurfaceProtection? Protection { get; init; }

    /// <summary>Its thickness [mm].</summary>
    public double ProtectionThicknessMm { get; init; }

    /// <summary>Whether damaged places are repaired.</summary>
    public bool RepairsDamage { get; init; } = true;

    /// <summary>Potential beyond which concrete comes out to under the bars [mV CSE]; absent: no such rule.</summary>
    public double? HalfCellLimitMv { get; init; }

    /// <summary>Whether the whole deck is covered anew, so that earlier patches no longer count.</summary>
    public bool Covers => Material is not null || Protection is { Kind: ProtectionKind.Barrier };

    /// <summary>Whether the section changes where nothing is repaired.</summary>
    public bool ChangesSection =>
        DepthsMm[^1] > 0 || Material is not null || Protection is not null;

    /// <summary>Its own life with its spread [yr]; absent: not limited, or nothing that covers the deck.</summary>
    public Population.UncertainValue? OwnLife =>
        Protection is { Kind: ProtectionKind.Barrier } barrier
            ? barrier.ServiceLife
            : Material?.ServiceLife;

    /// <summary>Least planned depth [mm].</summary>
    public double LeastDepthMm => DepthsMm[0];

    /// <summary>The class that a required depth falls in: the shallowest that is deep enough, else the deepest.</summary>
    /// <param name="requiredMm">Depth below which the content lies under the limit [mm].</param>
    public double DepthFor(double requiredMm)
    {
        foreach (var depth in DepthsMm)
        {
            if (depth >= requiredMm)
            {
                return depth;
            }
        }

        return DepthsMm[^1];
    }
}
