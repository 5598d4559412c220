using System.Runtime.Intrinsics;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>Fits one Vector256 of profiles at once.</summary>
/// <remarks>ProfileFitLanes256.cs is this file with the width in its names replaced (a test holds them equal). Checked by: BatchedProfileFitTests.</remarks>
internal static unsafe class ProfileFitLanes256
{
    /// <summary>Fits the profiles of one vector.</summary>
    /// <param name="slices">What they share.</param>
    /// <param name="content">Contents, shape [slices × lanes]; less the background where it is given.</param>
    /// <param name="isBackgroundFitted">Whether C0 is fitted, at least 0.</param>
    /// <param name="memory">Scratch of 4 (edges + slices) × lanes values.</param>
    /// <param name="amplitude">Cs - C0 [lanes].</param>
    /// <param name="background">C0 [lanes].</param>
    /// <param name="logLength">ln L, L = 2 sqrt(D t) [lanes].</param>
    /// <param name="squares">Weighted sum of squared residuals [lanes].</param>
    /// <param name="gridPoint">The best point of the grid [lanes].</param>
    /// <param name="settled">1 where the search settled, else 0 [lanes].</param>
    /// <param name="rise">By what share of itself the sum of squares may rise within the limits; 0: no limits asked.</param>
    /// <param name="low">Lower limit of ln L [lanes]; negative infinity where there is none within the grid. Untouched where not asked.</param>
    /// <param name="high">Upper limit likewise, positive infinity.</param>
    /// <param name="bounds">
    /// Receives the largest Cs - C0 and minus its least where C0 is given; where it is fitted the largest Cs, minus the least, the largest C0 and
    /// minus the least [4 × lanes]; null: not asked.
    /// </param>
    public static void Fit(
        SliceGeometry slices,
        double* content,
        bool isBackgroundFitted,
        double* memory,
        double* amplitude,
        double* background,
        double* logLength,
        double* squares,
        double* gridPoint,
        double* settled,
        double rise,
        double* low,
        double* high,
        double* bounds
    )
    {
        var y = (Vector256<double>*)content;
        var sumY = Vector256<double>.Zero;
        var sumYy = Vector256<double>.Zero;
        for (var j = 0; j < slices.Count; j++)
        {
            var w = Vector256.Create(slices.Weight[j]) * y[j];
            sumY += w;
            sumYy = Vector256.FusedMultiplyAdd(w, y[j], sumYy);
        }

        var best = Vector256<double>.Zero;
        var least = Vector256.Create(double.PositiveInfinity);
        for (var g = 0; g < SliceGeometry.GridPoints; g++)
        {
            var dot = Vector256<double>.Zero;
            for (var j = 0; j < slices.Count; j++)
            {
                dot = Vector256.FusedMultiplyAdd(
                    Vector256.Create(slices.Grid[(g * slices.Count) + j]),
                    y[j],
                    dot
                );
            }

            Vector256<double> rss;
            if (isBackgroundFitted)
            {
                Linear(
                    slices,
                    true,
                    Vector256.Create(slices.GridSums[2 * g]),
                    Vector256.Create(slices.GridSums[(2 * g) + 1]),
                    sumY,
                    dot,
                    out var a,
                    out var c
                );
                rss = sumYy - (a * dot) - (c * sumY);
            }
            else
            {
                rss = sumYy - (dot * dot * Vector256.Create(slices.GridInverses[g]));
            }

            var better = Vector256.LessThan(rss, least);
            least = Vector256.ConditionalSelect(better, rss, least);
            best = Vector256.ConditionalSelect(better, Vector256.Create((double)g), best);
        }

        Vector256.Store(best, gridPoint);
        var step = Vector256.Create(slices.GridStep);
        var x = Vector256.FusedMultiplyAdd(best, step, Vector256.Create(slices.LowestLog));
        var left = x - step;
        var right = x + step;
        var before = x;
        var slopeBefore = Vector256<double>.Zero;
        var done = Vector256<double>.Zero; // all bits set where settled
        for (var i = 0; i < 80; i++)
        {
            Evaluate(
                slices,
                y,
                isBackgroundFitted,
                sumY,
                x,
                (Vector256<double>*)memory,
                out var slope,
                out var curvature,
                out _,
                out _
            );
            left = Vector256.ConditionalSelect(
                Vector256.LessThan(slope, Vector256<double>.Zero),
                x,
                left
            );
            right = Vector256.ConditionalSelect(
                Vector256.LessThan(slope, Vector256<double>.Zero),
                right,
                x
            );
            var last = Vector256.Create(SliceGeometry.LeastStep);
            if (i >= 2)
            {
                var secant = (slope - slopeBefore) / (x - before);
                var isBowl = Vector256.GreaterThan(secant, Vector256<double>.Zero);
                curvature = Vector256.ConditionalSelect(isBowl, secant, curvature);
                last = Vector256.ConditionalSelect(
                    isBowl,
                    Vector256.Create(SliceGeometry.LastStep),
                    last
                );
            }

            var next = x - (slope / curvature);
            // A not-a-number or a place outside the bracket goes to its middle.
            var inside =
                Vector256.GreaterThanOrEqual(next, left) & Vector256.LessThanOrEqual(next, right);
            next = Vector256.ConditionalSelect(
                inside,
                next,
                Vector256.Create(0.5) * (left + right)
            );
            last = Vector256.ConditionalSelect(
                inside,
                last,
                Vector256.Create(SliceGeometry.LeastStep)
            );
            var near = Vector256.LessThanOrEqual(Vector256.Abs(next - x), last);
            before = x;
            slopeBefore = slope;
            x = Vector256.ConditionalSelect(done, x, next);
            done |= near;
            if (Vector256.EqualsAll(done.AsInt64(), Vector256<long>.AllBitsSet))
            {
                break;
            }
        }

        Evaluate(
            slices,
            y,
            isBackgroundFitted,
            sumY,
            x,
            (Vector256<double>*)memory,
            out _,
            out var bend,
            out var scale,
            out var level
        );
        var share = (Vector256<double>*)memory + (2 * slices.Edges.Length);
        var sum = Squares(slices, y, share, scale, level);
        if (rise > 0)
        {
            var limit = new Limit(sum, Vector256.Create(rise) * sum, x, bend);
            Vector256.Store(
                Side(slices, y, isBackgroundFitted, sumY, (Vector256<double>*)memory, limit, -1),
                low
            );
            Vector256.Store(
                Side(slices, y, isBackgroundFitted, sumY, (Vector256<double>*)memory, limit, 1),
                high
            );
            if (bounds != null)
            {
                Extremes(
                    slices,
                    y,
                    isBackgroundFitted,
                    sumY,
                    (Vector256<double>*)memory,
                    sum + limit.Cut,
                    Vector256.Load(low),
                    Vector256.Load(high),
                    (Vector256<double>*)bounds
                );
            }
        }

        Vector256.Store(scale, amplitude);
        Vector256.Store(level, background);
        Vector256.Store(x, logLength);
        Vector256.Store(sum, squares);
        Vector256.Store(
            Vector256.ConditionalSelect(done, Vector256<double>.One, Vector256<double>.Zero),
            settled
        );
    }

    private static Vector256<double> Squares(
        SliceGeometry slices,
        Vector256<double>* y,
        Vector256<double>* share,
        Vector256<double> scale,
        Vector256<double> level
    )
    {
        var sum = Vector256<double>.Zero;
        for (var j = 0; j < slices.Count; j++)
        {
            var residual = y[j] - level - (scale * share[j]);
            sum = Vector256.FusedMultiplyAdd(
                Vector256.Create(slices.Weight[j]) * residual,
                residual,
                sum
            );
        }

        return sum;
    }

    // Where the least sum of squares for a given ln L has risen by the cut, on one side: a safeguarded Newton search on the root of the
    // rise, which is nearly a straight line, within the grid's end and the best fit.
    private static Vector256<double> Side(
        SliceGeometry slices,
        Vector256<double>* y,
        bool isBackgroundFitted,
        Vector256<double> sumY,
        Vector256<double>* memory,
        in Limit limit,
        double sign
    )
    {
        var share = memory + (2 * slices.Edges.Length);
        var end = Vector256.Create(
            sign < 0
                ? slices.LowestLog
                : slices.LowestLog + ((SliceGeometry.GridPoints - 1) * slices.GridStep)
        );
        Evaluate(
            slices,
            y,
            isBackgroundFitted,
            sumY,
            end,
            memory,
            out _,
            out _,
            out var scale,
            out var level
        );
        var target = Vector256.Sqrt(limit.Cut);
        var done = Vector256.LessThanOrEqual(
            Squares(slices, y, share, scale, level) - limit.Least,
            limit.Cut
        );
        var found = Vector256.ConditionalSelect(
            done,
            Vector256.Create(sign * double.PositiveInfinity),
            end
        );
        var inner = limit.Best;
        var outer = end;
        var x = Vector256.FusedMultiplyAdd(
            Vector256.Create(sign),
            Vector256.Sqrt(limit.Cut / limit.Curvature),
            limit.Best
        );
        for (var i = 0; i < 80; i++)
        {
            // A not-a-number or a place outside the bracket goes to its middle.
            var inside =
                Vector256.LessThan(Vector256.Abs(x - inner), Vector256.Abs(outer - inner))
                & Vector256.LessThan(Vector256.Abs(x - outer), Vector256.Abs(outer - inner));
            x = Vector256.ConditionalSelect(inside, x, Vector256.Create(0.5) * (inner + outer));
            Evaluate(
                slices,
                y,
                isBackgroundFitted,
                sumY,
                x,
                memory,
                out var slope,
                out _,
                out scale,
                out level
            );
            var risen = Vector256.Max(
                Squares(slices, y, share, scale, level) - limit.Least,
                Vector256<double>.Zero
            );
            var isWithin = Vector256.LessThanOrEqual(risen, limit.Cut);
            inner = Vector256.ConditionalSelect(isWithin, x, inner);
            outer = Vector256.ConditionalSelect(isWithin, outer, x);
            var root = Vector256.Sqrt(risen);
            var next = x - ((root - target) * root / slope);
            var isLast =
                Vector256.LessThanOrEqual(
                    Vector256.Abs(next - x),
                    Vector256.Create(SliceGeometry.LastNewtonStep)
                )
                & Vector256.LessThanOrEqual(
                    Vector256.Abs(next - inner) + Vector256.Abs(next - outer),
                    Vector256.Abs(outer - inner)
                );
            var near =
                isLast
                | Vector256.LessThanOrEqual(Vector256.Abs(next - x), Vector256.Create(1e-12))
                | Vector256.LessThanOrEqual(Vector256.Abs(outer - inner), Vector256.Create(1e-12));
            found = Vector256.ConditionalSelect(
                done,
                found,
                Vector256.ConditionalSelect(isLast, next, x)
            );
            done |= near;
            x = next;
            if (Vector256.EqualsAll(done.AsInt64(), Vector256<long>.AllBitsSet))
            {
                break;
            }
        }

        return found;
    }

    private readonly struct Limit(
        Vector256<double> least,
        Vector256<double> cut,
        Vector256<double> best,
        Vector256<double> curvature
    )
    {
        public readonly Vector256<double> Least = least;
        public readonly Vector256<double> Cut = cut;
        public readonly Vector256<double> Best = best;
        public readonly Vector256<double> Curvature = curvature;
    }

    // For each parameter the largest and least value within the region where the sum of squares has risen by at most the cut. For a given ln L the
    // region is an ellipse in C0 and Cs, cut off at C0 = 0, so its extremes are in closed form; over ln L they are searched between the
    // limits of ln L, by parabolas in t with x = middle + radius (3 t - t³)/2, in which the region closes smoothly at both ends.
    private static void Extremes(
        SliceGeometry slices,
        Vector256<double>* y,
        bool isBackgroundFitted,
        Vector256<double> sumY,
        Vector256<double>* memory,
        Vector256<double> most,
        Vector256<double> low,
        Vector256<double> high,
        Vector256<double>* bounds
    )
    {
        var least = Vector256.Create(double.NegativeInfinity);
        var first = Vector256.Max(low, Vector256.Create(slices.LowestLog));
        var last = Vector256.Min(high, Vector256.Create(slices.HighestLog));
        var middle = Vector256.Create(0.5) * (first + last);
        var radius = Vector256.Create(0.5) * (last - first);
        var count = isBackgroundFitted ? 4 : 2;
        var found = stackalloc Vector256<double>[4];
        var best = stackalloc Vector256<double>[4];
        var place = stackalloc Vector256<double>[4];
        for (var o = 0; o < count; o++)
        {
            best[o] = least;
            place[o] = Vector256<double>.Zero;
        }

        for (var k = -4; k <= 4; k++)
        {
            var t = Vector256.Create(0.2 * k);
            At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t, found);
            for (var o = 0; o < count; o++)
            {
                var better = Vector256.GreaterThan(found[o], best[o]);
                best[o] = Vector256.ConditionalSelect(better, found[o], best[o]);
                place[o] = Vector256.ConditionalSelect(better, t, place[o]);
            }
        }

        for (var o = 0; o < count; o++)
        {
            var t = place[o];
            foreach (var step in SliceGeometry.ExtremeSteps)
            {
                var h = Vector256.Create(step);
                var end = Vector256.Create(1 - step);
                t = Vector256.Max(Vector256.Min(t, end), -end);
                At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t - h, found);
                var left = found[o];
                At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t + h, found);
                var right = found[o];
                At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t, found);
                var bend = left - found[o] - found[o] + right;
                var move = Vector256.Create(0.5) * (left - right) / bend;
                // Without a bend downwards (or with a place outside the region) one step to the better side.
                var isBowl =
                    Vector256.LessThan(bend, Vector256<double>.Zero)
                    & Vector256.LessThanOrEqual(Vector256.Abs(move), Vector256<double>.One);
                var side = Vector256.ConditionalSelect(
                    Vector256.GreaterThan(right, left),
                    Vector256<double>.One,
                    -Vector256<double>.One
                );
                t = Vector256.FusedMultiplyAdd(
                    h,
                    Vector256.ConditionalSelect(isBowl, move, side),
                    t
                );
            }

            At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t, found);
            var isOpen =
                (
                    Vector256.GreaterThan(t, Vector256.Create(SliceGeometry.AtTheEnd))
                    & Vector256.Equals(high, Vector256.Create(double.PositiveInfinity))
                )
                | (
                    Vector256.LessThan(t, Vector256.Create(-SliceGeometry.AtTheEnd))
                    & Vector256.Equals(low, least)
                );
            bounds[o] = Vector256.ConditionalSelect(
                isOpen,
                Vector256.Create(double.PositiveInfinity),
                Vector256.Max(found[o], best[o])
            );
        }
    }

    // At one place: the largest Cs, minus the least Cs, the largest C0, minus the least C0; negative infinity outside the region.
    private static void At(
        SliceGeometry slices,
        Vector256<double>* y,
        bool isBackgroundFitted,
        Vector256<double> sumY,
        Vector256<double>* memory,
        Vector256<double> most,
        Vector256<double> middle,
        Vector256<double> radius,
        Vector256<double> t,
        Vector256<double>* found
    )
    {
        var zero = Vector256<double>.Zero;
        var outside = Vector256.Create(double.NegativeInfinity);
        var slack = Vector256.Create(-SliceGeometry.Slack) * most;
        var x = middle + (radius * Vector256.Create(0.5) * t * (Vector256.Create(3.0) - (t * t)));
        Evaluate(slices, y, isBackgroundFitted, sumY, x, memory, out _, out _, out _, out _);
        var share = memory + (2 * slices.Edges.Length);
        var sumShare = zero;
        var sumShares = zero;
        var contentShare = zero;
        for (var j = 0; j < slices.Count; j++)
        {
            var weighted = Vector256.Create(slices.Weight[j]) * share[j];
            sumShare += weighted;
            sumShares = Vector256.FusedMultiplyAdd(weighted, share[j], sumShares);
            contentShare = Vector256.FusedMultiplyAdd(weighted, y[j], contentShare);
        }

        var alone = contentShare / sumShares;
        var aloneRoom = most - Squares(slices, y, share, alone, zero);
        var aloneHalf = Vector256.Sqrt(Vector256.Max(aloneRoom, zero) / sumShares);
        var isIn = Vector256.GreaterThanOrEqual(aloneRoom, slack);
        var aloneHigh = Vector256.ConditionalSelect(isIn, alone + aloneHalf, outside);
        var aloneLow = Vector256.ConditionalSelect(isIn, aloneHalf - alone, outside);
        if (!isBackgroundFitted)
        {
            found[0] = aloneHigh;
            found[1] = aloneLow;
            return;
        }

        var count = Vector256.Create(slices.WeightSum);
        var determinant = (count * sumShares) - (sumShare * sumShare);
        var scale = ((count * contentShare) - (sumShare * sumY)) / determinant;
        var level = (sumY - (scale * sumShare)) / count;
        var room = most - Squares(slices, y, share, scale, level);
        isIn = Vector256.GreaterThanOrEqual(room, slack);
        room = Vector256.Max(room, zero);
        var variance = (sumShares - sumShare - sumShare + count) / determinant;
        var along = Vector256.Sqrt(room / variance);
        var half = along * variance;
        var shift = along * (sumShares - sumShare) / determinant;
        found[0] = Vector256.ConditionalSelect(
            isIn & Vector256.GreaterThanOrEqual(level + shift, zero),
            scale + level + half,
            aloneHigh
        );
        found[1] = Vector256.ConditionalSelect(
            isIn & Vector256.GreaterThanOrEqual(level - shift, zero),
            half - scale - level,
            aloneLow
        );
        var levelHalf = Vector256.Sqrt(room * sumShares / determinant);
        isIn &= Vector256.GreaterThanOrEqual(level + levelHalf, zero);
        found[2] = Vector256.ConditionalSelect(isIn, level + levelHalf, outside);
        found[3] = Vector256.ConditionalSelect(
            isIn,
            Vector256.Min(levelHalf - level, zero),
            outside
        );
    }

    // Half the slope of the sum of squares in ln L, its Gauss-Newton curvature, and the linear part.
    private static void Evaluate(
        SliceGeometry slices,
        Vector256<double>* y,
        bool isBackgroundFitted,
        Vector256<double> sumY,
        Vector256<double> logLength,
        Vector256<double>* memory,
        out Vector256<double> slope,
        out Vector256<double> curvature,
        out Vector256<double> amplitude,
        out Vector256<double> background
    )
    {
        var edges = slices.Edges.Length;
        var integral = memory;
        var gauss = memory + edges;
        var share = gauss + edges;
        var rise = share + slices.Count;
        var length = LaneMath256.Exp(logLength);
        var inverse = Vector256<double>.One / length;
        var root = Vector256.Create(SliceGeometry.InverseRootPi);
        for (var e = 0; e < edges; e++)
        {
            if (slices.Edges[e] == 0)
            {
                gauss[e] = root * length;
                integral[e] = gauss[e];
                continue;
            }

            var z = Vector256.Create(slices.Edges[e]) * inverse;
            var at = LaneMath256.Exp(-(z * z));
            gauss[e] = at * root * length;
            integral[e] =
                at * length * Vector256.FusedMultiplyAdd(-z, LaneMath256.ScaledErfc(z), root);
        }

        var sumShare = Vector256<double>.Zero;
        var sumShares = Vector256<double>.Zero;
        var sumRise = Vector256<double>.Zero;
        var sumRises = Vector256<double>.Zero;
        var cross = Vector256<double>.Zero;
        var contentShare = Vector256<double>.Zero;
        var contentRise = Vector256<double>.Zero;
        for (var j = 0; j < slices.Count; j++)
        {
            var width = Vector256.Create(slices.InverseWidth[j]);
            var p = (integral[slices.Top[j]] - integral[slices.Bottom[j]]) * width;
            var r = (gauss[slices.Top[j]] - gauss[slices.Bottom[j]]) * width;
            if (slices.InverseWidth[j] == 0)
            {
                // A point: erfc z and 2 z exp(-z²)/sqrt(π).
                var z = Vector256.Create(slices.Edges[slices.Top[j]]) * inverse;
                var at = LaneMath256.Exp(-(z * z));
                p = at * LaneMath256.ScaledErfc(z);
                r = Vector256.Create(2.0) * root * z * at;
            }

            share[j] = p;
            rise[j] = r;
            var w = Vector256.Create(slices.Weight[j]);
            var wp = w * p;
            var wr = w * r;
            sumShare += wp;
            sumRise += wr;
            sumShares = Vector256.FusedMultiplyAdd(wp, p, sumShares);
            sumRises = Vector256.FusedMultiplyAdd(wr, r, sumRises);
            cross = Vector256.FusedMultiplyAdd(wp, r, cross);
            contentShare = Vector256.FusedMultiplyAdd(wp, y[j], contentShare);
            contentRise = Vector256.FusedMultiplyAdd(wr, y[j], contentRise);
        }

        Linear(
            slices,
            isBackgroundFitted,
            sumShare,
            sumShares,
            sumY,
            contentShare,
            out amplitude,
            out background
        );
        slope = -amplitude * (contentRise - (amplitude * cross) - (background * sumRise));
        curvature = amplitude * amplitude * (sumRises - (cross * cross / sumShares));
    }

    // Least squares of amplitude and background for given shares; a negative background becomes 0.
    private static void Linear(
        SliceGeometry slices,
        bool isBackgroundFitted,
        Vector256<double> sumShare,
        Vector256<double> sumShares,
        Vector256<double> sumY,
        Vector256<double> contentShare,
        out Vector256<double> amplitude,
        out Vector256<double> background
    )
    {
        amplitude = contentShare / sumShares;
        background = Vector256<double>.Zero;
        if (!isBackgroundFitted)
        {
            return;
        }

        var count = Vector256.Create(slices.WeightSum);
        var determinant = (count * sumShares) - (sumShare * sumShare);
        var both = ((count * contentShare) - (sumShare * sumY)) / determinant;
        var level = (sumY - (both * sumShare)) / count;
        var isFree = Vector256.GreaterThan(level, Vector256<double>.Zero);
        amplitude = Vector256.ConditionalSelect(isFree, both, amplitude);
        background = Vector256.ConditionalSelect(isFree, level, background);
    }
}
