using DeckLife.Numerics.LeastSquares;

namespace DeckLife.Fitting;

/// <summary>Limits by profile likelihood: all values of a parameter that some fit within the cut agrees with.</summary>
internal sealed class ProfileLimits
{
    private const int Scan = 17;
    private readonly ProfileSearch _search;
    private readonly double _threshold;

    /// <summary>Prepares the limits of one fit.</summary>
    /// <param name="search">The fit.</param>
    /// <param name="threshold">The value of the objective up to which the set reaches.</param>
    public ProfileLimits(ProfileSearch search, double threshold)
    {
        _search = search;
        _threshold = threshold;
        LnDiffusionLow = Crossing(upper: false);
        LnDiffusionHigh = Crossing(upper: true);
    }

    /// <summary>Lower limit of ln D; absent when it lies beyond the search interval.</summary>
    public double? LnDiffusionLow { get; }

    /// <summary>Upper limit of ln D; absent when it lies beyond the search interval.</summary>
    public double? LnDiffusionHigh { get; }

    /// <summary>A limit of a linear parameter; absent when it is not bounded within the search interval of D.</summary>
    /// <remarks>
    /// For each ln D within the cut the set of the parameter is known in closed form; its outermost end over all of them is
    /// the limit. No nested refitting.
    /// </remarks>
    public double? Of(ProfileParameter which, bool upper)
    {
        var low = LnDiffusionLow ?? _search.Grid[0].LnDiffusion;
        var high = LnDiffusionHigh ?? _search.Grid[^1].LnDiffusion;
        var sign = upper ? 1 : -1;
        double At(double x) =>
            _search.Objective.End(x, which, upper, _threshold) is { } end
                ? sign * end
                : double.NegativeInfinity;

        var best = _search.Best.LnDiffusion;
        var centre =
            which == ProfileParameter.Surface ? _search.Best.Surface : _search.Best.Background;
        var bestX = best;
        var bestValue = Math.Max(At(best), sign * centre);
        var step = (high - low) / (Scan - 1);
        for (var i = 0; i < Scan; i++)
        {
            var x = low + (step * i);
            var value = At(x);
            if (value > bestValue)
            {
                (bestX, bestValue) = (x, value);
            }
        }

        if (double.IsInfinity(bestValue))
        {
            return null;
        }

        var left = Math.Max(low, bestX - step);
        var right = Math.Min(high, bestX + step);
        var (peakX, peak) = Largest(At, left, right, bestX, bestValue);
        var atOpenEnd =
            (LnDiffusionLow is null && peakX - low < 1e-3)
            || (LnDiffusionHigh is null && high - peakX < 1e-3);
        // At an open end the set goes on beyond the interval, unless it has met the bound 0 there.
        return double.IsInfinity(peak) || (atOpenEnd && peak != 0) ? null : sign * peak;
    }

    // The outermost point within the threshold on one side, searched from the far end of the grid.
    private double? Crossing(bool upper)
    {
        var grid = _search.Grid;
        var objective = _search.Objective;
        var best = _search.Best;
        double Above(double x) => objective.At(x).Objective - _threshold;
        var direction = upper ? -1 : 1;
        var outer = upper ? grid[^1] : grid[0];
        if (outer.Objective <= _threshold)
        {
            return null;
        }

        for (var i = upper ? grid.Length - 2 : 1; i >= 0 && i < grid.Length; i += direction)
        {
            var inner = grid[i];
            var passed = upper
                ? inner.LnDiffusion <= best.LnDiffusion
                : inner.LnDiffusion >= best.LnDiffusion;
            if (passed)
            {
                inner = best;
            }

            if (passed || inner.Objective <= _threshold)
            {
                return BracketedZero.Find(
                    Above,
                    inner.LnDiffusion,
                    outer.LnDiffusion,
                    Math.Min(inner.Objective - _threshold, -double.Epsilon),
                    outer.Objective - _threshold,
                    1e-11
                );
            }

            outer = inner;
        }

        return best.LnDiffusion;
    }

    // Golden-section search for the largest value: flat there, so that 1e-4 in ln D leaves about 1e-8 of the value.
    private static (double X, double Value) Largest(
        Func<double, double> function,
        double left,
        double right,
        double startX,
        double startValue
    )
    {
        const double Golden = 0.618033988749894848;
        var (bestX, bestValue) = (startX, startValue);
        var a = right - (Golden * (right - left));
        var b = left + (Golden * (right - left));
        var (fa, fb) = (function(a), function(b));
        for (var i = 0; i < 44 && right - left > 1e-4; i++)
        {
            if (fa > fb)
            {
                (right, b, fb) = (b, a, fa);
                a = right - (Golden * (right - left));
                fa = function(a);
            }
            else
            {
                (left, a, fa) = (a, b, fb);
                b = left + (Golden * (right - left));
                fb = function(b);
            }
        }

        foreach (var (x, f) in new[] { (a, fa), (b, fb) })
        {
            if (f > bestValue)
            {
                (bestX, bestValue) = (x, f);
            }
        }

        return (bestX, bestValue);
    }
}
