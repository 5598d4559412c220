using DeckLife.Numerics.LeastSquares;

namespace DeckLife.Fitting;

/// <summary>
/// Twice the negative log-likelihood, the scale solved with the linear part: contents below the detection limit are
/// censored at it, and the errors may follow Student's t.
/// </summary>
/// <remarks>
/// The logarithm of the scale counts the measured slices less the free parameters, so that without non-detects and with normal errors
/// the estimates, the scale and the limits are those of least squares.
/// </remarks>
internal sealed class LikelihoodObjective : ProfileObjective
{
    /// <summary>Degrees of freedom of Student's t (Lange, Little and Taylor, JASA 84 (1989) 881: 4 works well in practice).</summary>
    public const double StudentDegrees = 4;

    // A scale below this share of the largest content is an exact fit.
    private const double ScaleFloor = 1e-9;

    private readonly ScaleRegressionRow[] _kinds;
    private readonly double[] _rootWeight;
    private readonly double[] _rows;
    private readonly double[] _offsets;
    private readonly double[] _v = new double[3];
    private readonly ErrorLaw _law;
    private readonly double _floor;

    /// <summary>Makes the objective.</summary>
    public LikelihoodObjective(ProfileData data, ErrorLaw law)
        : base(data)
    {
        _law = law;
        _floor = ScaleFloor * data.Content.Max();
        // One row more: the floor of the scale.
        _kinds = new ScaleRegressionRow[data.Count + 1];
        _rootWeight = new double[data.Count];
        _offsets = new double[data.Count + 1];
        _rows = new double[3 * (data.Count + 1)];
        for (var i = 0; i < data.Count; i++)
        {
            _kinds[i] = data.Censored[i] ? ScaleRegressionRow.Below : ScaleRegressionRow.Measured;
            _rootWeight[i] = Math.Sqrt(data.Weight[i]);
        }
    }

    private double ScaleCount => Data.ScaleIsKnown ? 0 : Math.Max(1, Data.DegreesOfFreedom);

    /// <inheritdoc/>
    public override double Threshold(ProfilePoint best, LimitCut cut)
    {
        var nu = Math.Max(1, Data.DegreesOfFreedom);
        return best.Objective
            + (
                Data.ScaleIsKnown
                    ? cut.Normal * cut.Normal
                    : nu * Math.Log(1 + (cut.Student * cut.Student / nu))
            );
    }

    /// <inheritdoc/>
    public override double ThresholdAfter(ProfilePoint best, double fall) => best.Objective + fall;

    /// <inheritdoc/>
    public override double Deviance(ProfilePoint best) => best.Objective;

    /// <inheritdoc/>
    protected override ProfilePoint Solve(double lnDiffusion)
    {
        var held = Data.FixedBackground;
        var start = Start(held);
        var (value, excess, background, scale) = held is { } c0
            ? Minimise(
                start.Scale,
                i => Data.Content[i] - c0,
                [start.Excess],
                i => [-Share[i]],
                r => (r[0], c0)
            )
            : Minimise(
                start.Scale,
                i => Data.Content[i],
                [start.Excess, start.Background],
                i => [-Share[i], -1],
                r => (r[0], r[1])
            );
        return new ProfilePoint(
            lnDiffusion,
            value,
            SlopeAt(excess, background, scale),
            excess,
            background,
            scale
        );
    }

    /// <inheritdoc/>
    protected override double? EndOf(
        ProfileParameter which,
        bool upper,
        double threshold,
        ProfilePoint best
    )
    {
        if (best.Objective > threshold)
        {
            return null;
        }

        var at = which == ProfileParameter.Surface ? best.Surface : best.Background;
        var near = (best.Excess, best.Background, best.Scale);
        double Above(double value) => Conditional(which, value, ref near) - threshold;
        var inside = at;
        var insideValue = best.Objective - threshold;
        var step = Math.Max(1e-3 * Math.Max(at, best.Surface), best.Scale);
        for (var i = 0; i < 60; i++, step *= 2)
        {
            var next = upper ? at + step : Math.Max(0, at - step);
            var value = Above(next);
            if (value >= 0)
            {
                return BracketedZero.Find(
                    Above,
                    inside,
                    next,
                    insideValue,
                    value,
                    1e-9 * Math.Max(at, 1e-12)
                );
            }

            if (next == 0)
            {
                return 0;
            }

            (inside, insideValue) = (next, value);
        }

        return upper ? double.PositiveInfinity : 0;
    }

    // The minimum with Cs or C0 held at a value, sought from one found for a value near it.
    private double Conditional(
        ProfileParameter which,
        double value,
        ref (double Excess, double Background, double Scale) near
    )
    {
        var found =
            which == ProfileParameter.Background
                ? Minimise(
                    near.Scale,
                    i => Data.Content[i] - value,
                    [near.Excess],
                    i => [-Share[i]],
                    r => (r[0], value)
                )
            : Data.FixedBackground is { } c0
                ? Minimise(
                    near.Scale,
                    i => Data.Content[i] - c0 - ((value - c0) * Share[i]),
                    [],
                    _ => [],
                    _ => (value - c0, c0)
                )
            : Minimise(
                near.Scale,
                i => Data.Content[i] - (value * Share[i]),
                [near.Background],
                i => [Share[i] - 1],
                r => (value - r[0], r[0])
            );
        near = (found.Excess, found.Background, found.Scale);
        return found.Value;
    }

    // One minimisation: residual = content(i) + sum of columns(i) times coefficients, over the scale.
    private (double Value, double Excess, double Background, double Scale) Minimise(
        double scale,
        Func<int, double> content,
        double[] start,
        Func<int, double[]> columns,
        Func<double[], (double Excess, double Background)> read
    )
    {
        var linear = start.Length;
        var known = Data.ScaleIsKnown;
        var unknowns = known ? linear : linear + 1;
        var h = 1 / Math.Max(scale, _floor);
        if (unknowns == 0)
        {
            return (KnownScaleValue(content), 0, 0, 1);
        }

        var inverseScale = new double[unknowns];
        for (var i = 0; i < Data.Count; i++)
        {
            var row = _rows.AsSpan(i * unknowns, unknowns);
            var entries = columns(i);
            for (var j = 0; j < linear; j++)
            {
                row[j] = _rootWeight[i] * entries[j];
            }

            _offsets[i] = known ? _rootWeight[i] * content(i) : 0;
            if (!known)
            {
                row[linear] = _rootWeight[i] * content(i);
            }
        }

        var rows = Data.Count;
        if (!known)
        {
            inverseScale[linear] = 1;
            _v[linear] = h;
            var last = _rows.AsSpan(rows * unknowns, unknowns);
            last.Clear();
            last[linear] = _floor;
            _offsets[rows] = 0;
            _kinds[rows] = ScaleRegressionRow.Measured;
            rows++;
        }

        for (var j = 0; j < linear; j++)
        {
            _v[j] = Math.Max(0, start[j]) * (known ? 1 : h);
        }

        var solver = new ScaleRegression(unknowns)
        {
            ScaleCount = ScaleCount,
            StudentDegreesOfFreedom = _law == ErrorLaw.Student ? StudentDegrees : null,
        };
        var v = _v.AsSpan(0, unknowns);
        var (value, _) = solver.Minimise(
            _rows.AsSpan(0, rows * unknowns),
            _offsets.AsSpan(0, rows),
            _kinds.AsSpan(0, rows),
            inverseScale,
            v
        );
        var found = known ? 1 : v[linear];
        var coefficients = new double[linear];
        for (var j = 0; j < linear; j++)
        {
            coefficients[j] = v[j] / found;
        }

        var (excess, background) = read(coefficients);
        return (2 * value, excess, background, 1 / found);
    }

    private double KnownScaleValue(Func<int, double> content)
    {
        var sum = 0.0;
        for (var i = 0; i < Data.Count; i++)
        {
            sum += Loss(_rootWeight[i] * content(i), Data.Censored[i], out _);
        }

        return 2 * sum;
    }

    // The envelope theorem: only the direct dependence on ln D counts at the minimum of the linear part.
    private double SlopeAt(double excess, double background, double scale)
    {
        var sum = 0.0;
        for (var i = 0; i < Data.Count; i++)
        {
            var factor = _rootWeight[i] / scale;
            var u = factor * (Data.Content[i] - background - (excess * Share[i]));
            Loss(u, Data.Censored[i], out var first);
            sum -= 2 * first * factor * excess * ShareSlope[i];
        }

        return sum;
    }

    private double Loss(double u, bool censored, out double first) =>
        ResidualLoss.Value(
            u,
            censored,
            _law == ErrorLaw.Student ? StudentDegrees : null,
            out first,
            out _
        );

    // Start of the linear part: least squares with non-detects at half their limit.
    private (double Excess, double Background, double Scale) Start(double? held)
    {
        double w = 0;
        double s = 0;
        double y = 0;
        for (var i = 0; i < Data.Count; i++)
        {
            w += Data.Weight[i];
            s += Data.Weight[i] * Share[i];
            y += Data.Weight[i] * Substitute(i);
        }

        (s, y) = (s / w, y / w);
        double ss = 0;
        double sy = 0;
        for (var i = 0; i < Data.Count; i++)
        {
            var centred = held is null ? Share[i] - s : Share[i];
            ss += Data.Weight[i] * centred * centred;
            sy += Data.Weight[i] * centred * (Substitute(i) - (held ?? y));
        }

        var excess = ss > 0 ? Math.Max(0, sy / ss) : 0;
        var background = held ?? Math.Max(0, y - (excess * s));
        var sum = 0.0;
        for (var i = 0; i < Data.Count; i++)
        {
            var r = Substitute(i) - background - (excess * Share[i]);
            sum += Data.Weight[i] * r * r;
        }

        return (excess, background, Math.Sqrt(sum / Data.Count));
    }

    private double Substitute(int i) => Data.Censored[i] ? 0.5 * Data.Content[i] : Data.Content[i];
}
