using DeckLife.Numerics.Quadrature;
using DeckLife.Numerics.SpecialFunctions;

namespace DeckLife.Numerics.Diffusion;

/// <summary>A layer over a half space of another diffusion coefficient, equal capacities: image series.</summary>
/// <remarks>
/// Source: Carslaw and Jaeger, Conduction of Heat in Solids, 1959, 12.8; Crank 1975, 2.4.4 (from memory; derived again
/// by Laplace transform). With r = √(D2/D1) and a = (1-r)/(1+r), images weigh (-a)ⁿ. Holds for D(t) as well where both
/// media share one time factor. Checked by: ClosedFormTests (limits), and transport/* of the reference checks (Laplace inversion by SciPy, printed values).
/// </remarks>
public sealed class TwoMedia
{
    private readonly double _thickness;
    private readonly double _root;
    private readonly double _weight;

    /// <summary>Describes the two media.</summary>
    /// <param name="layerThickness">l [mm], greater than 0.</param>
    /// <param name="coefficientRatio">D2/D1: half space over layer, greater than 0.</param>
    public TwoMedia(double layerThickness, double coefficientRatio)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(layerThickness);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(coefficientRatio);
        _thickness = layerThickness;
        _root = Math.Sqrt(coefficientRatio);
        _weight = (1 - _root) / (1 + _root);
    }

    /// <summary>Content when both media start empty and the surface is held at 1.</summary>
    /// <param name="depth">x [mm] from the surface of the layer.</param>
    /// <param name="layerClock">s1 = ∫D1 dt [mm²].</param>
    public double ConstantSurface(double depth, double layerClock)
    {
        if (!(layerClock > 0))
        {
            return depth > 0 ? 0 : 1;
        }

        var length = 2 * Math.Sqrt(layerClock);
        double sum = 0;
        var power = 1.0;
        for (var n = 0; n < 1_000_000 && Math.Abs(power) > 1e-17; n++)
        {
            double term;
            if (depth <= _thickness)
            {
                var near = (2 * n * _thickness) + depth;
                var far = (2 * (n + 1) * _thickness) - depth;
                term =
                    ErrorFunction.Erfc(near / length)
                    + (_weight * ErrorFunction.Erfc(far / length));
                sum += power * term;
                if (near > 28 * length)
                {
                    break;
                }
            }
            else
            {
                var path = (((2 * n) + 1) * _thickness) + ((depth - _thickness) / _root);
                term = 2 / (1 + _root) * ErrorFunction.Erfc(path / length);
                sum += power * term;
                if (path > 28 * length)
                {
                    break;
                }
            }

            power *= -_weight;
        }

        return sum;
    }

    /// <summary>Content below the interface from a residual profile there, layer empty at first, surface held at 0.</summary>
    /// <param name="belowInterface">y [mm], at least 0, from the interface.</param>
    /// <param name="halfSpaceClock">s2 = ∫D2 dt [mm²], greater than 0.</param>
    /// <param name="profile">Content at time 0 by depth below the interface [mm].</param>
    /// <param name="profileDepth">Depth below which the profile is 0 [mm].</param>
    public double Residual(
        double belowInterface,
        double halfSpaceClock,
        Func<double, double> profile,
        double profileDepth
    )
    {
        ArgumentNullException.ThrowIfNull(profile);
        var spread = 2 * Math.Sqrt(halfSpaceClock);
        // Seen from the half space the interface reflects with (√D2-√D1)/(√D2+√D1): 1 where the layer lets nothing through.
        var reflection = -_weight;
        var detour = 2 * _thickness * _root;
        double Kernel(double distance) =>
            Math.Exp(-distance * distance / (spread * spread)) / (Math.Sqrt(Math.PI) * spread);
        double Integrand(double eta)
        {
            var sum = Kernel(belowInterface - eta) + (reflection * Kernel(belowInterface + eta));
            var power = 1 - (reflection * reflection);
            for (var n = 1; n < 100_000 && Math.Abs(power) > 1e-17; n++)
            {
                var distance = belowInterface + eta + (n * detour);
                if (distance > 12 * spread)
                {
                    break;
                }

                sum -= power * Kernel(distance);
                power *= reflection;
            }

            return profile(eta) * sum;
        }

        return PeakedIntegral.Integrate(Integrand, belowInterface, spread, profileDepth);
    }
}
