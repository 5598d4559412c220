using DeckLife.Numerics.Quadrature;

namespace DeckLife.Transport;

/// <summary>The clock of a layer, ∫ D(age) k(T) dt, tabulated once where the temperature varies.</summary>
/// <remarks>
/// Ageing in closed form; over each span s = [k c] - ∫ k' c dt with c the ageing clock, whose only singularity is a
/// root: no step of any solver needs to follow the year.
/// </remarks>
internal sealed class LayerClock
{
    private readonly DiffusionLaw _law;
    private readonly double _age;
    private readonly double _start;
    private readonly Activation? _activation;
    private readonly TemperatureHistory? _temperature;
    private readonly double _span;
    private readonly double[] _table;

    /// <summary>Makes the clock of a layer.</summary>
    /// <param name="layer">The layer.</param>
    /// <param name="startYears">Time at which its exposure starts [yr].</param>
    /// <param name="horizonYears">Last time asked [yr].</param>
    /// <param name="temperature">Temperature history; absent: reference temperature.</param>
    public LayerClock(
        ConcreteLayer layer,
        double startYears,
        double horizonYears,
        TemperatureHistory? temperature
    )
    {
        _law = layer.Diffusion;
        _age = layer.AgeAtStart.Years;
        _start = startYears;
        _activation = layer.Activation;
        _temperature = layer.Activation is null ? null : temperature;
        _span = _temperature?.SmoothSpanYears ?? double.PositiveInfinity;
        _table = [];
        if (double.IsFinite(_span))
        {
            var count = (int)Math.Ceiling((horizonYears - startYears) / _span) + 3;
            _table = new double[count];
            for (var k = 1; k < count; k++)
            {
                // Spans are counted on the case's own time, so that months begin where the history's do.
                _table[k] = _table[k - 1] + Piece(Boundary(k - 1), Boundary(k));
            }
        }
    }

    /// <summary>The clock at a time [mm²]; 0 at the layer's start and before.</summary>
    /// <param name="years">Time [yr].</param>
    public double At(double years)
    {
        if (years <= _start)
        {
            return 0;
        }

        if (_table.Length == 0)
        {
            var factor =
                _activation is not null && _temperature is not null
                    ? _activation.Factor(_temperature.CelsiusAt(0))
                    : 1;
            return factor * Ageing(years);
        }

        var k = Math.Clamp(
            (int)Math.Floor((years / _span) + 1e-9) - (int)Math.Floor((_start / _span) + 1e-9),
            0,
            _table.Length - 1
        );
        return _table[k] + Piece(Boundary(k), years);
    }

    private double Boundary(int k) =>
        k == 0 ? _start : (Math.Floor((_start / _span) + 1e-9) + k) * _span;

    private double Ageing(double years) => _law.ClockMm2(_age, years - _start);

    private double Piece(double from, double to)
    {
        if (!(to > from))
        {
            return 0;
        }

        if (_temperature is MonthlyTemperature)
        {
            return _activation!.Factor(_temperature.CelsiusAt(0.5 * (from + to)))
                * (Ageing(to) - Ageing(from));
        }

        var origin = Ageing(from);
        double Factor(double t) => _activation!.Factor(_temperature!.CelsiusAt(t));
        double Slope(double t)
        {
            const double step = 1e-5;
            return (Factor(t + step) - Factor(t - step)) / (2 * step);
        }

        return (Factor(to) * (Ageing(to) - origin))
            - GaussLegendre.Eight.Integrate(t => Slope(t) * (Ageing(t) - origin), from, to);
    }
}
