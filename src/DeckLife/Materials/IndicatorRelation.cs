using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using DeckLife.Population;
using DeckLife.Quantities;

namespace DeckLife.Materials;

/// <summary>A published relation from an indicator (charge passed, resistivity) to a diffusion coefficient, which the user states with its spread.</summary>
/// <remarks>
/// Median D = coefficient × indicator^exponent, lognormal about it. The library supplies no relation: those on record hold for the
/// mixes they were fitted to, and a latex overlay of low charge need not have a low D.
/// </remarks>
public sealed record IndicatorRelation
{
    /// <summary>Author, title, year, equation: who says so.</summary>
    public required string Citation { get; init; }

    /// <summary>What the indicator is and its unit, for example <c>charge passed [C]</c>.</summary>
    public required string Indicator { get; init; }

    /// <summary>Median D [mm²/yr] at an indicator of 1.</summary>
    public required double CoefficientMm2PerYr { get; init; }

    /// <summary>Exponent of the indicator.</summary>
    public required double Exponent { get; init; }

    /// <summary>Standard deviation of ln D about the relation; above 0.</summary>
    public required double LogStandardDeviation { get; init; }

    /// <summary>Least indicator for which the relation was fitted.</summary>
    public required double LeastIndicator { get; init; }

    /// <summary>Greatest indicator for which the relation was fitted.</summary>
    public required double GreatestIndicator { get; init; }

    /// <summary>Age of the concrete at which it holds.</summary>
    public required Age ReferenceAge { get; init; }

    /// <summary>D from a measured indicator, with the relation's spread.</summary>
    /// <param name="indicator">The measured indicator.</param>
    /// <param name="value">D [mm²/yr] at <see cref="ReferenceAge"/>, lognormal.</param>
    /// <param name="problem">Why there is none.</param>
    public bool TryDiffusion(
        double indicator,
        out UncertainValue value,
        [NotNullWhen(false)] out string? problem
    )
    {
        value = default;
        problem =
            string.IsNullOrWhiteSpace(Citation) ? "the relation cites nothing: say who published it"
            : !(LogStandardDeviation is > 0 and <= 5)
                ? "the relation has no spread: state the standard deviation of ln D about it (above 0, at most 5)"
            : !(CoefficientMm2PerYr > 0)
            || !double.IsFinite(CoefficientMm2PerYr)
            || !double.IsFinite(Exponent)
                ? "the relation's coefficient must be above 0 and its exponent finite"
            : !(LeastIndicator > 0 && GreatestIndicator >= LeastIndicator)
                ? "the relation must say for which indicators it was fitted"
            : !(indicator >= LeastIndicator && indicator <= GreatestIndicator)
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $"{Indicator} of {indicator} lies outside {LeastIndicator} to {GreatestIndicator}, for which the relation was fitted"
                )
            : null;
        if (problem is not null)
        {
            return false;
        }

        var variance = LogStandardDeviation * LogStandardDeviation;
        var mean = CoefficientMm2PerYr * Math.Pow(indicator, Exponent) * Math.Exp(variance / 2);
        if (!(mean > 0) || !double.IsFinite(mean))
        {
            problem = "the relation gives no finite coefficient above 0";
            return false;
        }

        value = new(mean, Math.Sqrt(Math.Exp(variance) - 1), SpreadShape.Lognormal);
        return true;
    }
}
