using System.Collections.Immutable;

namespace DeckLife.Placement;

/// <summary>Compares the readings of a placement day with the limits of a specification.</summary>
public static class PlacementDay
{
    /// <summary>What every result must say.</summary>
    public const string Caution =
        "An estimate from weather readings, not a decision: the project's specification and the engineer in charge decide whether to place. Actual evaporation scatters by about 40 % either way; measure wind 0.5 m above the surface.";

    /// <summary>Compares reading by reading; never a bare pass or fail.</summary>
    /// <param name="readings">The readings.</param>
    /// <param name="limits">The limits.</param>
    /// <exception cref="ArgumentOutOfRangeException">A reading that can't be, or a limit that is not finite, a greatest evaporation that is not above 0, or a negative margin.</exception>
    public static ImmutableArray<PlacementHour> Compare(
        IEnumerable<PlacementReading> readings,
        PlacementLimits limits
    )
    {
        ArgumentNullException.ThrowIfNull(readings);
        ArgumentNullException.ThrowIfNull(limits);
        if (
            limits.GreatestEvaporationKgPerM2H is { } rate && !(rate > 0 && double.IsFinite(rate))
            || limits.LeastAirC is { } air && !double.IsFinite(air)
            || !(limits.AirMarginC >= 0 && double.IsFinite(limits.AirMarginC))
        )
        {
            throw new ArgumentOutOfRangeException(
                nameof(limits),
                "Limits are finite; the greatest evaporation rate is above 0 and the margin of the air temperature not negative."
            );
        }

        return [.. readings.Select(r => Hour(r, limits))];
    }

    private static PlacementHour Hour(PlacementReading reading, PlacementLimits limits)
    {
        var evaporation = EvaporationRate.Uno1998(reading);
        var air = new EstimateBand(
            reading.AirC - limits.AirMarginC,
            reading.AirC,
            reading.AirC + limits.AirMarginC
        );
        return new(
            reading,
            evaporation,
            limits.GreatestEvaporationKgPerM2H is { } greatest
                ? evaporation.Against(greatest)
                : null,
            air,
            limits.LeastAirC is { } least ? air.Against(least) : null
        );
    }
}
