using DeckLife.Numerics.Diffusion;

namespace DeckLife.Numerics.Tests.Diffusion;

/// <summary>
/// Oracle: a half space with any isotherm, uniform at the start, its face held from then on, by Boltzmann's
/// transformation (Crank 1975 ch. 7, from memory): with η = x/(2√s), s the clock, the free concentration u(η) obeys
/// m u'' = -2 η T'(u) u'. Shooting on the slope at the face, with ln|m u'| as the second unknown so that a steep foot is
/// not stiff. No mesh in depth and no steps in time.
/// </summary>
internal sealed class SimilarProfile
{
    private const double End = 4;
    private readonly double _step;
    private readonly double[] _free;

    private SimilarProfile(double gradient, double step, double[] free) =>
        (Gradient, _step, _free) = (gradient, step, free);

    /// <summary>-m du/dη at the face: the flux into the half space is √(D/τ)/2 of it, with s = D τ.</summary>
    public double Gradient { get; }

    /// <summary>Free concentration at η.</summary>
    public double Free(double eta)
    {
        if (eta >= _step * (_free.Length - 2))
        {
            return _free[^1];
        }

        // Cubic through four points.
        var k = Math.Clamp((int)(eta / _step) - 1, 0, _free.Length - 4);
        double sum = 0;
        for (var i = 0; i < 4; i++)
        {
            var weight = 1.0;
            for (var j = 0; j < 4; j++)
            {
                weight *= j == i ? 1 : ((eta / _step) - k - j) / (i - j);
            }

            sum += weight * _free[k + i];
        }

        return sum;
    }

    /// <summary>The profile between a face and a far value.</summary>
    public static SimilarProfile Of(Sorption sorption, double face, double far, int steps)
    {
        if (face == far)
        {
            return new(0, End / steps, [.. Enumerable.Repeat(far, steps + 1)]);
        }

        // Too steep a start runs past the far value, too flat a one stops short of it.
        var (low, high) = (
            Math.Log(1e-6 * Math.Abs(face - far)),
            Math.Log(1e4 * Math.Abs(face - far))
        );
        for (var n = 0; n < 46; n++)
        {
            var middle = 0.5 * (low + high);
            if (Shoot(sorption, face, far, middle, steps, null))
            {
                high = middle;
            }
            else
            {
                low = middle;
            }
        }

        var free = new double[steps + 1];
        Array.Fill(free, far);
        Shoot(sorption, face, far, low, steps, free);
        return new(Math.Sign(face - far) * Math.Exp(low), End / steps, free);
    }

    private static bool Shoot(
        Sorption sorption,
        double face,
        double far,
        double logGradient,
        int steps,
        double[]? free
    )
    {
        var sign = Math.Sign(face - far);
        var mobility = sorption.Mobility;
        var h = End / steps;
        var (u, l) = (face, logGradient);
        double Slope(double log) => -sign * Math.Exp(log) / mobility;
        double Decay(double eta, double value) => -2 * eta * sorption.Slope(value) / mobility;
        for (var k = 0; k < steps; k++)
        {
            if (free is not null)
            {
                free[k] = u;
            }

            var eta = k * h;
            var (u1, l1) = (Slope(l), Decay(eta, u));
            var (u2, l2) = (Slope(l + (0.5 * h * l1)), Decay(eta + (0.5 * h), u + (0.5 * h * u1)));
            var (u3, l3) = (Slope(l + (0.5 * h * l2)), Decay(eta + (0.5 * h), u + (0.5 * h * u2)));
            var (u4, l4) = (Slope(l + (h * l3)), Decay(eta + h, u + (h * u3)));
            u += h / 6 * (u1 + (2 * u2) + (2 * u3) + u4);
            l += h / 6 * (l1 + (2 * l2) + (2 * l3) + l4);
            if (sign * (u - far) < 0)
            {
                return true;
            }

            if (l < logGradient - 60)
            {
                if (free is not null)
                {
                    Array.Fill(free, u, k + 1, steps - k);
                }

                return false;
            }
        }

        return false;
    }
}
