using System.Numerics;

namespace DeckLife.Numerics.Tests.Diffusion;

/// <summary>
/// Oracle: layers of constant D, each with its own uniform content and capacity, faces held or sealed from time 0 on, by
/// numerical inversion of the Laplace transform (Weideman 2006, SIAM Journal on Numerical Analysis 44:2342-2362: Talbot
/// contour with 28 nodes). Shares nothing with the solver under test: no mesh, no steps. Where all layers share one
/// time factor, time is the clock of a layer of D = 1.
/// </summary>
internal sealed class LaplaceSlab(
    double[] thickness,
    double[] coefficient,
    double[] capacity,
    double[] initial,
    double? surface,
    double? bottom
)
{
    private const int Nodes = 28;

    /// <summary>Free concentration at a depth of a layer, at clock time s.</summary>
    public double Free(int layer, double depthInLayer, double time)
    {
        double sum = 0;
        // Nodes come in conjugate pairs: the half with positive imaginary part suffices.
        for (var k = Nodes / 2; k < Nodes; k++)
        {
            var theta = ((((2 * k) + 1) * Math.PI) / Nodes) - Math.PI;
            var angle = 0.6407 * theta;
            var (sin, cos) = Math.SinCos(angle);
            var z =
                Nodes / time * new Complex((0.5017 * theta * cos / sin) - 0.6122, 0.2645 * theta);
            var slope =
                Nodes
                / time
                * new Complex((0.5017 * cos / sin) - (0.5017 * angle / (sin * sin)), 0.2645);
            var value = Complex.Exp(z * time) * Transform(layer, depthInLayer, z) * slope;
            sum += 2 * value.Imaginary / Nodes;
        }

        return sum;
    }

    private Complex Transform(int layer, double y, Complex s)
    {
        var n = thickness.Length;
        var wave = new Complex[n];
        var coth = new Complex[n];
        var csch = new Complex[n];
        for (var i = 0; i < n; i++)
        {
            wave[i] = Complex.Sqrt(s / coefficient[i]);
            var once = Complex.Exp(-wave[i] * thickness[i]);
            var twice = once * once;
            coth[i] = (1 + twice) / (1 - twice);
            csch[i] = 2 * once / (1 - twice);
        }

        // Flux balance at each interface for the transforms of its value; rows 0 and n are the faces.
        var lower = new Complex[n + 1];
        var pivot = new Complex[n + 1];
        var upper = new Complex[n + 1];
        var right = new Complex[n + 1];
        for (var k = 0; k <= n; k++)
        {
            if ((k == 0 && surface is not null) || (k == n && bottom is not null))
            {
                pivot[k] = 1;
                right[k] = (k == 0 ? surface!.Value : bottom!.Value) / s;
                continue;
            }

            if (k > 0)
            {
                var g = capacity[k - 1] * coefficient[k - 1] * wave[k - 1];
                pivot[k] += g * coth[k - 1];
                lower[k] = -g * csch[k - 1];
                right[k] += g * (coth[k - 1] - csch[k - 1]) * initial[k - 1] / s;
            }

            if (k < n)
            {
                var g = capacity[k] * coefficient[k] * wave[k];
                pivot[k] += g * coth[k];
                upper[k] = -g * csch[k];
                right[k] += g * (coth[k] - csch[k]) * initial[k] / s;
            }
        }

        for (var k = 1; k <= n; k++)
        {
            var factor = lower[k] / pivot[k - 1];
            pivot[k] -= factor * upper[k - 1];
            right[k] -= factor * right[k - 1];
        }

        var values = new Complex[n + 1];
        values[n] = right[n] / pivot[n];
        for (var k = n - 1; k >= 0; k--)
        {
            values[k] = (right[k] - (upper[k] * values[k + 1])) / pivot[k];
        }

        var (q, h) = (wave[layer], thickness[layer]);
        var start = initial[layer] / s;
        var scale = 1 / (1 - Complex.Exp(-2 * q * h));
        var fromTop = (Complex.Exp(-q * y) - Complex.Exp(-q * ((2 * h) - y))) * scale;
        var fromBottom = (Complex.Exp(-q * (h - y)) - Complex.Exp(-q * (h + y))) * scale;
        return start
            + ((values[layer] - start) * fromTop)
            + ((values[layer + 1] - start) * fromBottom);
    }
}
