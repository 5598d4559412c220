using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>A yearly wave: mean + amplitude cos(2π (t - warmest)).</summary>
/// <param name="Mean">Mean temperature.</param>
/// <param name="AmplitudeKelvin">Half the yearly range [K], at least 0.</param>
/// <param name="Warmest">Time from the start of the first exposure to the warmest moment.</param>
public sealed record SinusoidalTemperature(Temperature Mean, double AmplitudeKelvin, Age Warmest)
    : TemperatureHistory
{
    internal override double SmoothSpanYears => 1.0 / 24;

    /// <inheritdoc/>
    public override double CelsiusAt(double years) =>
        Mean.Celsius + (AmplitudeKelvin * Math.Cos(2 * Math.PI * (years - Warmest.Years)));
}
