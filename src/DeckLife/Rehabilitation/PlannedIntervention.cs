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
