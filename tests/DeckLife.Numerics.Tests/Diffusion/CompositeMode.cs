using DeckLife.Numerics.RootFinding;

namespace DeckLife.Numerics.Tests.Diffusion;

/// <summary>
/// Exact solution: one decaying mode of two layers, both faces at 0, layers ageing by one factor. With s the clock of
/// that factor, the free concentration is exp(-λ s) sin(q1 x) in the first layer and exp(-λ s) B sin(q2 (L - x)) in the
/// second, q = √(λ R/(m D)); λ is a root of the condition that u and D m ∂u/∂x be continuous (Carslaw and Jaeger 1959, 14.1; Mikhailov and
/// Özışık 1984; both from memory). The start has no sharp point but a kink at the interface.
/// </summary>
internal sealed class CompositeMode
{
    private readonly (double Thickness, double D, double Capacity, double Mobility) _first;
    private readonly (double Thickness, double D, double Capacity, double Mobility) _second;
    private readonly double _firstWave;
    private readonly double _secondWave;
    private readonly double _amplitude;

    public CompositeMode(
        (double Thickness, double D, double Capacity, double Mobility) first,
        (double Thickness, double D, double Capacity, double Mobility) second
    )
    {
        (_first, _second) = (first, second);
        // sin(q1 a) k2 cos(q2 b) + sin(q2 b) k1 cos(q1 a) = 0, k = m D q: positive near 0, so the first sign change is sought.
        double Condition(double root)
        {
            var (p, q) = (Wave(first, root), Wave(second, root));
            return (
                    Math.Sin(p * first.Thickness)
                    * second.Mobility
                    * second.D
                    * q
                    * Math.Cos(q * second.Thickness)
                )
                + (
                    Math.Sin(q * second.Thickness)
                    * first.Mobility
                    * first.D
                    * p
                    * Math.Cos(p * first.Thickness)
                );
        }

        var step = 1e-3;
        var low = step;
        while (Condition(low + step) > 0)
        {
            low += step;
        }

        if (!BracketedRoot.TryFind(Condition, low, low + step, 1e-16, out var rate))
        {
            throw new InvalidOperationException("no mode found");
        }

        Rate = rate * rate;
        (_firstWave, _secondWave) = (Wave(first, rate), Wave(second, rate));
        _amplitude =
            Math.Sin(_firstWave * first.Thickness) / Math.Sin(_secondWave * second.Thickness);
    }

    /// <summary>λ per unit of the clock.</summary>
    public double Rate { get; }

    /// <summary>Total content at a depth after a clock time.</summary>
    public double Total(double depth, double clock) =>
        Math.Exp(-Rate * clock)
        * (
            depth <= _first.Thickness
                ? _first.Capacity * Math.Sin(_firstWave * depth)
                : _second.Capacity
                    * _amplitude
                    * Math.Sin(_secondWave * (_first.Thickness + _second.Thickness - depth))
        );

    private static double Wave(
        (double Thickness, double D, double Capacity, double Mobility) layer,
        double root
    ) => root * Math.Sqrt(layer.Capacity / (layer.Mobility * layer.D));
}
