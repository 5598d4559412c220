using System.Diagnostics.CodeAnalysis;
using DeckLife.Population;

namespace DeckLife.Materials;

/// <summary>Specimens of one material, tested alike, as one coefficient with its spread.</summary>
public static class SpecimenScatter
{
    /// <summary>Mean of the specimens with their own scatter, or with a stated one.</summary>
    /// <param name="coefficientsMm2PerYr">One coefficient a specimen [mm²/yr], at least one.</param>
    /// <param name="statedCoefficientOfVariation">Stated in place of the specimens' own scatter; absent: their own.</param>
    /// <param name="value">D [mm²/yr], lognormal.</param>
    /// <param name="problem">Why they give none.</param>
    /// <remarks>The specimens' own scatter is that within one laboratory and one batch: how far a placed overlay departs from it is not in it.</remarks>
    public static bool TryCombine(
        IReadOnlyList<double> coefficientsMm2PerYr,
        double? statedCoefficientOfVariation,
        out UncertainValue value,
        [NotNullWhen(false)] out string? problem
    )
    {
        ArgumentNullException.ThrowIfNull(coefficientsMm2PerYr);
        value = default;
        var count = coefficientsMm2PerYr.Count;
        problem =
            count == 0 ? "there is no specimen"
            : coefficientsMm2PerYr.Any(c => !(c > 0) || !double.IsFinite(c))
                ? "a coefficient of 0 is not a result"
            : statedCoefficientOfVariation is null && count < 2
                ? "one specimen has no scatter: give at least two, or state the spread"
            : statedCoefficientOfVariation is { } stated && !(stated is > 0 and <= 3)
                ? "a stated coefficient of variation lies above 0 and up to 3: one material is never known exactly from its specimens"
            : null;
        if (problem is not null)
        {
            return false;
        }

        var mean = coefficientsMm2PerYr.Average();
        var variation =
            statedCoefficientOfVariation
            ?? Math.Sqrt(coefficientsMm2PerYr.Sum(v => (v - mean) * (v - mean)) / (count - 1))
                / mean;
        value = new(mean, variation, SpreadShape.Lognormal);
        return true;
    }
}
