using System.Runtime.Intrinsics;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>Fits one Vector512 of profiles at once.</summary>
/// <remarks>ProfileFitLanes256.cs is this file with the width in its names replaced (a test holds them equal). Checked by: BatchedProfileFitTests.</remarks>
internal static unsafe class ProfileFitLanes512
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
        var y = (Vector512<double>*)content;
        var sumY = Vector512<double>.Zero;
        var sumYy = Vector512<double>.Zero;
        for (var j = 0; j < slices.Count; j++)
        {
            var w = Vector512.Create(slices.Weight[j]) * y[j];
            sumY += w;
            sumYy = Vector512.FusedMultiplyAdd(w, y[j], sumYy);
        }

        var best = Vector512<double>.Zero;
        var least = Vector512.Create(double.PositiveInfinity);
        for (var g = 0; g < SliceGeometry.GridPoints; g++)
        {
            var dot = Vector512<double>.Zero;
            for (var j = 0; j < slices.Count; j++)
            {
                dot = Vector512.FusedMultiplyAdd(
                    Vector512.Create(slices.Grid[(g * slices.Count) + j]),
                    y[j],
                    dot
                );
            }

            Vector512<double> rss;
            if (isBackgroundFitted)
            {
                Linear(
                    slices,
                    true,
                    Vector512.Create(slices.GridSums[2 * g]),
                    Vector512.Create(slices.GridSums[(2 * g) + 1]),
                    sumY,
                    dot,
                    out var a,
                    out var c
                );
                rss = sumYy - (a * dot) - (c * sumY);
            }
            else
            {
                rss = sumYy - (dot * dot * Vector512.Create(slices.GridInverses[g]));
            }

            var better = Vector512.LessThan(rss, least);
            least = Vector512.ConditionalSelect(better, rss, least);
            best = Vector512.ConditionalSelect(better, Vector512.Create((double)g), best);
        }

        Vector512.Store(best, gridPoint);
        var step = Vector512.Create(slices.GridStep);
        var x = Vector512.FusedMultiplyAdd(best, step, Vector512.Create(slices.LowestLog));
        var left = x - step;
        var right = x + step;
        var before = x;
        var slopeBefore = Vector512<double>.Zero;
        var done = Vector512<double>.Zero; // all bits set where settled
        for (var i = 0; i < 80; i++)
        {
            Evaluate(
                slices,
                y,
                isBackgroundFitted,
                sumY,
                x,
                (Vector512<double>*)memory,
                out var slope,
                out var curvature,
                out _,
                out _
            );
            left = Vector512.ConditionalSelect(
                Vector512.LessThan(slope, Vector512<double>.Zero),
                x,
                left
            );
            right = Vector512.ConditionalSelect(
                Vector512.LessThan(slope, Vector512<double>.Zero),
                right,
                x
            );
            var last = Vector512.Create(SliceGeometry.LeastStep);
            if (i >= 2)
            {
                var secant = (slope - slopeBefore) / (x - before);
                var isBowl = Vector512.GreaterThan(secant, Vector512<double>.Zero);
                curvature = Vector512.ConditionalSelect(isBowl, secant, curvature);
                last = Vector512.ConditionalSelect(
                    isBowl,
                    Vector512.Create(SliceGeometry.LastStep),
                    last
                );
            }

            var next = x - (slope / curvature);
            // A not-a-number or a place outside the bracket goes to its middle.
            var inside =
                Vector512.GreaterThanOrEqual(next, left) & Vector512.LessThanOrEqual(next, right);
            next = Vector512.ConditionalSelect(
                inside,
                next,
                Vector512.Create(0.5) * (left + right)
            );
            last = Vector512.ConditionalSelect(
                inside,
                last,
                Vector512.Create(SliceGeometry.LeastStep)
            );
            var near = Vector512.LessThanOrEqual(Vector512.Abs(next - x), last);
            before = x;
            slopeBefore = slope;
            x = Vector512.ConditionalSelect(done, x, next);
            done |= near;
            if (Vector512.EqualsAll(done.AsInt64(), Vector512<long>.AllBitsSet))
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
            (Vector512<double>*)memory,
            out _,
            out var bend,
            out var scale,
            out var level
        );
        var share = (Vector512<double>*)memory + (2 * slices.Edges.Length);
        var sum = Squares(slices, y, share, scale, level);
        if (rise > 0)
        {
            var limit = new Limit(sum, Vector512.Create(rise) * sum, x, bend);
            Vector512.Store(
                Side(slices, y, isBackgroundFitted, sumY, (Vector512<double>*)memory, limit, -1),
                low
            );
            Vector512.Store(
                Side(slices, y, isBackgroundFitted, sumY, (Vector512<double>*)memory, limit, 1),
                high
            );
            if (bounds != null)
            {
                Extremes(
                    slices,
                    y,
                    isBackgroundFitted,
                    sumY,
                    (Vector512<double>*)memory,
                    sum + limit.Cut,
                    Vector512.Load(low),
                    Vector512.Load(high),
                    (Vector512<double>*)bounds
                );
            }
        }

        Vector512.Store(scale, amplitude);
        Vector512.Store(level, background);
        Vector512.Store(x, logLength);
        Vector512.Store(sum, squares);
        Vector512.Store(
            Vector512.ConditionalSelect(done, Vector512<double>.One, Vector512<double>.Zero),
            settled
        );
    }

    private static Vector512<double> Squares(
        SliceGeometry slices,
        Vector512<double>* y,
        Vector512<double>* share,
        Vector512<double> scale,
        Vector512<double> level
    )
    {
        var sum = Vector512<double>.Zero;
        for (var j = 0; j < slices.Count; j++)
        {
            var residual = y[j] - level - (scale * share[j]);
            sum = Vector512.FusedMultiplyAdd(
                Vector512.Create(slices.Weight[j]) * residual,
                residual,
                sum
            );
        }

        return sum;
    }

    // Where the least sum of squares for a given ln L has risen by the cut, on one side: a safeguarded Newton search on the root of the
    // rise, which is nearly a straight line, within the grid's end and the best fit.
    private static Vector512<double> Side(
        SliceGeometry slices,
        Vector512<double>* y,
        bool isBackgroundFitted,
        Vector512<double> sumY,
        Vector512<double>* memory,
        in Limit limit,
        double sign
    )
    {
        var share = memory + (2 * slices.Edges.Length);
        var end = Vector512.Create(
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
        var target = Vector512.Sqrt(limit.Cut);
        var done = Vector512.LessThanOrEqual(
            Squares(slices, y, share, scale, level) - limit.Least,
            limit.Cut
        );
        var found = Vector512.ConditionalSelect(
            done,
            Vector512.Create(sign * double.PositiveInfinity),
            end
        );
        var inner = limit.Best;
        var outer = end;
        var x = Vector512.FusedMultiplyAdd(
            Vector512.Create(sign),
            Vector512.Sqrt(limit.Cut / limit.Curvature),
            limit.Best
        );
        for (var i = 0; i < 80; i++)
        {
            // A not-a-number or a place outside the bracket goes to its middle.
            var inside =
                Vector512.LessThan(Vector512.Abs(x - inner), Vector512.Abs(outer - inner))
                & Vector512.LessThan(Vector512.Abs(x - outer), Vector512.Abs(outer - inner));
            x = Vector512.ConditionalSelect(inside, x, Vector512.Create(0.5) * (inner + outer));
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
            var risen = Vector512.Max(
                Squares(slices, y, share, scale, level) - limit.Least,
                Vector512<double>.Zero
            );
            var isWithin = Vector512.LessThanOrEqual(risen, limit.Cut);
            inner = Vector512.ConditionalSelect(isWithin, x, inner);
            outer = Vector512.ConditionalSelect(isWithin, outer, x);
            var root = Vector512.Sqrt(risen);
            var next = x - ((root - target) * root / slope);
            var isLast =
                Vector512.LessThanOrEqual(
                    Vector512.Abs(next - x),
                    Vector512.Create(SliceGeometry.LastNewtonStep)
                )
                & Vector512.LessThanOrEqual(
                    Vector512.Abs(next - inner) + Vector512.Abs(next - outer),
                    Vector512.Abs(outer - inner)
                );
            var near =
                isLast
                | Vector512.LessThanOrEqual(Vector512.Abs(next - x), Vector512.Create(1e-12))
                | Vector512.LessThanOrEqual(Vector512.Abs(outer - inner), Vector512.Create(1e-12));
            found = Vector512.ConditionalSelect(
                done,
                found,
                Vector512.ConditionalSelect(isLast, next, x)
            );
            done |= near;
            x = next;
            if (Vector512.EqualsAll(done.AsInt64(), Vector512<long>.AllBitsSet))
            {
                break;
            }
        }

        return found;
    }

    private readonly struct Limit(
        Vector512<double> least,
        Vector512<double> cut,
        Vector512<double> best,
        Vector512<double> curvature
    )
    {
        public readonly Vector512<double> Least = least;
        public readonly Vector512<double> Cut = cut;
        public readonly Vector512<double> Best = best;
        public readonly Vector512<double> Curvature = curvature;
    }

    // For each parameter the largest and least value within the region where the sum of squares has risen by at most the cut. For a given ln L the
    // region is an ellipse in C0 and Cs, cut off at C0 = 0, so its extremes are in closed form; over ln L they are searched between the
    // limits of ln L, by parabolas in t with x = middle + radius (3 t - t³)/2, in which the region closes smoothly at both ends.
    private static void Extremes(
        SliceGeometry slices,
        Vector512<double>* y,
        bool isBackgroundFitted,
        Vector512<double> sumY,
        Vector512<double>* memory,
        Vector512<double> most,
        Vector512<double> low,
        Vector512<double> high,
        Vector512<double>* bounds
    )
    {
        var least = Vector512.Create(double.NegativeInfinity);
        var first = Vector512.Max(low, Vector512.Create(slices.LowestLog));
        var last = Vector512.Min(high, Vector512.Create(slices.HighestLog));
        var middle = Vector512.Create(0.5) * (first + last);
        var radius = Vector512.Create(0.5) * (last - first);
        var count = isBackgroundFitted ? 4 : 2;
        var found = stackalloc Vector512<double>[4];
        var best = stackalloc Vector512<double>[4];
        var place = stackalloc Vector512<double>[4];
        for (var o = 0; o < count; o++)
        {
            best[o] = least;
            place[o] = Vector512<double>.Zero;
        }

        for (var k = -4; k <= 4; k++)
        {
            var t = Vector512.Create(0.2 * k);
            At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t, found);
            for (var o = 0; o < count; o++)
            {
                var better = Vector512.GreaterThan(found[o], best[o]);
                best[o] = Vector512.ConditionalSelect(better, found[o], best[o]);
                place[o] = Vector512.ConditionalSelect(better, t, place[o]);
            }
        }

        for (var o = 0; o < count; o++)
        {
            var t = place[o];
            foreach (var step in SliceGeometry.ExtremeSteps)
            {
                var h = Vector512.Create(step);
                var end = Vector512.Create(1 - step);
                t = Vector512.Max(Vector512.Min(t, end), -end);
                At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t - h, found);
                var left = found[o];
                At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t + h, found);
                var right = found[o];
                At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t, found);
                var bend = left - found[o] - found[o] + right;
                var move = Vector512.Create(0.5) * (left - right) / bend;
                // Without a bend downwards (or with a place outside the region) one step to the better side.
                var isBowl =
                    Vector512.LessThan(bend, Vector512<double>.Zero)
                    & Vector512.LessThanOrEqual(Vector512.Abs(move), Vector512<double>.One);
                var side = Vector512.ConditionalSelect(
                    Vector512.GreaterThan(right, left),
                    Vector512<double>.One,
                    -Vector512<double>.One
                );
                t = Vector512.FusedMultiplyAdd(
                    h,
                    Vector512.ConditionalSelect(isBowl, move, side),
                    t
                );
            }

            At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t, found);
            var isOpen =
                (
                    Vector512.GreaterThan(t, Vector512.Create(SliceGeometry.AtTheEnd))
                    & Vector512.Equals(high, Vector512.Create(double.PositiveInfinity))
                )
                | (
                    Vector512.LessThan(t, Vector512.Create(-SliceGeometry.AtTheEnd))
                    & Vector512.Equals(low, least)
                );
            bounds[o] = Vector512.ConditionalSelect(
                isOpen,
                Vector512.Create(double.PositiveInfinity),
                Vector512.Max(found[o], best[o])
            );
        }
    }

    // At one place: the largest Cs, minus the least Cs, the largest C0, minus the least C0; negative infinity outside the region.
    private static void At(
        SliceGeometry slices,
        Vector512<double>* y,
        bool isBackgroundFitted,
        Vector512<double> sumY,
        Vector512<double>* memory,
        Vector512<double> most,
        Vector512<double> middle,
        Vector512<double> radius,
        Vector512<double> t,
        Vector512<double>* found
    )
    {
        var zero = Vector512<double>.Zero;
        var outside = Vector512.Create(double.NegativeInfinity);
        var slack = Vector512.Create(-SliceGeometry.Slack) * most;
        var x = middle + (radius * Vector512.Create(0.5) * t * (Vector512.Create(3.0) - (t * t)));
        Evaluate(slices, y, isBackgroundFitted, sumY, x, memory, out _, out _, out _, out _);
        var share = memory + (2 * slices.Edges.Length);
        var sumShare = zero;
        var sumShares = zero;
        var contentShare = zero;
        for (var j = 0; j < slices.Count; j++)
        {
            var weighted = Vector512.Create(slices.Weight[j]) * share[j];
            sumShare += weighted;
            sumShares = Vector512.FusedMultiplyAdd(weighted, share[j], sumShares);
            contentShare = Vector512.FusedMultiplyAdd(weighted, y[j], contentShare);
        }

        var alone = contentShare / sumShares;
        var aloneRoom = most - Squares(slices, y, share, alone, zero);
        var aloneHalf = Vector512.Sqrt(Vector512.Max(aloneRoom, zero) / sumShares);
        var isIn = Vector512.GreaterThanOrEqual(aloneRoom, slack);
        var aloneHigh = Vector512.ConditionalSelect(isIn, alone + aloneHalf, outside);
        var aloneLow = Vector512.ConditionalSelect(isIn, aloneHalf - alone, outside);
        if (!isBackgroundFitted)
        {
            found[0] = aloneHigh;
            found[1] = aloneLow;
            return;
        }

        var count = Vector512.Create(slices.WeightSum);
        var determinant = (count * sumShares) - (sumShare * sumShare);
        var scale = ((count * contentShare) - (sumShare * sumY)) / determinant;
        var level = (sumY - (scale * sumShare)) / count;
        var room = most - Squares(slices, y, share, scale, level);
        isIn = Vector512.GreaterThanOrEqual(room, slack);
        room = Vector512.Max(room, zero);
        var variance = (sumShares - sumShare - sumShare + count) / determinant;
        var along = Vector512.Sqrt(room / variance);
        var half = along * variance;
        var shift = along * (sumShares - sumShare) / determinant;
        found[0] = Vector512.ConditionalSelect(
            isIn & Vector512.GreaterThanOrEqual(level + shift, zero),
            scale + level + half,
            aloneHigh
        );
        found[1] = Vector512.ConditionalSelect(
            isIn & Vector512.GreaterThanOrEqual(level - shift, zero),
            half - scale - level,
            aloneLow
        );
        var levelHalf = Vector512.Sqrt(room * sumShares / determinant);
        isIn &= Vector512.GreaterThanOrEqual(level + levelHalf, zero);
        found[2] = Vector512.ConditionalSelect(isIn, level + levelHalf, outside);
        found[3] = Vector512.ConditionalSelect(
            isIn,
            Vector512.Min(levelHalf - level, zero),
            outside
        );
    }

    // Half the slope of the sum of squares in ln L, its Gauss-Newton curvature, and the linear part.
    private static void Evaluate(
        SliceGeometry slices,
        Vector512<double>* y,
        bool isBackgroundFitted,
        Vector512<double> sumY,
        Vector512<double> logLength,
        Vector512<double>* memory,
        out Vector512<double> slope,
        out Vector512<double> curvature,
        out Vector512<double> amplitude,
        out Vector512<double> background
    )
    {
        var edges = slices.Edges.Length;
        var integral = memory;
        var gauss = memory + edges;
        var share = gauss + edges;
        var rise = share + slices.Count;
        var length = LaneMath512.Exp(logLength);
        var inverse = Vector512<double>.One / length;
        var root = Vector512.Create(SliceGeometry.InverseRootPi);
        for (var e = 0; e < edges; e++)
        {
            if (slices.Edges[e] == 0)
            {
                gauss[e] = root * length;
                integral[e] = gauss[e];
                continue;
            }

            var z = Vector512.Create(slices.Edges[e]) * inverse;
            var at = LaneMath512.Exp(-(z * z));
            gauss[e] = at * root * length;
            integral[e] =
                at * length * Vector512.FusedMultiplyAdd(-z, LaneMath512.ScaledErfc(z), root);
        }

        var sumShare = Vector512<double>.Zero;
        var sumShares = Vector512<double>.Zero;
        var sumRise = Vector512<double>.Zero;
        var sumRises = Vector512<double>.Zero;
        var cross = Vector512<double>.Zero;
        var contentShare = Vector512<double>.Zero;
        var contentRise = Vector512<double>.Zero;
        for (var j = 0; j < slices.Count; j++)
        {
            var width = Vector512.Create(slices.InverseWidth[j]);
            var p = (integral[slices.Top[j]] - integral[slices.Bottom[j]]) * width;
            var r = (gauss[slices.Top[j]] - gauss[slices.Bottom[j]]) * width;
            if (slices.InverseWidth[j] == 0)
            {
                // A point: erfc z and 2 z exp(-z²)/sqrt(π).
                var z = Vector512.Create(slices.Edges[slices.Top[j]]) * inverse;
                var at = LaneMath512.Exp(-(z * z));
                p = at * LaneMath512.ScaledErfc(z);
                r = Vector512.Create(2.0) * root * z * at;
            }

            share[j] = p;
            rise[j] = r;
            var w = Vector512.Create(slices.Weight[j]);
            var wp = w * p;
            var wr = w * r;
            sumShare += wp;
            sumRise += wr;
            sumShares = Vector512.FusedMultiplyAdd(wp, p, sumShares);
            sumRises = Vector512.FusedMultiplyAdd(wr, r, sumRises);
            cross = Vector512.FusedMultiplyAdd(wp, r, cross);
            contentShare = Vector512.FusedMultiplyAdd(wp, y[j], contentShare);
            contentRise = Vector512.FusedMultiplyAdd(wr, y[j], contentRise);
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
        Vector512<double> sumShare,
        Vector512<double> sumShares,
        Vector512<double> sumY,
        Vector512<double> contentShare,
        out Vector512<double> amplitude,
        out Vector512<double> background
    )
    {
        amplitude = contentShare / sumShares;
        background = Vector512<double>.Zero;
        if (!isBackgroundFitted)
        {
            return;
        }

        var count = Vector512.Create(slices.WeightSum);
        var determinant = (count * sumShares) - (sumShare * sumShare);
        var both = ((count * contentShare) - (sumShare * sumY)) / determinant;
        var level = (sumY - (both * sumShare)) / count;
        var isFree = Vector512.GreaterThan(level, Vector512<double>.Zero);
        amplitude = Vector512.ConditionalSelect(isFree, both, amplitude);
        background = Vector512.ConditionalSelect(isFree, level, background);
    }
}
