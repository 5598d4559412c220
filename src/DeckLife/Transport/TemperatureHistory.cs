namespace DeckLife.Transport;

/// <summary>The temperature of the concrete in time; time counts from the start of the first exposure.</summary>
public abstract record TemperatureHistory
{
    private protected TemperatureHistory() { }

    /// <summary>Temperature [°C] at a time.</summary>
    /// <param name="years">Time [yr].</param>
    public abstract double CelsiusAt(double years);

    /// <summary>Largest span over which the history is smooth [yr]; infinite where it is constant.</summary>
    internal abstract double SmoothSpanYears { get; }

    /// <summary>Time average of the factor on the coefficient over a year: the effective constant.</summary>
    /// <param name="activation">How diffusion quickens with temperature.</param>
    /// <remarks>The average of k, not k of the average temperature, which is too small.</remarks>
    public double EffectiveFactor(Activation activation)
    {
        ArgumentNullException.ThrowIfNull(activation);
        double sum = 0;
        const int spans = 24;
        for (var i = 0; i < spans; i++)
        {
            sum += Numerics.Quadrature.GaussLegendre.Eight.Integrate(
                t => activation.Factor(CelsiusAt(t)),
                (double)i / spans,
                (i + 1.0) / spans
            );
        }

        return sum;
    }
}
