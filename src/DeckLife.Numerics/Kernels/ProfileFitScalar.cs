using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>Fits one profile: what <see cref="ProfileFitLanes512"/> does for a vector of them.</summary>
internal static class ProfileFitScalar
{
    /// <summary>Fits a profile; a negative first return value means that the search did not settle.</summary>
    public static bool Fit(
        SliceGeometry slices,
        ReadOnlySpan<double> y,
        bool isBackgroundFitted,
        Span<double> memory,
        out double amplitude,
        out double background,
        out double logLength,
        out double squares,
        out int gridPoint,
        double rise,
        out double lowLimit,
        out double highLimit,
        Span<double> bounds
    )
    {
        var sumY = 0.0;
        var sumYy = 0.0;
        for (var j = 0; j < slices.Count; j++)
        {
            var w = slices.Weight[j] * y[j];
            sumY += w;
            sumYy += w * y[j];
        }

        gridPoint = 0;
        var least = double.PositiveInfinity;
        for (var g = 0; g < SliceGeometry.GridPoints; g++)
        {
            var dot = 0.0;
            for (var j = 0; j < slices.Count; j++)
            {
                dot += slices.Grid[(g * slices.Count) + j] * y[j];
            }

            double rss;
            if (isBackgroundFitted)
            {
                Linear(
                    slices,
                    true,
                    slices.GridSums[2 * g],
                    slices.GridSums[(2 * g) + 1],
                    sumY,
                    dot,
                    out var a,
                    out var c
                );
                rss = sumYy - (a * dot) - (c * sumY);
            }
            else
            {
                rss = sumYy - (dot * dot * slices.GridInverses[g]);
            }

            if (rss < least)
            {
                least = rss;
                gridPoint = g;
            }
        }

        var x = slices.LowestLog + (gridPoint * slices.GridStep);
        var low = x - slices.GridStep;
        var high = x + slices.GridStep;
        var before = x;
        var slopeBefore = 0.0;
        var settled = false;
        for (var i = 0; i < 80 && !settled; i++)
        {
            Evaluate(
                slices,
                y,
                isBackgroundFitted,
                sumY,
                x,
                memory,
                out var slope,
                out var curvature,
                out _,
                out _
            );
            if (slope < 0)
            {
                low = x;
            }
            else
            {
                high = x;
            }

            var secant = (slope - slopeBefore) / (x - before);
            var last = SliceGeometry.LeastStep;
            if (i >= 2 && secant > 0)
            {
                curvature = secant;
                last = SliceGeometry.LastStep;
            }

            var next = x - (slope / curvature);
            if (!(next >= low && next <= high))
            {
                next = 0.5 * (low + high);
                last = SliceGeometry.LeastStep;
            }

            settled = Math.Abs(next - x) <= last;
            before = x;
            slopeBefore = slope;
            x = next;
        }

        Evaluate(
            slices,
            y,
            isBackgroundFitted,
            sumY,
            x,
            memory,
            out _,
            out var bend,
            out amplitude,
            out background
        );
        logLength = x;
        squares = Squares(slices, y, memory, amplitude, background);
        lowLimit = double.NegativeInfinity;
        highLimit = double.PositiveInfinity;
        if (rise > 0)
        {
            var cut = rise * squares;
            lowLimit = Side(slices, y, isBackgroundFitted, sumY, memory, squares, cut, x, bend, -1);
            highLimit = Side(slices, y, isBackgroundFitted, sumY, memory, squares, cut, x, bend, 1);
            if (bounds.Length > 0)
            {
                Extremes(
                    slices,
                    y,
                    isBackgroundFitted,
                    sumY,
                    memory,
                    squares + cut,
                    lowLimit,
                    highLimit,
                    bounds
                );
            }
        }

        return settled;
    }

    private static double Squares(
        SliceGeometry slices,
        ReadOnlySpan<double> y,
        ReadOnlySpan<double> shares,
        double amplitude,
        double background
    )
    {
        var sum = 0.0;
        for (var j = 0; j < slices.Count; j++)
        {
            var residual = y[j] - background - (amplitude * shares[j]);
            sum += slices.Weight[j] * residual * residual;
        }

        return sum;
    }

    private static double Side(
        SliceGeometry slices,
        ReadOnlySpan<double> y,
        bool isBackgroundFitted,
        double sumY,
        Span<double> memory,
        double least,
        double cut,
        double best,
        double curvature,
        int sign
    )
    {
        var end =
            sign < 0
                ? slices.LowestLog
                : slices.LowestLog + ((SliceGeometry.GridPoints - 1) * slices.GridStep);
        Evaluate(
            slices,
            y,
            isBackgroundFitted,
            sumY,
            end,
            memory,
            out _,
            out _,
            out var amplitude,
            out var background
        );
        if (Squares(slices, y, memory, amplitude, background) - least <= cut)
        {
            return sign * double.PositiveInfinity;
        }

        var inner = best;
        var outer = end;
        var x = best + (sign * Math.Sqrt(cut / curvature));
        var target = Math.Sqrt(cut);
        for (var i = 0; i < 80; i++)
        {
            var whole = Math.Abs(outer - inner);
            if (!(Math.Abs(x - inner) < whole && Math.Abs(x - outer) < whole))
            {
                x = 0.5 * (inner + outer);
            }

            Evaluate(
                slices,
                y,
                isBackgroundFitted,
                sumY,
                x,
                memory,
                out var slope,
                out _,
                out amplitude,
                out background
            );
            var risen = Math.Max(Squares(slices, y, memory, amplitude, background) - least, 0);
            if (risen <= cut)
            {
                inner = x;
            }
            else
            {
                outer = x;
            }

            var root = Math.Sqrt(risen);
            var next = x - ((root - target) * root / slope);
            if (
                Math.Abs(next - x) <= SliceGeometry.LastNewtonStep
                && Math.Abs(next - inner) + Math.Abs(next - outer) <= Math.Abs(outer - inner)
            )
            {
                return next;
            }

            if (Math.Abs(next - x) <= 1e-12 || Math.Abs(outer - inner) <= 1e-12)
            {
                break;
            }

            x = next;
        }

        return x;
    }

    // As in the vectors.
    private static void Extremes(
        SliceGeometry slices,
        ReadOnlySpan<double> y,
        bool isBackgroundFitted,
        double sumY,
        Span<double> memory,
        double most,
        double low,
        double high,
        Span<double> bounds
    )
    {
        var least = double.NegativeInfinity;
        var first = Math.Max(low, slices.LowestLog);
        var last = Math.Min(high, slices.HighestLog);
        var middle = 0.5 * (first + last);
        var radius = 0.5 * (last - first);
        var count = isBackgroundFitted ? 4 : 2;
        Span<double> found = stackalloc double[4];
        Span<double> best = stackalloc double[4];
        Span<double> place = stackalloc double[4];
        for (var o = 0; o < count; o++)
        {
            best[o] = least;
            place[o] = 0.0;
        }

        for (var k = -4; k <= 4; k++)
        {
            var t = 0.2 * k;
            At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t, found);
            for (var o = 0; o < count; o++)
            {
                var better = (found[o] > best[o]);
                best[o] = (better ? found[o] : best[o]);
                place[o] = (better ? t : place[o]);
            }
        }

        for (var o = 0; o < count; o++)
        {
            var t = place[o];
            foreach (var step in SliceGeometry.ExtremeSteps)
            {
                var h = step;
                var end = 1 - step;
                t = Math.Max(Math.Min(t, end), -end);
                At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t - h, found);
                var left = found[o];
                At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t + h, found);
                var right = found[o];
                At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t, found);
                var bend = left - found[o] - found[o] + right;
                var move = 0.5 * (left - right) / bend;
                // Without a bend downwards (or with a place outside the region) one step to the better side.
                var isBowl = (bend < 0.0) & (Math.Abs(move) <= 1.0);
                var side = ((right > left) ? 1.0 : -1.0);
                t = ((h) * ((isBowl ? move : side))) + t;
            }

            At(slices, y, isBackgroundFitted, sumY, memory, most, middle, radius, t, found);
            var isOpen =
                ((t > SliceGeometry.AtTheEnd) & (high == double.PositiveInfinity))
                | ((t < -SliceGeometry.AtTheEnd) & (low == least));
            bounds[o] = (isOpen ? double.PositiveInfinity : Math.Max(found[o], best[o]));
        }
    }

    // At one place: the largest Cs, minus the least Cs, the largest C0, minus the least C0; negative infinity outside the region.
    private static void At(
        SliceGeometry slices,
        ReadOnlySpan<double> y,
        bool isBackgroundFitted,
        double sumY,
        Span<double> memory,
        double most,
        double middle,
        double radius,
        double t,
        Span<double> found
    )
    {
        var zero = 0.0;
        var outside = double.NegativeInfinity;
        var slack = -SliceGeometry.Slack * most;
        var x = middle + (radius * 0.5 * t * (3.0 - (t * t)));
        Evaluate(slices, y, isBackgroundFitted, sumY, x, memory, out _, out _, out _, out _);
        var share = memory[..slices.Count];
        var sumShare = zero;
        var sumShares = zero;
        var contentShare = zero;
        for (var j = 0; j < slices.Count; j++)
        {
            var weighted = slices.Weight[j] * share[j];
            sumShare += weighted;
            sumShares = ((weighted) * (share[j])) + sumShares;
            contentShare = ((weighted) * (y[j])) + contentShare;
        }

        var alone = contentShare / sumShares;
        var aloneRoom = most - Squares(slices, y, share, alone, zero);
        var aloneHalf = Math.Sqrt(Math.Max(aloneRoom, zero) / sumShares);
        var isIn = (aloneRoom >= slack);
        var aloneHigh = (isIn ? alone + aloneHalf : outside);
        var aloneLow = (isIn ? aloneHalf - alone : outside);
        if (!isBackgroundFitted)
        {
            found[0] = aloneHigh;
            found[1] = aloneLow;
            return;
        }

        var count = slices.WeightSum;
        var determinant = (count * sumShares) - (sumShare * sumShare);
        var scale = ((count * contentShare) - (sumShare * sumY)) / determinant;
        var level = (sumY - (scale * sumShare)) / count;
        var room = most - Squares(slices, y, share, scale, level);
        isIn = (room >= slack);
        room = Math.Max(room, zero);
        var variance = (sumShares - sumShare - sumShare + count) / determinant;
        var along = Math.Sqrt(room / variance);
        var half = along * variance;
        var shift = along * (sumShares - sumShare) / determinant;
        found[0] = (isIn & (level + shift >= zero) ? scale + level + half : aloneHigh);
        found[1] = (isIn & (level - shift >= zero) ? half - scale - level : aloneLow);
        var levelHalf = Math.Sqrt(room * sumShares / determinant);
        isIn &= (level + levelHalf >= zero);
        found[2] = (isIn ? level + levelHalf : outside);
        found[3] = (isIn ? Math.Min(levelHalf - level, zero) : outside);
    }

    private static void Evaluate(
        SliceGeometry slices,
        ReadOnlySpan<double> y,
        bool isBackgroundFitted,
        double sumY,
        double logLength,
        Span<double> shares,
        out double slope,
        out double curvature,
        out double amplitude,
        out double background
    )
    {
        var length = Math.Exp(logLength);
        var inverse = 1 / length;
        var edges = slices.Edges.Length;
        var integral = shares.Slice(slices.Count, edges);
        var gauss = shares.Slice(slices.Count + edges, edges);
        for (var e = 0; e < edges; e++)
        {
            var z = slices.Edges[e] * inverse;
            if (z == 0)
            {
                gauss[e] = SliceGeometry.InverseRootPi * length;
                integral[e] = gauss[e];
                continue;
            }

            var at = Math.Exp(-z * z);
            gauss[e] = at * SliceGeometry.InverseRootPi * length;
            integral[e] =
                at * length * (SliceGeometry.InverseRootPi - (z * LaneMathScalar.ScaledErfc(z)));
        }

        double sumShare = 0,
            sumShares = 0,
            sumRise = 0,
            sumRises = 0,
            cross = 0,
            contentShare = 0,
            contentRise = 0;
        for (var j = 0; j < slices.Count; j++)
        {
            double p;
            double r;
            if (slices.InverseWidth[j] == 0)
            {
                p = slices.Share(j, length, out r);
            }
            else
            {
                p = (integral[slices.Top[j]] - integral[slices.Bottom[j]]) * slices.InverseWidth[j];
                r = (gauss[slices.Top[j]] - gauss[slices.Bottom[j]]) * slices.InverseWidth[j];
            }

            shares[j] = p;
            var w = slices.Weight[j];
            sumShare += w * p;
            sumRise += w * r;
            sumShares += w * p * p;
            sumRises += w * r * r;
            cross += w * p * r;
            contentShare += w * p * y[j];
            contentRise += w * r * y[j];
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

    private static void Linear(
        SliceGeometry slices,
        bool isBackgroundFitted,
        double sumShare,
        double sumShares,
        double sumY,
        double contentShare,
        out double amplitude,
        out double background
    )
    {
        amplitude = contentShare / sumShares;
        background = 0;
        if (!isBackgroundFitted)
        {
            return;
        }

        var determinant = (slices.WeightSum * sumShares) - (sumShare * sumShare);
        var both = ((slices.WeightSum * contentShare) - (sumShare * sumY)) / determinant;
        var level = (sumY - (both * sumShare)) / slices.WeightSum;
        if (level > 0)
        {
            amplitude = both;
            background = level;
        }
    }
}
