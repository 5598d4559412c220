using DeckLife.Quantities;
using static System.FormattableString;

namespace DeckLife.Placement;

/// <summary>Rate at which bleed water evaporates from fresh concrete.</summary>
public static class EvaporationRate
{
    /// <summary>Scatter of actual rates about the estimate, as a fraction: 40 %.</summary>
    /// <remarks>Source: Hover 2020, ACI SP-338.</remarks>
    public const double Scatter = 0.4;

    /// <summary>kg/m²/h in one lb/ft²/h: the pound over the foot squared (exact).</summary>
    public const double KgPerM2PerLbPerFt2 =
        UnitFactors.KilogramsPerPound
        / (UnitFactors.MillimetresPerFoot * UnitFactors.MillimetresPerFoot)
        * 1e6;

    /// <summary>The closed form of the ACI 305 chart: 5 [(Tc + 18)^2.5 − r (Ta + 18)^2.5] (V + 4) 10⁻⁶.</summary>
    /// <param name="reading">The reading.</param>
    /// <returns>The rate [kg/m²/h] with its band; 0 where water would condense.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A reading that can't be: see <see cref="Problem"/>.</exception>
    /// <remarks>Source: Uno 1998, Plastic shrinkage cracking and evaporation formulas, ACI Materials Journal 95, 365–375.</remarks>
    public static EstimateBand Uno1998(PlacementReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        if (Problem(reading) is { } problem)
        {
            throw new ArgumentOutOfRangeException(nameof(reading), problem);
        }

        var rate = Math.Max(
            0,
            5e-6
                * (
                    Math.Pow(reading.ConcreteC + 18, 2.5)
                    - (reading.RelativeHumidity * Math.Pow(reading.AirC + 18, 2.5))
                )
                * (reading.WindKmPerH + 4)
        );
        return new((1 - Scatter) * rate, rate, (1 + Scatter) * rate);
    }

    /// <summary>The older form that the chart was drawn from: 0.315 (e(Tc) − r e(Ta)) (0.253 + 0.060 V).</summary>
    /// <param name="reading">The reading.</param>
    /// <returns>The rate [kg/m²/h] with its band; 0 where water would condense. The pressure e of saturated vapour is in kPa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A reading that can't be: see <see cref="Problem"/>.</exception>
    /// <remarks>
    /// Source: Menzel 1954 in the metric form of ACI 308 (from memory); e = 0.61 exp(17.3 T/(237.3 + T)), the usual fit over water. A second
    /// opinion beside <see cref="Uno1998"/>: with wind from 10 km/h up the two differ by less than 10 % where air and concrete are from 15 to 35 °C; at
    /// 5 °C this one is higher by up to 32 %, at 40 °C by up to 20 %. Both lie within the scatter.
    /// </remarks>
    public static EstimateBand Menzel(PlacementReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        if (Problem(reading) is { } problem)
        {
            throw new ArgumentOutOfRangeException(nameof(reading), problem);
        }

        var rate = Math.Max(
            0,
            0.315
                * (
                    Saturated(reading.ConcreteC)
                    - (reading.RelativeHumidity * Saturated(reading.AirC))
                )
                * (0.253 + (0.060 * reading.WindKmPerH))
        );
        return new((1 - Scatter) * rate, rate, (1 + Scatter) * rate);
    }

    private static double Saturated(double celsius) =>
        0.61 * Math.Exp(17.3 * celsius / (237.3 + celsius));

    /// <summary>Why a reading can't be; null where it can.</summary>
    /// <param name="reading">The reading.</param>
    public static string? Problem(PlacementReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        return !(reading.AirC is >= -17 and <= 60)
                ? Invariant(
                    $"air temperature {reading.AirC:0.###} °C: it lies between -17 and 60 °C"
                )
            : !(reading.ConcreteC is >= 0 and <= 60)
                ? Invariant(
                    $"concrete temperature {reading.ConcreteC:0.###} °C: it lies between 0 and 60 °C"
                )
            : !(reading.RelativeHumidity is >= 0 and <= 1)
                ? Invariant(
                    $"relative humidity {100 * reading.RelativeHumidity:0.###} %: it lies between 0 and 100 %"
                )
            : !(reading.WindKmPerH is >= 0 and <= 150)
                ? Invariant($"wind {reading.WindKmPerH:0.###} km/h: it lies between 0 and 150 km/h")
            : null;
    }
}
