namespace DeckLife.Numerics.Kernels;

/// <summary>The steps of one phase, graded t = T (k/K)^p towards its start, with a step on the kink of the surface's shape.</summary>
/// <remarks>Where all layers feel the same seasons, t is the even time of their clock: contents are smooth in it.</remarks>
internal sealed class StepPlan
{
    private readonly double _grading;
    private readonly double _kinkYr;
    private readonly int _kinkStep;
    private readonly double _durationYr;
    private readonly SeasonalClock? _seasons;

    /// <summary>Makes the steps.</summary>
    /// <param name="durationYr">Length of the phase [yr].</param>
    /// <param name="steps">Number of steps without a kink, a multiple of 4.</param>
    /// <param name="grading">Exponent p.</param>
    /// <param name="shape">The surface's shape.</param>
    /// <param name="shapeStartYr">Time of the shape's own start, relative to the phase's [yr].</param>
    /// <param name="seasons">The seasons that all layers feel alike; absent: none, or unlike ones.</param>
    public StepPlan(
        double durationYr,
        int steps,
        double grading,
        SurfaceShape shape,
        double shapeStartYr,
        SeasonalClock? seasons = null
    )
    {
        _grading = grading;
        _durationYr = durationYr;
        _seasons = seasons;
        var kink = shape.PlateauYr + shapeStartYr;
        kink = kink > 0 && kink < durationYr ? Even(kink) : kink;
        if (!shape.IsSealed && kink > 1e-6 * durationYr && kink < durationYr * (1 - 1e-9))
        {
            _kinkYr = kink;
            _kinkStep = 2 * (int)Math.Ceiling(steps * (0.35 + (0.15 * kink / durationYr)));
            Steps = _kinkStep + (2 * (int)Math.Ceiling(steps * (0.4 - (0.15 * kink / durationYr))));
        }
        else
        {
            _kinkYr = durationYr;
            _kinkStep = steps;
            Steps = steps;
        }

        var even = new double[Steps + 1];
        for (var k = 1; k <= Steps; k++)
        {
            even[k] = k == Steps ? durationYr : EvenAt(k);
        }

        TimesYr = [.. even.Select(Plain)];
        Factors = Shape(even, shape, shapeStartYr, 1);
        CoarseFactors = Shape(even, shape, shapeStartYr, 2);
    }

    /// <summary>Number of steps, even, and even on both sides of the kink.</summary>
    public int Steps { get; }

    /// <summary>The step that ends on the kink; the last one where there is no kink.</summary>
    public int KinkStep => _kinkStep;

    /// <summary>Times of the steps, the start first [steps + 1].</summary>
    public double[] TimesYr { get; }

    /// <summary>The shape's factor at the first stage and at the end of each step [steps × 2].</summary>
    public double[] Factors { get; }

    /// <summary>The same for steps twice as long [steps].</summary>
    public double[] CoarseFactors { get; }

    // After the kink nothing is singular: mild grading. Numerical choice, which the error estimate of each sample judges.
    private const double AfterKink = 1.5;

    /// <summary>Where a time lies in units of steps: steps are equally spaced in it on either side of the kink.</summary>
    public double IndexOf(double timeYr)
    {
        var even = Even(timeYr);
        if (even <= _kinkYr)
        {
            return _kinkStep * Math.Pow(even / _kinkYr, 1 / _grading);
        }

        var rest = (even - _kinkYr) / (_durationYr - _kinkYr);
        return _kinkStep + ((Steps - _kinkStep) * Math.Pow(rest, 1 / AfterKink));
    }

    /// <summary>The time at an index.</summary>
    public double TimeAt(double index) => Plain(EvenAt(index));

    private double Even(double timeYr) => _seasons?.EvenTime(timeYr) ?? timeYr;

    private double Plain(double evenYr) => _seasons?.TimeAt(evenYr) ?? evenYr;

    private double EvenAt(double index)
    {
        if (index <= _kinkStep)
        {
            return _kinkYr * Math.Pow(index / _kinkStep, _grading);
        }

        return _kinkYr
            + (
                (_durationYr - _kinkYr)
                * Math.Pow((index - _kinkStep) / (Steps - _kinkStep), AfterKink)
            );
    }

    /// <summary>First of the four steps whose cubic is read at an index; the four lie on one side of the kink.</summary>
    public int StencilAt(double index)
    {
        var low = index <= _kinkStep ? 0 : _kinkStep;
        var high = index <= _kinkStep ? _kinkStep : Steps;
        return Math.Clamp((int)Math.Floor(index) - 1, low, high - 3);
    }

    /// <summary>Weights of the cubic through four equally spaced values, at a place counted from the first.</summary>
    public static void CubicWeights(double at, Span<double> weights)
    {
        weights[0] = -(at - 1) * (at - 2) * (at - 3) / 6;
        weights[1] = at * (at - 2) * (at - 3) / 2;
        weights[2] = -at * (at - 1) * (at - 3) / 2;
        weights[3] = at * (at - 1) * (at - 2) / 6;
    }

    private double[] Shape(double[] even, SurfaceShape shape, double start, int every)
    {
        var steps = (even.Length - 1) / every;
        var factors = new double[2 * steps];
        for (var k = 0; k < steps; k++)
        {
            var from = even[k * every];
            var to = even[(k + 1) * every];
            var stage = from + (SteppingConstants.Gamma * (to - from));
            factors[2 * k] = shape.FactorAt(Plain(stage) - start);
            factors[(2 * k) + 1] = shape.FactorAt(Plain(to) - start);
        }

        return factors;
    }
}
