using System.Numerics;

namespace DeckLife.Numerics.Sampling;

/// <summary>
/// Makes generating vectors of rank-1 lattices, component by component, good at every size 2^m up to the largest at once.
/// </summary>
/// <remarks>
/// Equation: each component minimises the worst ratio over m of e²(2^m; z) to its least value over z, with
/// e² = -1 + mean over points of the product of 1 + γ_j 2π² B2({k z_j / n}), B2(x) = x² - x + 1/6, weights γ_j.
/// Source: the criterion is the worst-case error in the weighted Korobov space of smoothness 2 (Sloan &amp; Joe, Lattice Methods
/// for Multiple Integration, 1994); the fast construction by circular correlations is Nuyens &amp; Cools, Mathematics of
/// Computation 75 (2006) 903-920, and Journal of Complexity 22 (2006) 4-28 for powers of two; one vector for all sizes is the idea of
/// Cools, Kuo &amp; Nuyens, SIAM Journal on Scientific Computing 28 (2006) 2162-2188. The code and the vectors are this project's own.
/// Work O(d n log n). Checked by: LatticeTests (against the O(d n²) sums).
/// </remarks>
public static class LatticeConstruction
{
    // Candidates within this relative distance of the best count as equal and the least z is taken: rounding decides nothing.
    private const double TieTolerance = 1e-9;

    /// <summary>Constructs a generating vector.</summary>
    /// <param name="dimensions">Number of components, at least 1.</param>
    /// <param name="log2Largest">log2 of the largest number of points, from 4 to 20.</param>
    /// <param name="log2Smallest">log2 of the smallest number of points that the criterion looks at, from 3 to the largest.</param>
    /// <returns>The components, odd, less than half the largest number of points.</returns>
    public static uint[] Construct(int dimensions, int log2Largest, int log2Smallest = 6)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(dimensions, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(log2Largest, 4);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(log2Largest, 20);
        ArgumentOutOfRangeException.ThrowIfLessThan(log2Smallest, 3);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(log2Smallest, log2Largest);

        var n = 1 << log2Largest;
        var product = new double[n]; // over the components chosen so far, at point k / n
        Array.Fill(product, 1.0);
        var vector = new uint[dimensions];
        var correlations = new double[log2Largest + 1][];
        for (var j = 0; j < dimensions; j++)
        {
            // S_l(z): sum over the points k = 2^l k', k' odd, of product times kernel; it depends on z mod 2^(m - l).
            for (var l = 0; l <= log2Largest; l++)
            {
                correlations[l] = ClassSums(product, log2Largest, l);
            }

            var weight = Weight(j);
            vector[j] = j == 0 ? 1u : Choose(product, correlations, weight, log2Smallest);
            for (var k = 0; k < n; k++)
            {
                var x = (double)(((ulong)(uint)k * vector[j]) & (uint)(n - 1)) / n;
                product[k] *= 1 + (weight * Kernel(x));
            }
        }

        return vector;
    }

    /// <summary>The weight of a component: γ_j = 1/(j + 1), j from 0.</summary>
    /// <param name="component">j, from 0.</param>
    public static double Weight(int component) => 1.0 / (component + 1);

    /// <summary>2π² B2(x), the kernel of smoothness 2.</summary>
    /// <param name="x">From 0 to 1.</param>
    public static double Kernel(double x) => 2 * Math.PI * Math.PI * ((x * x) - x + (1.0 / 6));

    // Index a stands for z = ±5^a mod N, N = 2^(log2 - l): the odd residues up to sign are cyclic of order N/4.
    internal static double[] ClassSums(double[] product, int log2, int l)
    {
        var modulus = 1 << (log2 - l);
        var stride = 1 << l;
        if (modulus <= 4)
        {
            // N = 1: the point 0; N = 2: k' = 1; N = 4: k' = 1, 3. One class of z.
            var sum = 0.0;
            for (var odd = modulus == 1 ? 0 : 1; odd < modulus; odd += 2)
            {
                sum += product[odd * stride] * Kernel((double)odd / modulus);
            }

            return [modulus == 1 ? product[0] * Kernel(0) : sum];
        }

        var order = modulus / 4;
        var weights = new Complex[order];
        var kernel = new Complex[order];
        var power = 1;
        for (var b = 0; b < order; b++)
        {
            weights[b] = product[power * stride] + product[(modulus - power) * stride];
            kernel[b] = Kernel((double)power / modulus);
            power = (int)((5L * power) & (modulus - 1));
        }

        Transform(weights);
        Transform(kernel);
        for (var b = 0; b < order; b++)
        {
            // sum over b of w(b) k(a + b): conjugate of W times K; the data are real.
            weights[b] = Complex.Conjugate(Complex.Conjugate(weights[b]) * kernel[b]);
        }

        Transform(weights); // forward transform of the conjugate: the inverse up to conjugation and 1/order
        var sums = new double[order];
        for (var a = 0; a < order; a++)
        {
            sums[a] = weights[a].Real / order;
        }

        return sums;
    }

    private static uint Choose(double[] product, double[][] sums, double weight, int smallest)
    {
        var log2 = sums.Length - 1;
        var candidates = 1 << (log2 - 2);
        var worst = new double[candidates];
        var running = new double[candidates];
        for (var l = log2; l >= 0; l--)
        {
            var mask = sums[l].Length - 1;
            for (var a = 0; a < candidates; a++)
            {
                running[a] += sums[l][a & mask];
            }

            var m = log2 - l; // the classes l and above are the lattice of 2^m points
            if (m < smallest)
            {
                continue;
            }

            var before = -1.0 * (1 << m);
            for (var k = 0; k < product.Length; k += 1 << l)
            {
                before += product[k];
            }

            // 2^m e² of each candidate, over its least value.
            var least = before + (weight * running.Min());
            for (var a = 0; a < candidates; a++)
            {
                worst[a] = Math.Max(worst[a], (before + (weight * running[a])) / least);
            }
        }

        var limit = worst.Min() * (1 + TieTolerance);
        var chosen = uint.MaxValue;
        var power = 1u;
        var modulus = 1u << log2;
        for (var a = 0; a < candidates; a++)
        {
            if (worst[a] <= limit)
            {
                chosen = Math.Min(chosen, Math.Min(power, modulus - power));
            }

            power = (5 * power) & (modulus - 1);
        }

        return chosen;
    }

    // In-place radix-2 Fourier transform; the length is a power of two.
    private static void Transform(Complex[] values)
    {
        var n = values.Length;
        for (int i = 1, j = 0; i < n; i++)
        {
            var bit = n >> 1;
            for (; (j & bit) != 0; bit >>= 1)
            {
                j ^= bit;
            }

            j ^= bit;
            if (i < j)
            {
                (values[i], values[j]) = (values[j], values[i]);
            }
        }

        for (var length = 2; length <= n; length <<= 1)
        {
            var half = length / 2;
            for (var k = 0; k < half; k++)
            {
                var angle = -2 * Math.PI * k / length;
                var root = new Complex(Math.Cos(angle), Math.Sin(angle));
                for (var i = k; i < n; i += length)
                {
                    var upper = values[i];
                    var lower = values[i + half] * root;
                    values[i] = upper + lower;
                    values[i + half] = upper - lower;
                }
            }
        }
    }
}
