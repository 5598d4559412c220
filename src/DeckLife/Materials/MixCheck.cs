using System.Collections.Immutable;
using DeckLife.Quantities;

namespace DeckLife.Materials;

/// <summary>Compares a mix and its planned thickness with a specification. No limit is built in.</summary>
public static class MixCheck
{
    /// <summary>Compares property by property.</summary>
    /// <param name="specification">The agency's limits.</param>
    /// <param name="waterCementitiousRatio">Water by cementitious material, by mass; absent: not stated.</param>
    /// <param name="thickness">Planned thickness at its thinnest; absent: not stated.</param>
    /// <exception cref="ArgumentException">The specification names no source.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A ratio is not finite or not above 0.</exception>
    public static ImmutableArray<MixFinding> Compare(
        MixSpecification specification,
        double? waterCementitiousRatio,
        Depth? thickness
    )
    {
        ArgumentNullException.ThrowIfNull(specification);
        ArgumentException.ThrowIfNullOrWhiteSpace(specification.Source);
        Require(specification.GreatestWaterCementitiousRatio);
        Require(waterCementitiousRatio);
        var thin = thickness?.Millimetres;
        return
        [
            Finding(
                "water to cementitious material",
                waterCementitiousRatio,
                specification.GreatestWaterCementitiousRatio,
                atMost: true
            ),
            Finding(
                "least thickness [mm]",
                thin,
                specification.LeastThickness?.Millimetres,
                atMost: false
            ),
            Finding(
                "greatest thickness [mm]",
                thin,
                specification.GreatestThickness?.Millimetres,
                atMost: true
            ),
        ];
    }

    private static MixFinding Finding(string property, double? value, double? limit, bool atMost)
    {
        // Limits in inches and values in mm may differ in the last bit.
        var outcome =
            limit is not { } l ? MixOutcome.NoLimitStated
            : value is not { } v ? MixOutcome.ValueNotStated
            : (atMost ? v <= l * (1 + 1e-12) : v >= l * (1 - 1e-12)) ? MixOutcome.WithinLimit
            : MixOutcome.BeyondLimit;
        return new(property, value, limit, outcome);
    }

    private static void Require(double? ratio)
    {
        if (ratio is { } value && !(value > 0 && double.IsFinite(value)))
        {
            throw new ArgumentOutOfRangeException(
                nameof(ratio),
                value,
                "A ratio of water to cementitious material is finite and above 0."
            );
        }
    }
}
