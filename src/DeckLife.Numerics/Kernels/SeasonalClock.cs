using DeckLife.Numerics.Quadrature;

namespace DeckLife.Numerics.Kernels;

/// <summary>What a seasonal factor makes of a layer's clock within one phase, for every ageing exponent that its samples may have.</summary>
/// <remarks>
/// Equation: ∫ a^-m k dt over a span of age a = ∫ k du / (1 - m), u = a^(1-m): smooth however young the layer is. Gauss-Legendre with eight
/// points on each span, at Chebyshev points of m; between those the ratio to the clock without seasons is read by their polynomial.
/// Accuracy: 1e-7 of the clock. Checked by: SeasonalClockTests.
/// </remarks>
internal sealed class SeasonalClock
{
    /// <summary>Number of exponents at which the clock is tabulated; the first is 0.</summary>
    public const int Exponents = 12;

    // The largest ageing exponent that a layer may have.
    private const double Largest = 0.99;

    private static readonly double[] Exponent =
    [
        .. Enumerable
            .Range(0, Exponents)
            .Select(j => 0.5 * Largest * (1 - Math.Cos(Math.PI * j / (Exponents - 1)))),
    ];

    private readonly SeasonalFactor _season;
    private readonly double _startYr;
    private readonly double _ageYr;
    private readonly double _capYr;
    private readonly double[] _ends;
    private readonly double[] _table;
    private readonly double _evenScale;

    /// <summary>Tabulates the clock over a phase.</summary>
    /// <param name="season">The factor.</param>
    /// <param name="startYr">Time of the phase's start [yr].</param>
    /// <param name="durationYr">Length of the phase [yr].</param>
    /// <param name="ageYr">The layer's age at the phase's start [yr].</param>
    /// <param name="constantAfterYr">Age after which D doesn't fall any more [yr].</param>
    public SeasonalClock(
        SeasonalFactor season,
        double startYr,
        double durationYr,
        double ageYr,
        double constantAfterYr
    )
    {
        _season = season;
        _startYr = startYr;
        _ageYr = ageYr;
        _capYr = constantAfterYr;
        var ends = new List<double> { 0 };
        var span = season.SmoothSpanYr;
        for (var k = Math.Floor(startYr / span) + 1; ends[^1] < durationYr; k++)
        {
            var next = Math.Min((k * span) - startYr, durationYr);
            var cap = constantAfterYr - ageYr;
            if (cap > ends[^1] && cap < next)
            {
                ends.Add(cap);
            }

            if (next > ends[^1])
            {
                ends.Add(next);
            }
        }

        _ends = [.. ends];
        _table = new double[_ends.Length * Exponents];
        for (var s = 1; s < _ends.Length; s++)
        {
            for (var j = 0; j < Exponents; j++)
            {
                _table[(s * Exponents) + j] =
                    _table[((s - 1) * Exponents) + j] + Piece(Exponent[j], _ends[s - 1], _ends[s]);
            }
        }

        _evenScale = durationYr / _table[^Exponents];
    }

    /// <summary>
    /// The time that runs as the clock does: ∫ k dt, scaled to the phase's length. Contents are smooth in it; in plain time they follow the year.
    /// </summary>
    /// <param name="timeYr">Time since the phase's start [yr].</param>
    public double EvenTime(double timeYr)
    {
        var span = Span(s => _ends[s] <= timeYr);
        var even = _evenScale * (_table[span * Exponents] + Piece(0, _ends[span], timeYr));
        return Math.Min(even, _ends[^1]);
    }

    /// <summary>The time since the phase's start at which <see cref="EvenTime"/> has a value [yr].</summary>
    /// <param name="evenYr">Even time, from 0 to the phase's length [yr].</param>
    public double TimeAt(double evenYr)
    {
        var wanted = evenYr / _evenScale;
        var span = Span(s => _table[s * Exponents] <= wanted);
        var (from, to) = (_ends[span], _ends[span + 1]);
        wanted -= _table[span * Exponents];
        // Newton's steps on a rising function of slope k; a span holds little curvature.
        var time = from;
        for (var pass = 0; pass < 20; pass++)
        {
            var step = (wanted - Piece(0, from, time)) / _season.At(_startYr + time);
            time = Math.Clamp(time + step, from, to);
            if (Math.Abs(step) <= 1e-14 * to)
            {
                break;
            }
        }

        return time;
    }

    // The last span whose start is still so.
    private int Span(Func<int, bool> starts)
    {
        var (low, high) = (0, _ends.Length - 1);
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            (low, high) = starts(middle) ? (middle, high) : (low, middle);
        }

        return low;
    }

    /// <summary>The clock from the phase's start on, over the same without seasons.</summary>
    /// <param name="timesYr">Rising times since the phase's start, the first 0 [yr].</param>
    /// <returns>Ratios [times × exponents]; 1 at the start.</returns>
    public double[] Ratios(ReadOnlySpan<double> timesYr)
    {
        var ratios = new double[timesYr.Length * Exponents];
        var span = 0;
        for (var k = 0; k < timesYr.Length; k++)
        {
            while (span < _ends.Length - 2 && _ends[span + 1] <= timesYr[k])
            {
                span++;
            }

            for (var j = 0; j < Exponents; j++)
            {
                var plain = Power(Exponent[j], _ageYr + timesYr[k]) - Power(Exponent[j], _ageYr);
                ratios[(k * Exponents) + j] =
                    plain > 0
                        ? (
                            _table[(span * Exponents) + j]
                            + Piece(Exponent[j], _ends[span], timesYr[k])
                        ) / plain
                        : 1;
            }
        }

        return ratios;
    }

    /// <summary>The weights of the tabulated exponents for an exponent between them (Lagrange).</summary>
    /// <param name="exponent">The ageing exponent, from 0 to 0.99.</param>
    /// <param name="weights">Receives the weights, one an exponent, each <paramref name="stride"/> behind the one before.</param>
    /// <param name="stride">Distance of the weights.</param>
    public static void Weigh(double exponent, Span<double> weights, int stride)
    {
        for (var j = 0; j < Exponents; j++)
        {
            var weight = 1.0;
            for (var i = 0; i < Exponents; i++)
            {
                if (i != j)
                {
                    weight *= (exponent - Exponent[i]) / (Exponent[j] - Exponent[i]);
                }
            }

            weights[j * stride] = weight;
        }
    }

    // a^(1-m), continued as a straight line beyond the age after which D is constant.
    private double Power(double m, double age) =>
        age <= _capYr
            ? Math.Pow(age, 1 - m)
            : Math.Pow(_capYr, 1 - m) * (1 + ((1 - m) * (age - _capYr) / _capYr));

    // (1 - m) ∫ a^-m k dt between two times of one span.
    private double Piece(double m, double from, double to)
    {
        if (!(to > from))
        {
            return 0;
        }

        var nodes = GaussLegendre.Eight.Nodes;
        var weights = GaussLegendre.Eight.Weights;
        // Spans end at the cap, give or take a rounding.
        var isStraight = _ageYr + (0.5 * (from + to)) > _capYr;
        var low = isStraight ? from : Math.Pow(_ageYr + from, 1 - m);
        var high = isStraight ? to : Math.Pow(_ageYr + to, 1 - m);
        var sum = 0.0;
        for (var i = 0; i < nodes.Length; i++)
        {
            var u = (0.5 * (low + high)) + (0.5 * (high - low) * nodes[i]);
            var time = isStraight ? u : Math.Pow(u, 1 / (1 - m)) - _ageYr;
            sum += weights[i] * _season.At(_startYr + Math.Clamp(time, from, to));
        }

        return 0.5 * (high - low) * sum * (isStraight ? (1 - m) * Math.Pow(_capYr, -m) : 1);
    }
}
