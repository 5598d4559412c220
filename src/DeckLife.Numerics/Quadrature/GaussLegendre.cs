namespace DeckLife.Numerics.Quadrature;

/// <summary>Gauss-Legendre rules, fixed and adaptive.</summary>
/// <remarks>Nodes by Newton's method on the Legendre recurrence, weights 2/((1-x²)P'²) (Abramowitz and Stegun 25.4.29).</remarks>
public sealed class GaussLegendre
{
    private readonly double[] _nodes;
    private readonly double[] _weights;

    /// <summary>Makes the rule with a number of points.</summary>
    /// <param name="points">The number of points, 2 to 200.</param>
    /// <exception cref="ArgumentOutOfRangeException">Another number of points.</exception>
    public GaussLegendre(int points)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(points, 200);
        _nodes = new double[points];
        _weights = new double[points];
        for (var i = 0; i < points; i++)
        {
            var x = Math.Cos(Math.PI * (i + 0.75) / (points + 0.5));
            double slope = 0;
            for (var iteration = 0; iteration < 30; iteration++)
            {
                double previous = 1;
                var value = x;
                for (var n = 2; n <= points; n++)
                {
                    (previous, value) = (
                        value,
                        ((((2 * n) - 1) * x * value) - ((n - 1) * previous)) / n
                    );
                }

                slope = points * ((x * value) - previous) / ((x * x) - 1);
                var change = value / slope;
                x -= change;
                if (Math.Abs(change) < 1e-16)
                {
                    break;
                }
            }

            _nodes[i] = x;
            _weights[i] = 2 / ((1 - (x * x)) * slope * slope);
        }
    }

    /// <summary>The rule of 16 points, shared.</summary>
    public static GaussLegendre Sixteen { get; } = new(16);

    /// <summary>The rule of 8 points, shared.</summary>
    public static GaussLegendre Eight { get; } = new(8);

    /// <summary>Nodes on [-1, 1].</summary>
    public ReadOnlySpan<double> Nodes => _nodes;

    /// <summary>Weights, of sum 2.</summary>
    public ReadOnlySpan<double> Weights => _weights;

    /// <summary>∫ f over [a, b] by the rule.</summary>
    /// <param name="integrand">f.</param>
    /// <param name="from">a.</param>
    /// <param name="to">b.</param>
    public double Integrate(Func<double, double> integrand, double from, double to)
    {
        ArgumentNullException.ThrowIfNull(integrand);
        var half = 0.5 * (to - from);
        var middle = 0.5 * (to + from);
        double sum = 0;
        for (var i = 0; i < _nodes.Length; i++)
        {
            sum += _weights[i] * integrand(middle + (half * _nodes[i]));
        }

        return half * sum;
    }

    /// <summary>The mean of f over [a, b] by the rule; f(a) where they are equal.</summary>
    /// <param name="integrand">f.</param>
    /// <param name="from">a.</param>
    /// <param name="to">b.</param>
    public double Mean(Func<double, double> integrand, double from, double to)
    {
        ArgumentNullException.ThrowIfNull(integrand);
        return from == to ? integrand(from) : Integrate(integrand, from, to) / (to - from);
    }

    /// <summary>∫ f over [a, b], intervals halved until two halves agree with the whole, 30 times at most.</summary>
    /// <param name="integrand">f; smooth but for kinks, where more halvings are spent.</param>
    /// <param name="from">a.</param>
    /// <param name="to">b.</param>
    /// <param name="tolerance">Absolute tolerance for the whole interval.</param>
    public double IntegrateAdaptively(
        Func<double, double> integrand,
        double from,
        double to,
        double tolerance
    ) => Refine(integrand, from, to, Integrate(integrand, from, to), tolerance, 30);

    private double Refine(
        Func<double, double> integrand,
        double from,
        double to,
        double whole,
        double tolerance,
        int left
    )
    {
        var middle = 0.5 * (from + to);
        var first = Integrate(integrand, from, middle);
        var second = Integrate(integrand, middle, to);
        var sum = first + second;
        if (Math.Abs(sum - whole) <= Math.Max(tolerance, 4e-16 * Math.Abs(sum)) || left == 0)
        {
            return sum;
        }

        return Refine(integrand, from, middle, first, 0.5 * tolerance, left - 1)
            + Refine(integrand, middle, to, second, 0.5 * tolerance, left - 1);
    }
}
