namespace DeckLife.Projection;

/// <summary>How fast corrosion goes on, once begun: at the rate of the untouched deck at first, then at a rate from each of several times on.</summary>
internal sealed class CorrosionClock
{
    private readonly double[] starts;
    private readonly double[] rates;

    private CorrosionClock(double[] starts, double[] rates, bool isRim)
    {
        this.starts = starts;
        this.rates = rates;
        IsRim = isRim;
    }

    /// <summary>Whether the place lies in the rim around a repair.</summary>
    public bool IsRim { get; }

    /// <summary>The rate of the untouched deck for all times.</summary>
    public static CorrosionClock Plain { get; } = new([], [], false);

    /// <summary>The clock with another rate from a time on.</summary>
    /// <param name="atYr">The time, after all before [yr].</param>
    /// <param name="rate">Rate relative to the untouched deck.</param>
    /// <param name="isRim">Whether the place lies in the rim around a repair from then on.</param>
    public CorrosionClock From(double atYr, double rate, bool isRim) =>
        (rates.Length == 0 ? 1 : rates[^1]) == rate && isRim == IsRim
            ? this
            : new([.. starts, atYr], [.. rates, rate], isRim);

    /// <summary>When corrosion must have begun to be damage at a time [yr].</summary>
    /// <param name="timeYr">The time [yr].</param>
    /// <param name="propagationYr">From initiation to damage at the untouched deck's rate [yr].</param>
    public double StartOfDamage(double timeYr, double propagationYr)
    {
        var left = propagationYr;
        var until = timeYr;
        for (var k = starts.Length - 1; k >= 0; k--)
        {
            if (starts[k] >= until)
            {
                continue;
            }

            var done = (until - starts[k]) * rates[k];
            if (done >= left)
            {
                return until - left / rates[k];
            }

            left -= done;
            until = starts[k];
        }

        return until - left;
    }
}
