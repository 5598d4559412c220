using System.Collections.Immutable;
using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>A content that grows as a power of time, k t^p, without end or to a plateau that is then held.</summary>
/// <remarks>p = 1 is linear growth, p = 1/2 growth with the square root of time.</remarks>
public sealed record GrowingSurface : SurfaceLaw
{
    private GrowingSurface(double rate, double exponent, Age? plateau)
    {
        RatePerYearPower = rate;
        Exponent = exponent;
        Plateau = plateau;
    }

    /// <summary>k [kg/m³/yr^p].</summary>
    public double RatePerYearPower { get; }

    /// <summary>p.</summary>
    public double Exponent { get; }

    /// <summary>Time at which growth ends; absent: never.</summary>
    public Age? Plateau { get; }

    /// <summary>Growth to a content reached at a time, then held.</summary>
    /// <param name="content">The content reached.</param>
    /// <param name="plateau">When, greater than 0.</param>
    /// <param name="exponent">p, greater than 0 and at most 1.</param>
    public static GrowingSurface ToPlateau(ChlorideContent content, Age plateau, double exponent)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(plateau.Years);
        Check(exponent);
        return new(
            content.KilogramsPerCubicMetre / Math.Pow(plateau.Years, exponent),
            exponent,
            plateau
        );
    }

    /// <summary>Growth without end.</summary>
    /// <param name="ratePerYearPower">k [kg/m³/yr^p], at least 0.</param>
    /// <param name="exponent">p, greater than 0 and at most 1.</param>
    public static GrowingSurface WithRate(double ratePerYearPower, double exponent)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(ratePerYearPower);
        Check(exponent);
        return new(ratePerYearPower, exponent, null);
    }

    internal override ImmutableArray<double> Kinks(double untilYears) =>
        Plateau is { } end && end.Years < untilYears ? [end.Years] : [];

    private protected override double FullContentAt(double years) =>
        RatePerYearPower
        * Math.Pow(
            Math.Max(0, Math.Min(years, Plateau?.Years ?? double.PositiveInfinity)),
            Exponent
        );

    private static void Check(double exponent)
    {
        if (!(exponent > 0 && exponent <= 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(exponent),
                exponent,
                "The exponent of a growing surface content lies above 0 and at most at 1."
            );
        }
    }
}
