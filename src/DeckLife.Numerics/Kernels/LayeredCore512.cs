using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace DeckLife.Numerics.Kernels;

/// <summary>The stepping of <see cref="LayeredCoreScalar"/> for two Vector512 of samples at a time, interleaved so that one hides the other's latencies.</summary>
/// <remarks>
/// LayeredCore256.cs is this file with the width in its names replaced; a test holds the two equal. Every lane is computed by the same
/// correctly rounded operations in the same order, so both widths give the same bits. Arrays are node by node: two vectors a node.
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
    /// <param name="scratch">(3 (nodes + 1) + 5 segments) × batch values.</param>
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
        var inverse = g + (2 * (last + 1));
        var reciprocal = inverse + (2 * (last + 1)); // 1/h
        var factor = reciprocal + (2 * segments);
        for (var s = 0; s < segments; s++)
        {
            cells[s] = plan.Cells[s];
            material[s] = plan.Materials[s];
            reciprocal[(2 * s) + 0] = Vector512<double>.One / h[(2 * s) + 0];
            reciprocal[(2 * s) + 1] = Vector512<double>.One / h[(2 * s) + 1];
        }

        var rho = Vector512.Create(SteppingConstants.Rho);
        var omr = Vector512.Create(1 - SteppingConstants.Rho);
        for (var k = 0; k < steps; k++)
        {
            var ds = (Vector512<double>*)clocks + (2 * k * materials);
            var stage0 = Vector512.Load(surface) * Vector512.Create(factors[2 * k]);
            var stage1 =
                Vector512.Load(surface + Vector512<double>.Count)
                * Vector512.Create(factors[2 * k]);
            var last0 = Vector512.Load(surface) * Vector512.Create(factors[(2 * k) + 1]);
            var last1 =
                Vector512.Load(surface + Vector512<double>.Count)
                * Vector512.Create(factors[(2 * k) + 1]);
            First(
                segments,
                cells,
                material,
                h,
                reciprocal,
                ds,
                c,
                jump,
                y,
                g,
                inverse,
                factor,
                isSealed,
                stage0,
                stage1,
                omr,
                rho
            );
            Back(last, isSealed, c, y, g, omr, rho);
            if (!isSealed)
            {
                c[0] = Vector512.FusedMultiplyAdd(omr, c[0], rho * stage0);
                c[1] = Vector512.FusedMultiplyAdd(omr, c[1], rho * stage1);
            }

            Second(segments, cells, h, c, jump, y, g, inverse, factor, isSealed, last0, last1, omr);
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

    // Stage 1: factorisation and forward elimination, with the last node's value already combined.
    [SkipLocalsInit]
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void First(
        int segments,
        int* cells,
        int* material,
        Vector512<double>* h,
        Vector512<double>* reciprocal,
        Vector512<double>* ds,
        Vector512<double>* c,
        Vector512<double>* jump,
        Vector512<double>* y,
        Vector512<double>* g,
        Vector512<double>* inverse,
        Vector512<double>* factor,
        bool isSealed,
        Vector512<double> stage0,
        Vector512<double> stage1,
        Vector512<double> omr,
        Vector512<double> rho
    )
    {
        var end = Vector512.Create(SteppingConstants.EndCoupling);
        var own = Vector512.Create(0.5 - SteppingConstants.EndCoupling);
        var left0 = c[0];
        var left1 = c[1];
        var here0 = c[2 + 0];
        var here1 = c[2 + 1];
        var yp0 = stage0;
        var yp1 = stage1;
        var gp0 = Vector512<double>.Zero;
        var gp1 = Vector512<double>.Zero;
        if (isSealed)
        {
            var stiff0 = ds[(2 * material[0]) + 0] * reciprocal[0];
            var stiff1 = ds[(2 * material[0]) + 1] * reciprocal[1];
            inverse[0] = Vector512<double>.One / Vector512.FusedMultiplyAdd(h[0], own, stiff0);
            inverse[1] = Vector512<double>.One / Vector512.FusedMultiplyAdd(h[1], own, stiff1);
            gp0 = Vector512.FusedMultiplyAdd(h[0], end, -stiff0) * inverse[0];
            gp1 = Vector512.FusedMultiplyAdd(h[1], end, -stiff1) * inverse[1];
            yp0 = h[0] * Vector512.FusedMultiplyAdd(own, left0, end * here0) * inverse[0];
            yp1 = h[1] * Vector512.FusedMultiplyAdd(own, left1, end * here1) * inverse[1];
            g[0] = gp0;
            g[1] = gp1;
            y[0] = yp0;
            y[1] = yp1;
        }

        var i = 0;
        for (var s = 0; s < segments; s++)
        {
            var count = cells[s];
            var stiff0 = ds[(2 * material[s]) + 0] * reciprocal[(2 * s) + 0];
            var stiff1 = ds[(2 * material[s]) + 1] * reciprocal[(2 * s) + 1];
            {
                var couple0 = h[(2 * s) + 0] * Vector512.Create(SteppingConstants.InnerCoupling);
                var couple1 = h[(2 * s) + 1] * Vector512.Create(SteppingConstants.InnerCoupling);
                var mass0 =
                    h[(2 * s) + 0] * Vector512.Create(1 - (2 * SteppingConstants.InnerCoupling));
                var mass1 =
                    h[(2 * s) + 1] * Vector512.Create(1 - (2 * SteppingConstants.InnerCoupling));
                var off0 = couple0 - stiff0;
                var off1 = couple1 - stiff1;
                var diagonal0 = mass0 + (stiff0 + stiff0);
                var diagonal1 = mass1 + (stiff1 + stiff1);
                for (var j = 1; j < count; j++)
                {
                    i++;
                    var ci = c + (2 * i) + 2;
                    var yi = y + (2 * i);
                    var gi = g + (2 * i);
                    var ii = inverse + (2 * i);
                    var right0 = ci[0];
                    var right1 = ci[1];
                    var inv0 =
                        Vector512<double>.One / Vector512.FusedMultiplyAdd(-off0, gp0, diagonal0);
                    var inv1 =
                        Vector512<double>.One / Vector512.FusedMultiplyAdd(-off1, gp1, diagonal1);
                    var r0 = Vector512.FusedMultiplyAdd(couple0, left0 + right0, mass0 * here0);
                    var r1 = Vector512.FusedMultiplyAdd(couple1, left1 + right1, mass1 * here1);
                    left0 = here0;
                    left1 = here1;
                    here0 = right0;
                    here1 = right1;
                    gp0 = off0 * inv0;
                    gp1 = off1 * inv1;
                    yp0 = Vector512.FusedMultiplyAdd(-gp0, yp0, r0 * inv0);
                    yp1 = Vector512.FusedMultiplyAdd(-gp1, yp1, r1 * inv1);
                    yi[0] = yp0;
                    yi[1] = yp1;
                    gi[0] = gp0;
                    gi[1] = gp1;
                    ii[0] = inv0;
                    ii[1] = inv1;
                }
            }

            i++;
            var at = 2 * i;
            if (s < segments - 1)
            {
                {
                    var hl = h[(2 * s) + 0];
                    var hr = h[(2 * s) + 2 + 0];
                    var stiffRight = ds[(2 * material[s + 1]) + 0] * reciprocal[(2 * s) + 2 + 0];
                    var lower = Vector512.FusedMultiplyAdd(hl, end, -stiff0);
                    var upper = Vector512.FusedMultiplyAdd(hr, end, -stiffRight);
                    var diagonal = Vector512.FusedMultiplyAdd(hl + hr, own, stiff0 + stiffRight);
                    var inv =
                        Vector512<double>.One / Vector512.FusedMultiplyAdd(-lower, gp0, diagonal);
                    var right = c[at + 2 + 0];
                    var hereRight = here0 + jump[(2 * s) + 0];
                    var r = Vector512.FusedMultiplyAdd(
                        end,
                        Vector512.FusedMultiplyAdd(hl, left0, hr * right),
                        own * Vector512.FusedMultiplyAdd(hl, here0, hr * hereRight)
                    );
                    var q = lower * inv;
                    yp0 = Vector512.FusedMultiplyAdd(-q, yp0, r * inv);
                    gp0 = upper * inv;
                    left0 = hereRight;
                    here0 = right;
                    y[at + 0] = yp0;
                    g[at + 0] = gp0;
                    inverse[at + 0] = inv;
                    factor[(2 * s) + 0] = q;
                }
                {
                    var hl = h[(2 * s) + 1];
                    var hr = h[(2 * s) + 2 + 1];
                    var stiffRight = ds[(2 * material[s + 1]) + 1] * reciprocal[(2 * s) + 2 + 1];
                    var lower = Vector512.FusedMultiplyAdd(hl, end, -stiff1);
                    var upper = Vector512.FusedMultiplyAdd(hr, end, -stiffRight);
                    var diagonal = Vector512.FusedMultiplyAdd(hl + hr, own, stiff1 + stiffRight);
                    var inv =
                        Vector512<double>.One / Vector512.FusedMultiplyAdd(-lower, gp1, diagonal);
                    var right = c[at + 2 + 1];
                    var hereRight = here1 + jump[(2 * s) + 1];
                    var r = Vector512.FusedMultiplyAdd(
                        end,
                        Vector512.FusedMultiplyAdd(hl, left1, hr * right),
                        own * Vector512.FusedMultiplyAdd(hl, here1, hr * hereRight)
                    );
                    var q = lower * inv;
                    yp1 = Vector512.FusedMultiplyAdd(-q, yp1, r * inv);
                    gp1 = upper * inv;
                    left1 = hereRight;
                    here1 = right;
                    y[at + 1] = yp1;
                    g[at + 1] = gp1;
                    inverse[at + 1] = inv;
                    factor[(2 * s) + 1] = q;
                }
            }
            else
            {
                {
                    var hl = h[(2 * s) + 0];
                    var lower = Vector512.FusedMultiplyAdd(hl, end, -stiff0);
                    var inv =
                        Vector512<double>.One
                        / Vector512.FusedMultiplyAdd(
                            -lower,
                            gp0,
                            Vector512.FusedMultiplyAdd(hl, own, stiff0)
                        );
                    var r = hl * Vector512.FusedMultiplyAdd(end, left0, own * here0);
                    var q = lower * inv;
                    yp0 = Vector512.FusedMultiplyAdd(-q, yp0, r * inv);
                    y[at + 0] = yp0;
                    inverse[at + 0] = inv;
                    factor[(2 * s) + 0] = q;
                    c[at + 0] = Vector512.FusedMultiplyAdd(omr, c[at + 0], rho * yp0);
                }
                {
                    var hl = h[(2 * s) + 1];
                    var lower = Vector512.FusedMultiplyAdd(hl, end, -stiff1);
                    var inv =
                        Vector512<double>.One
                        / Vector512.FusedMultiplyAdd(
                            -lower,
                            gp1,
                            Vector512.FusedMultiplyAdd(hl, own, stiff1)
                        );
                    var r = hl * Vector512.FusedMultiplyAdd(end, left1, own * here1);
                    var q = lower * inv;
                    yp1 = Vector512.FusedMultiplyAdd(-q, yp1, r * inv);
                    y[at + 1] = yp1;
                    inverse[at + 1] = inv;
                    factor[(2 * s) + 1] = q;
                    c[at + 1] = Vector512.FusedMultiplyAdd(omr, c[at + 1], rho * yp1);
                }
            }
        }
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
        Vector512<double> omr,
        Vector512<double> rho
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
            x0 = Vector512.FusedMultiplyAdd(-gi[0], x0, yi[0]);
            x1 = Vector512.FusedMultiplyAdd(-gi[1], x1, yi[1]);
            ci[0] = Vector512.FusedMultiplyAdd(omr, ci[0], rho * x0);
            ci[1] = Vector512.FusedMultiplyAdd(omr, ci[1], rho * x1);
        }
    }

    // Stage 2: forward elimination with the factors of stage 1.
    [SkipLocalsInit]
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Second(
        int segments,
        int* cells,
        Vector512<double>* h,
        Vector512<double>* c,
        Vector512<double>* jump,
        Vector512<double>* y,
        Vector512<double>* g,
        Vector512<double>* inverse,
        Vector512<double>* factor,
        bool isSealed,
        Vector512<double> last0,
        Vector512<double> last1,
        Vector512<double> omr
    )
    {
        var end = Vector512.Create(SteppingConstants.EndCoupling);
        var own = Vector512.Create(0.5 - SteppingConstants.EndCoupling);
        var left0 = c[0];
        var left1 = c[1];
        var here0 = c[2 + 0];
        var here1 = c[2 + 1];
        var yp0 = last0;
        var yp1 = last1;
        if (isSealed)
        {
            yp0 = h[0] * Vector512.FusedMultiplyAdd(own, left0, end * here0) * inverse[0];
            yp1 = h[1] * Vector512.FusedMultiplyAdd(own, left1, end * here1) * inverse[1];
            y[0] = yp0;
            y[1] = yp1;
        }

        var i = 0;
        for (var s = 0; s < segments; s++)
        {
            var count = cells[s];
            {
                var couple0 = h[(2 * s) + 0] * Vector512.Create(SteppingConstants.InnerCoupling);
                var couple1 = h[(2 * s) + 1] * Vector512.Create(SteppingConstants.InnerCoupling);
                var mass0 =
                    h[(2 * s) + 0] * Vector512.Create(1 - (2 * SteppingConstants.InnerCoupling));
                var mass1 =
                    h[(2 * s) + 1] * Vector512.Create(1 - (2 * SteppingConstants.InnerCoupling));
                for (var j = 1; j < count; j++)
                {
                    i++;
                    var ci = c + (2 * i) + 2;
                    var yi = y + (2 * i);
                    var gi = g + (2 * i);
                    var ii = inverse + (2 * i);
                    var right0 = ci[0];
                    var right1 = ci[1];
                    var r0 = Vector512.FusedMultiplyAdd(couple0, left0 + right0, mass0 * here0);
                    var r1 = Vector512.FusedMultiplyAdd(couple1, left1 + right1, mass1 * here1);
                    left0 = here0;
                    left1 = here1;
                    here0 = right0;
                    here1 = right1;
                    yp0 = Vector512.FusedMultiplyAdd(-gi[0], yp0, r0 * ii[0]);
                    yp1 = Vector512.FusedMultiplyAdd(-gi[1], yp1, r1 * ii[1]);
                    yi[0] = yp0;
                    yi[1] = yp1;
                }
            }

            i++;
            var at = 2 * i;
            if (s < segments - 1)
            {
                {
                    var hl = h[(2 * s) + 0];
                    var hr = h[(2 * s) + 2 + 0];
                    var right = c[at + 2 + 0];
                    var hereRight = Vector512.FusedMultiplyAdd(omr, jump[(2 * s) + 0], here0);
                    var r = Vector512.FusedMultiplyAdd(
                        end,
                        Vector512.FusedMultiplyAdd(hl, left0, hr * right),
                        own * Vector512.FusedMultiplyAdd(hl, here0, hr * hereRight)
                    );
                    yp0 = Vector512.FusedMultiplyAdd(
                        -factor[(2 * s) + 0],
                        yp0,
                        r * inverse[at + 0]
                    );
                    left0 = hereRight;
                    here0 = right;
                    y[at + 0] = yp0;
                    jump[(2 * s) + 0] = Vector512<double>.Zero;
                }
                {
                    var hl = h[(2 * s) + 1];
                    var hr = h[(2 * s) + 2 + 1];
                    var right = c[at + 2 + 1];
                    var hereRight = Vector512.FusedMultiplyAdd(omr, jump[(2 * s) + 1], here1);
                    var r = Vector512.FusedMultiplyAdd(
                        end,
                        Vector512.FusedMultiplyAdd(hl, left1, hr * right),
                        own * Vector512.FusedMultiplyAdd(hl, here1, hr * hereRight)
                    );
                    yp1 = Vector512.FusedMultiplyAdd(
                        -factor[(2 * s) + 1],
                        yp1,
                        r * inverse[at + 1]
                    );
                    left1 = hereRight;
                    here1 = right;
                    y[at + 1] = yp1;
                    jump[(2 * s) + 1] = Vector512<double>.Zero;
                }
            }
            else
            {
                {
                    var r = h[(2 * s) + 0] * Vector512.FusedMultiplyAdd(end, left0, own * here0);
                    c[at + 0] = Vector512.FusedMultiplyAdd(
                        -factor[(2 * s) + 0],
                        yp0,
                        r * inverse[at + 0]
                    );
                }
                {
                    var r = h[(2 * s) + 1] * Vector512.FusedMultiplyAdd(end, left1, own * here1);
                    c[at + 1] = Vector512.FusedMultiplyAdd(
                        -factor[(2 * s) + 1],
                        yp1,
                        r * inverse[at + 1]
                    );
                }
            }
        }
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
            x0 = Vector512.FusedMultiplyAdd(-gi[0], x0, yi[0]);
            x1 = Vector512.FusedMultiplyAdd(-gi[1], x1, yi[1]);
            ci[0] = x0;
            ci[1] = x1;
        }
    }
}
