using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>A temperature that does not change.</summary>
/// <param name="Value">The temperature.</param>
public sealed record ConstantTemperature(Temperature Value) : TemperatureHistory
{
    /// <inheritdoc/>
    public override double CelsiusAt(double years) => Value.Celsius;

    internal override double SmoothSpanYears => double.PositiveInfinity;
}
