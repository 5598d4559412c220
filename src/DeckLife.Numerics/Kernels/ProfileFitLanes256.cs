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
        double* high
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
