using System.Collections.Immutable;
using DeckLife.Quantities;

namespace DeckLife.Profiles;

/// <summary>The chloride profile of one core: its slices from the surface down, and where and when it was taken.</summary>
public sealed record CoreProfile
{
    /// <summary>The core's name on the laboratory's sheet.</summary>
    public required string Core { get; init; }

    /// <summary>Exposure age: time from the first salt to coring.</summary>
    public required Age ExposureAge { get; init; }

    /// <summary>The slices, ordered by depth.</summary>
    public required ImmutableArray<ChlorideSlice> Slices { get; init; }

    /// <summary>Whether the core was taken on a crack.</summary>
    public bool OnCrack { get; init; }

    /// <summary>Position along the deck [m], where surveyed.</summary>
    public double? X { get; init; }

    /// <summary>Position across the deck [m], where surveyed.</summary>
    public double? Y { get; init; }

    /// <summary>The slices from the surface down, whatever order they are held in; equal depths by content, then by row.</summary>
    internal ImmutableArray<ChlorideSlice> SlicesByDepth() =>
        [
            .. Slices
                .OrderBy(s => s.CentreMm)
                .ThenBy(s => s.Top.Millimetres)
                .ThenBy(s => s.Content.KilogramsPerCubicMetre)
                .ThenBy(s => s.Row),
        ];

    /// <inheritdoc/>
    public bool Equals(CoreProfile? other) =>
        other is not null
        && Core == other.Core
        && ExposureAge == other.ExposureAge
        && OnCrack == other.OnCrack
        && X == other.X
        && Y == other.Y
        && Slices.AsSpan().SequenceEqual(other.Slices.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() =>
        HashCode.Combine(Core, ExposureAge, OnCrack, X, Y, Slices.Length);
}
