using DeckLife.Numerics.SpecialFunctions;

namespace DeckLife.Numerics.Diffusion;

/// <summary>Where salt that lies at one depth of the half space is found later: slice means in both media, surface of the layer held at 0.</summary>
/// <remarks>
/// Equation: with r = √(D2/D1), k = (r-1)/(r+1), K the normal density of variance 2 s2 and all distances as the half space measures them,
/// below: K(y-η) + k K(y+η) - (1-k²) Σ kⁿ⁻¹ K(y+η+2nrl), n from 1; in the layer: (1+k) Σ kⁿ [K(η+r(l-x)+2nrl) - K(η+r(l+x)+2nrl)], n from 0.
/// Source: derived by Laplace transform, the method of Carslaw and Jaeger 1959, 12.8. Valid for: equal capacities, constant ratio of the
/// coefficients. Checked by: TwoMediaSpreadTests, against <see cref="TwoMedia.Residual"/> below and <see cref="LayeredSolver"/> in the layer.
/// </remarks>
public sealed class TwoMediaSpread
{
    private const double Beyond = 9;
    private readonly double _thickness;
    private readonly double _root;
    private readonly double _reflection;
    private readonly double _length;

    /// <summary>Describes the two media and the time that has passed.</summary>
    /// <param name="layerThickness">l [mm], greater than 0.</param>
    /// <param name="coefficientRatio">D2/D1: half space over layer, greater than 0.</param>
    /// <param name="halfSpaceClock">s2 = ∫D2 dt [mm²], greater than 0.</param>
    public TwoMediaSpread(double layerThickness, double coefficientRatio, double halfSpaceClock)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(layerThickness);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(coefficientRatio);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(halfSpaceClock);
        _thickness = layerThickness;
        _root = Math.Sqrt(coefficientRatio);
        _reflection = (_root - 1) / (_root + 1);
        _length = 2 * Math.Sqrt(halfSpaceClock);
    }

    /// <summary>Mean content of a slice per salt at one depth [1/mm].</summary>
    /// <param name="sourceDepth">η [mm], at least 0, of the salt below the interface at time 0.</param>
    /// <param name="top">Top of the slice from the surface of the layer [mm].</param>
    /// <param name="bottom">Bottom of the slice [mm], below its top; it may straddle the interface.</param>
    public double SliceMean(double sourceDepth, double top, double bottom)
    {
        var sum = 0.0;
        if (top < _thickness)
        {
            sum += InLayer(sourceDepth, top, Math.Min(bottom, _thickness));
        }

        if (bottom > _thickness)
        {
            sum += Below(sourceDepth, Math.Max(0, top - _thickness), bottom - _thickness);
        }

        return sum / (bottom - top);
    }

    private double Below(double eta, double top, double bottom)
    {
        var sum = Part(top - eta, bottom - eta) + (_reflection * Part(top + eta, bottom + eta));
        var power = 1 - (_reflection * _reflection);
        for (var n = 1; Math.Abs(power) > 1e-17; n++)
        {
            var way = eta + (2 * n * _root * _thickness);
            if (top + way > Beyond * _length)
            {
                break;
            }

            sum -= power * Part(top + way, bottom + way);
            power *= _reflection;
        }

        return sum;
    }

    private double InLayer(double eta, double top, double bottom)
    {
        var sum = 0.0;
        var power = 1 + _reflection;
        for (var n = 0; Math.Abs(power) > 1e-17; n++)
        {
            var way = eta + (((2 * n) + 1) * _root * _thickness);
            if (way - (_root * bottom) > Beyond * _length)
            {
                break;
            }

            sum +=
                power
                * (
                    Part(way - (_root * bottom), way - (_root * top))
                    - Part(way + (_root * top), way + (_root * bottom))
                );
            power *= _reflection;
        }

        return sum / _root;
    }

    // Share of a normal law of standard deviation length / √2 between two distances.
    private double Part(double from, double to)
    {
        var (a, b) = (from / _length, to / _length);
        return a > 0 ? 0.5 * (ErrorFunction.Erfc(a) - ErrorFunction.Erfc(b))
            : b < 0 ? 0.5 * (ErrorFunction.Erfc(-b) - ErrorFunction.Erfc(-a))
            : 0.5 * (ErrorFunction.Erf(b) - ErrorFunction.Erf(a));
    }
}
