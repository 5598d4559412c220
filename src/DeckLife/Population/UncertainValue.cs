namespace DeckLife.Population;

/// <summary>A value with its spread, in the canonical unit of its quantity.</summary>
/// <param name="Mean">Mean.</param>
/// <param name="CoefficientOfVariation">Standard deviation divided by the mean; 0 for a value without spread.</param>
/// <param name="Shape">The distribution's shape.</param>
public readonly record struct UncertainValue(
    double Mean,
    double CoefficientOfVariation,
    SpreadShape Shape
)
{
    /// <summary>A value without spread.</summary>
    /// <param name="value">The value.</param>
    public static UncertainValue Exactly(double value) => new(value, 0, SpreadShape.Lognormal);
}
