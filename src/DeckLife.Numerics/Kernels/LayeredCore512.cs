using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace DeckLife.Numerics.Kernels;

/// <summary>The stepping of <see cref="LayeredCoreScalar"/> for two Vector512 of samples at a time, interleaved so that one hides the other's latencies.</summary>
/// <remarks>
/// LayeredCore256.cs is this file with the width in its names replaced; a test holds the two equal. Every lane is computed by the same
/// correctly rounded operations in the same order, so both widths give the same bits. Arrays are node by node: two vectors a node.
/// Rows inside a segment are divided by what couples neighbours, so that elimination leaves 1 there: with η = 6 γ Δs/h² a row reads
/// c_i-1 + (12 w - 2) c_i + c_i+1 = w times its right-hand side, w = 1/(1 - 2 η). Two nodes share one division. Stage 1
/// is carried ρ-fold; what couples a node to the next is kept with its sign turned, so that back substitution is one fused operation.
/// Checked by: LayeredCoreTests.
/// </remarks>
internal static unsafe class LayeredCore512
{
    /// <summary>Samples in one batch.</summary>
    public static int Batch => 2 * Vector512<double>.Count;

    /// <summary>Advances a batch over all steps of a plan.</summary>
    /// <param name="plan">Segments and cells.</param>
    /// <param name="cellMm">Cell length of each segment [mm], shape [segments × batch].</param>
    /// <param name="clocks">γ times each material's clock increment [mm²], shape [steps × materials × batch].</param>
    /// <param name="steps">Number of steps K.</param>
    /// <param name="factors">Surface content over the sample's own at the first stage and at the end of each step, shape [steps × 2].</param>
    /// <param name="surface">Each sample's surface content [batch].</param>
    /// <param name="isSealed">Whether no flux passes the surface.</param>
    /// <param name="content">Content at the nodes, left limits at the ends of segments, shape [(nodes + 1) × batch]; advanced in place.</param>
    /// <param name="jumps">Right limit minus left limit at the end of each segment but the last, shape [segments × batch]; cleared.</param>
    /// <param name="history">Receives the content at the point after each step, shape [steps × batch].</param>
    /// <param name="scratch">(2 (nodes + 1) + 6 segments + 1) × batch values.</param>
    [SkipLocalsInit]
    public static void Advance(
        SectionPlan plan,
        double* cellMm,
        double* clocks,
        int steps,
        double* factors,
        double* surface,
        bool isSealed,
        double* content,
        double* jumps,
        double* history,
        double* scratch
    )
    {
        var last = plan.Nodes;
        var segments = plan.Cells.Length;
        var materials = plan.MaterialCount;
        var cells = stackalloc int[segments];
        var material = stackalloc int[segments];
        var h = (Vector512<double>*)cellMm;
        var jump = (Vector512<double>*)jumps;
        var c = (Vector512<double>*)content;
        var y = (Vector512<double>*)scratch;
        var g = y + (2 * (last + 1));
        Rows rows;
        rows.Segments = segments;
        rows.Cells = cells;
        rows.Material = material;
        rows.Share = g + (2 * (last + 1));
        rows.Ratio = rows.Share + (2 * segments);
        rows.Weight = rows.Ratio + (2 * segments);
        rows.Lower = rows.Weight + (2 * segments);
        rows.Inverse = rows.Lower + (2 * segments);
        rows.IsSealed = isSealed;
        for (var s = 0; s < segments; s++)
        {
            cells[s] = plan.Cells[s];
            material[s] = plan.Materials[s];
            rows.Share[(2 * s) + 0] = Vector512.Create(6.0) / (h[(2 * s) + 0] * h[(2 * s) + 0]);
            rows.Share[(2 * s) + 1] = Vector512.Create(6.0) / (h[(2 * s) + 1] * h[(2 * s) + 1]);
            if (s > 0)
            {
                rows.Ratio[(2 * s) - 2] = h[2 * s] / h[(2 * s) - 2];
                rows.Ratio[(2 * s) - 1] = h[(2 * s) + 1] / h[(2 * s) - 1];
            }
        }

        var rho = Vector512.Create(SteppingConstants.Rho);
        var omr = Vector512.Create(1 - SteppingConstants.Rho);
        var surface0 = Vector512.Load(surface);
        var surface1 = Vector512.Load(surface + Vector512<double>.Count);
        for (var k = 0; k < steps; k++)
        {
            var ds = (Vector512<double>*)clocks + (2 * k * materials);
            var stage0 = rho * (surface0 * Vector512.Create(factors[2 * k]));
            var stage1 = rho * (surface1 * Vector512.Create(factors[2 * k]));
            var last0 = surface0 * Vector512.Create(factors[(2 * k) + 1]);
            var last1 = surface1 * Vector512.Create(factors[(2 * k) + 1]);
            First(rows, ds, c, jump, y, g, stage0, stage1, omr, rho);
            Back(last, isSealed, c, y, g, omr);
            if (!isSealed)
            {
                c[0] = Vector512.FusedMultiplyAdd(omr, c[0], stage0);
                c[1] = Vector512.FusedMultiplyAdd(omr, c[1], stage1);
            }

            Second(rows, c, jump, y, g, last0, last1, omr);
            BackLast(last, isSealed, c, y, g);
            if (!isSealed)
            {
                c[0] = last0;
                c[1] = last1;
            }

            var point = c + (2 * plan.PointNode);
            var target = (Vector512<double>*)history + (2 * k);
            target[0] = point[0];
            target[1] = point[1];
        }
    }

    // What the rows of a step are made of, two vectors each.
    private ref struct Rows
    {
        public int Segments;
        public int* Cells;
        public int* Material;
        public Vector512<double>* Share; // 6/h²
        public Vector512<double>* Ratio; // next segment's cell over this one's
        public Vector512<double>* Weight; // w of the step
        public Vector512<double>* Lower; // η - 1
        public Vector512<double>* Inverse; // of the pivot at the segment's end; the sealed surface's after the last
        public bool IsSealed;
    }

    // Stage 1: factorisation and forward elimination, with the last node's value already combined.
    [SkipLocalsInit]
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void First(
        in Rows rows,
        Vector512<double>* ds,
        Vector512<double>* c,
        Vector512<double>* jump,
        Vector512<double>* y,
        Vector512<double>* g,
        Vector512<double> yp0,
        Vector512<double> yp1,
        Vector512<double> omr,
        Vector512<double> rho
    )
    {
        var one = Vector512<double>.One;
        var minus = Vector512.Create(-1.0);
        var two = Vector512.Create(2.0);
        var segments = rows.Segments;
        var left0 = c[0];
        var left1 = c[1];
        var here0 = c[2 + 0];
        var here1 = c[2 + 1];
        var gp0 = Vector512<double>.Zero;
        var gp1 = Vector512<double>.Zero;
        var eta0 = ds[(2 * rows.Material[0]) + 0] * rows.Share[0];
        var eta1 = ds[(2 * rows.Material[0]) + 1] * rows.Share[1];
        if (rows.IsSealed)
        {
            var inv0 = one / (two + eta0);
            var inv1 = one / (two + eta1);
            rows.Inverse[(2 * segments) + 0] = inv0;
            rows.Inverse[(2 * segments) + 1] = inv1;
            gp0 = (eta0 - one) * inv0;
            gp1 = (eta1 - one) * inv1;
            yp0 = rho * Vector512.FusedMultiplyAdd(two, left0, here0) * inv0;
            yp1 = rho * Vector512.FusedMultiplyAdd(two, left1, here1) * inv1;
            g[0] = gp0;
            g[1] = gp1;
            y[0] = yp0;
            y[1] = yp1;
        }

        var ci = c + 4;
        var yi = y + 2;
        var gi = g + 2;
        for (var s = 0; s < segments; s++)
        {
            // 1 - 2 η is 0 or at least a rounding: the addend keeps the quotient finite and else changes nothing.
            var w0 = one / (Vector512.FusedMultiplyAdd(-two, eta0, one) + Vector512.Create(1e-60));
            var w1 = one / (Vector512.FusedMultiplyAdd(-two, eta1, one) + Vector512.Create(1e-60));
            rows.Weight[(2 * s) + 0] = w0;
            rows.Weight[(2 * s) + 1] = w1;
            var diagonal0 = Vector512.FusedMultiplyAdd(Vector512.Create(12.0), w0, -two);
            var diagonal1 = Vector512.FusedMultiplyAdd(Vector512.Create(12.0), w1, -two);
            w0 *= rho;
            w1 *= rho;
            var own0 = Vector512.Create(10.0) * w0;
            var own1 = Vector512.Create(10.0) * w1;
            var count = rows.Cells[s];
            if ((count & 1) != 0)
            {
                var a0 = ci[0];
                var a1 = ci[1];
                gp0 = minus / (diagonal0 + gp0);
                gp1 = minus / (diagonal1 + gp1);
                yp0 = (yp0 - Vector512.FusedMultiplyAdd(own0, here0, w0 * (left0 + a0))) * gp0;
                yp1 = (yp1 - Vector512.FusedMultiplyAdd(own1, here1, w1 * (left1 + a1))) * gp1;
                left0 = here0;
                left1 = here1;
                here0 = a0;
                here1 = a1;
                yi[0] = yp0;
                yi[1] = yp1;
                gi[0] = gp0;
                gi[1] = gp1;
                ci += 2;
                yi += 2;
                gi += 2;
            }

            for (var pairs = (count - 2) >> 1; pairs > 0; pairs--)
            {
                var a0 = ci[0];
                var a1 = ci[1];
                var b0 = ci[2 + 0];
                var b1 = ci[2 + 1];
                var e0 = diagonal0 + gp0;
                var e1 = diagonal1 + gp1;
                var p0 = Vector512.FusedMultiplyAdd(diagonal0, e0, minus);
                var p1 = Vector512.FusedMultiplyAdd(diagonal1, e1, minus);
                var u0 = minus / (e0 * p0);
                var u1 = minus / (e1 * p1);
                var g0 = p0 * u0;
                var g1 = p1 * u1;
                gp0 = e0 * e0 * u0;
                gp1 = e1 * e1 * u1;
                var r0 = Vector512.FusedMultiplyAdd(own0, here0, w0 * (left0 + a0));
                var r1 = Vector512.FusedMultiplyAdd(own1, here1, w1 * (left1 + a1));
                var v0 = Vector512.FusedMultiplyAdd(own0, a0, w0 * (here0 + b0));
                var v1 = Vector512.FusedMultiplyAdd(own1, a1, w1 * (here1 + b1));
                r0 = (yp0 - r0) * g0;
                r1 = (yp1 - r1) * g1;
                yp0 = (r0 - v0) * gp0;
                yp1 = (r1 - v1) * gp1;
                left0 = a0;
                left1 = a1;
                here0 = b0;
                here1 = b1;
                yi[0] = r0;
                yi[1] = r1;
                gi[0] = g0;
                gi[1] = g1;
                yi[2 + 0] = yp0;
                yi[2 + 1] = yp1;
                gi[2 + 0] = gp0;
                gi[2 + 1] = gp1;
                ci += 4;
                yi += 4;
                gi += 4;
            }

            var lower0 = eta0 - one;
            var lower1 = eta1 - one;
            rows.Lower[(2 * s) + 0] = lower0;
            rows.Lower[(2 * s) + 1] = lower1;
            var end0 = ci[0];
            var end1 = ci[1];
            var pivot0 = two + eta0;
            var pivot1 = two + eta1;
            var d0 = diagonal0 + gp0;
            var d1 = diagonal1 + gp1;
            var inner0 = yp0 - Vector512.FusedMultiplyAdd(own0, here0, w0 * (left0 + end0));
            var inner1 = yp1 - Vector512.FusedMultiplyAdd(own1, here1, w1 * (left1 + end1));
            var load0 = Vector512.FusedMultiplyAdd(two, end0, here0);
            var load1 = Vector512.FusedMultiplyAdd(two, end1, here1);
            var upper0 = Vector512<double>.Zero;
            var upper1 = Vector512<double>.Zero;
            if (s < segments - 1)
            {
                eta0 = ds[(2 * rows.Material[s + 1]) + 0] * rows.Share[(2 * s) + 2 + 0];
                eta1 = ds[(2 * rows.Material[s + 1]) + 1] * rows.Share[(2 * s) + 2 + 1];
                var ratio0 = rows.Ratio[(2 * s) + 0];
                var ratio1 = rows.Ratio[(2 * s) + 1];
                upper0 = ratio0 * (eta0 - one);
                upper1 = ratio1 * (eta1 - one);
                pivot0 = Vector512.FusedMultiplyAdd(ratio0, two + eta0, pivot0);
                pivot1 = Vector512.FusedMultiplyAdd(ratio1, two + eta1, pivot1);
                left0 = end0 + jump[(2 * s) + 0];
                left1 = end1 + jump[(2 * s) + 1];
                here0 = ci[2 + 0];
                here1 = ci[2 + 1];
                load0 = Vector512.FusedMultiplyAdd(
                    ratio0,
                    Vector512.FusedMultiplyAdd(two, left0, here0),
                    load0
                );
                load1 = Vector512.FusedMultiplyAdd(
                    ratio1,
                    Vector512.FusedMultiplyAdd(two, left1, here1),
                    load1
                );
            }

            var q0 = Vector512.FusedMultiplyAdd(pivot0, d0, lower0);
            var q1 = Vector512.FusedMultiplyAdd(pivot1, d1, lower1);
            var t0 = one / (d0 * q0);
            var t1 = one / (d1 * q1);
            var f0 = q0 * -t0;
            var f1 = q1 * -t1;
            gi[0] = f0;
            gi[1] = f1;
            inner0 *= f0;
            inner1 *= f1;
            yi[0] = inner0;
            yi[1] = inner1;
            var inverse0 = d0 * d0 * t0;
            var inverse1 = d1 * d1 * t1;
            rows.Inverse[(2 * s) + 0] = inverse0;
            rows.Inverse[(2 * s) + 1] = inverse1;
            yp0 = Vector512.FusedMultiplyAdd(lower0, inner0, rho * load0) * inverse0;
            yp1 = Vector512.FusedMultiplyAdd(lower1, inner1, rho * load1) * inverse1;
            gp0 = upper0 * inverse0;
            gp1 = upper1 * inverse1;
            yi[2 + 0] = yp0;
            yi[2 + 1] = yp1;
            gi[2 + 0] = gp0;
            gi[2 + 1] = gp1;
            ci += 4;
            yi += 4;
            gi += 4;
        }

        ci -= 4;
        ci[0] = Vector512.FusedMultiplyAdd(omr, ci[0], yp0);
        ci[1] = Vector512.FusedMultiplyAdd(omr, ci[1], yp1);
    }

    // Back substitution of stage 1; the state becomes (1 - ρ) c + ρ Y.
    [SkipLocalsInit]
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Back(
        int last,
        bool isSealed,
        Vector512<double>* c,
        Vector512<double>* y,
        Vector512<double>* g,
        Vector512<double> omr
    )
    {
        var x0 = y[(2 * last) + 0];
        var x1 = y[(2 * last) + 1];
        var first = isSealed ? 0 : 1;
        for (var i = last - 1; i >= first; i--)
        {
            var ci = c + (2 * i);
            var yi = y + (2 * i);
            var gi = g + (2 * i);
            x0 = Vector512.FusedMultiplyAdd(gi[0], x0, yi[0]);
            x1 = Vector512.FusedMultiplyAdd(gi[1], x1, yi[1]);
            ci[0] = Vector512.FusedMultiplyAdd(omr, ci[0], x0);
            ci[1] = Vector512.FusedMultiplyAdd(omr, ci[1], x1);
        }
    }

    // Stage 2: forward elimination with the factors of stage 1.
    [SkipLocalsInit]
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Second(
        in Rows rows,
        Vector512<double>* c,
        Vector512<double>* jump,
        Vector512<double>* y,
        Vector512<double>* g,
        Vector512<double> yp0,
        Vector512<double> yp1,
        Vector512<double> omr
    )
    {
        var two = Vector512.Create(2.0);
        var segments = rows.Segments;
        var left0 = c[0];
        var left1 = c[1];
        var here0 = c[2 + 0];
        var here1 = c[2 + 1];
        if (rows.IsSealed)
        {
            yp0 = Vector512.FusedMultiplyAdd(two, left0, here0) * rows.Inverse[(2 * segments) + 0];
            yp1 = Vector512.FusedMultiplyAdd(two, left1, here1) * rows.Inverse[(2 * segments) + 1];
            y[0] = yp0;
            y[1] = yp1;
        }

        var ci = c + 4;
        var yi = y + 2;
        var gi = g + 2;
        for (var s = 0; s < segments; s++)
        {
            var w0 = rows.Weight[(2 * s) + 0];
            var w1 = rows.Weight[(2 * s) + 1];
            var own0 = Vector512.Create(10.0) * w0;
            var own1 = Vector512.Create(10.0) * w1;
            for (var j = rows.Cells[s]; j > 1; j--)
            {
                var a0 = ci[0];
                var a1 = ci[1];
                yp0 = (yp0 - Vector512.FusedMultiplyAdd(own0, here0, w0 * (left0 + a0))) * gi[0];
                yp1 = (yp1 - Vector512.FusedMultiplyAdd(own1, here1, w1 * (left1 + a1))) * gi[1];
                left0 = here0;
                left1 = here1;
                here0 = a0;
                here1 = a1;
                yi[0] = yp0;
                yi[1] = yp1;
                ci += 2;
                yi += 2;
                gi += 2;
            }

            var load0 = Vector512.FusedMultiplyAdd(two, here0, left0);
            var load1 = Vector512.FusedMultiplyAdd(two, here1, left1);
            if (s < segments - 1)
            {
                left0 = Vector512.FusedMultiplyAdd(omr, jump[(2 * s) + 0], here0);
                left1 = Vector512.FusedMultiplyAdd(omr, jump[(2 * s) + 1], here1);
                here0 = ci[0];
                here1 = ci[1];
                jump[(2 * s) + 0] = Vector512<double>.Zero;
                jump[(2 * s) + 1] = Vector512<double>.Zero;
                load0 = Vector512.FusedMultiplyAdd(
                    rows.Ratio[(2 * s) + 0],
                    Vector512.FusedMultiplyAdd(two, left0, here0),
                    load0
                );
                load1 = Vector512.FusedMultiplyAdd(
                    rows.Ratio[(2 * s) + 1],
                    Vector512.FusedMultiplyAdd(two, left1, here1),
                    load1
                );
            }

            yp0 =
                Vector512.FusedMultiplyAdd(rows.Lower[(2 * s) + 0], yp0, load0)
                * rows.Inverse[(2 * s) + 0];
            yp1 =
                Vector512.FusedMultiplyAdd(rows.Lower[(2 * s) + 1], yp1, load1)
                * rows.Inverse[(2 * s) + 1];
            yi[0] = yp0;
            yi[1] = yp1;
            ci += 2;
            yi += 2;
            gi += 2;
        }

        ci -= 4;
        ci[0] = yp0;
        ci[1] = yp1;
    }

    // Back substitution of stage 2; the state becomes the new content.
    [SkipLocalsInit]
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void BackLast(
        int last,
        bool isSealed,
        Vector512<double>* c,
        Vector512<double>* y,
        Vector512<double>* g
    )
    {
        var x0 = c[(2 * last) + 0];
        var x1 = c[(2 * last) + 1];
        var first = isSealed ? 0 : 1;
        for (var i = last - 1; i >= first; i--)
        {
            var ci = c + (2 * i);
            var yi = y + (2 * i);
            var gi = g + (2 * i);
            x0 = Vector512.FusedMultiplyAdd(gi[0], x0, yi[0]);
            x1 = Vector512.FusedMultiplyAdd(gi[1], x1, yi[1]);
            ci[0] = x0;
            ci[1] = x1;
        }
    }
}
