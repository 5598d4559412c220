namespace DeckLife.Numerics.Kernels;

/// <summary>A factor on a layer's diffusion coefficient in time, such as that of a yearly wave of temperature.</summary>
public sealed class SeasonalFactor
{
    /// <summary>Names the factor; layers that share it share the object.</summary>
    /// <param name="at">The factor, from 1e-3 to 1e3, at a time counted as the samples' times are [yr].</param>
    /// <param name="smoothSpanYr">
    /// Length of the spans, counted from time 0, within which the factor is smooth [yr], from 1e-3 to 1: 1/12 for a wave of one year, or for
    /// monthly values.
    /// </param>
    public SeasonalFactor(Func<double, double> at, double smoothSpanYr = 1.0 / 12)
    {
        ArgumentNullException.ThrowIfNull(at);
        if (!(smoothSpanYr >= 1e-3 && smoothSpanYr <= 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(smoothSpanYr),
                smoothSpanYr,
                "A span from 0.001 yr to 1 yr is needed."
            );
        }

        At = at;
        SmoothSpanYr = smoothSpanYr;
    }

    /// <summary>The factor at a time [yr].</summary>
    public Func<double, double> At { get; }

    /// <summary>Length of the spans within which the factor is smooth [yr].</summary>
    public double SmoothSpanYr { get; }
}
