namespace DeckLife.Numerics.Kernels;

/// <summary>The stepping of one section of layers, one sample at a time.</summary>
/// <remarks>
/// Equation: dC/dt = d/dx(D_i(t) dC/dx), content and flux continuous, sealed bottom. A step solves (M + γK) Y = M c and
/// (M + γK) c⁺ = M ((1 - ρ) c + ρ Y), K = sum of each material's clock increment times its stiffness.
/// LayeredCore512 and LayeredCore256 do the same, two vectors at a time. Checked by: LayeredCoreTests.
/// </remarks>
internal static class LayeredCoreScalar
{
    /// <summary>Samples in one batch.</summary>
    public const int Batch = 8;

    /// <summary>Advances the samples of a batch one after another; memory as in <see cref="LayeredCore512"/>.</summary>
    public static unsafe void AdvanceBatch(
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
        var segments = plan.Cells.Length;
        var nodes = plan.Nodes + 1;
        var at = scratch;
        Span<double> Take(int length)
        {
            var span = new Span<double>(at, length);
            at += length;
            return span;
        }

        var cell = Take(segments);
        var jump = Take(segments);
        var clock = Take(steps * plan.MaterialCount);
        var stage = Take(steps);
        var end = Take(steps);
        var state = Take(nodes);
        var found = Take(steps);
        var rest = Take((3 * nodes) + segments);
        for (var lane = 0; lane < Batch; lane++)
        {
            Gather(cellMm, lane, cell);
            Gather(jumps, lane, jump);
            Gather(clocks, lane, clock);
            Gather(content, lane, state);
            for (var k = 0; k < steps; k++)
            {
                stage[k] = surface[lane] * factors[2 * k];
                end[k] = surface[lane] * factors[(2 * k) + 1];
            }

            Advance(plan, cell, clock, steps, stage, end, isSealed, state, jump, found, rest);
            for (var i = 0; i < nodes; i++)
            {
                content[(i * Batch) + lane] = state[i];
            }

            for (var k = 0; k < steps; k++)
            {
                history[(k * Batch) + lane] = found[k];
            }
        }
    }

    private static unsafe void Gather(double* from, int lane, Span<double> to)
    {
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = from[(i * Batch) + lane];
        }
    }

    /// <summary>Advances a section over all steps of a plan.</summary>
    /// <param name="plan">Segments and cells.</param>
    /// <param name="cellMm">Cell length of each segment [mm].</param>
    /// <param name="clocks">γ times each material's clock increment [mm²], shape [steps × materials].</param>
    /// <param name="steps">Number of steps K.</param>
    /// <param name="surfaceStage">Surface content at the first stage of each step.</param>
    /// <param name="surfaceEnd">Surface content at the end of each step.</param>
    /// <param name="isSealed">Whether no flux passes the surface, the surface contents then unused.</param>
    /// <param name="content">Content at the nodes, left limits at the ends of segments [nodes + 1]; advanced in place.</param>
    /// <param name="jumps">Right limit minus left limit at the end of each segment but the last; cleared.</param>
    /// <param name="history">Receives the content at the point after each step [steps].</param>
    /// <param name="scratch">At least 3 (nodes + 1) + segments values.</param>
    public static void Advance(
        SectionPlan plan,
        ReadOnlySpan<double> cellMm,
        ReadOnlySpan<double> clocks,
        int steps,
        ReadOnlySpan<double> surfaceStage,
        ReadOnlySpan<double> surfaceEnd,
        bool isSealed,
        Span<double> content,
        Span<double> jumps,
        Span<double> history,
        Span<double> scratch
    )
    {
        const double omr = 1 - SteppingConstants.Rho;
        const double rho = SteppingConstants.Rho;
        const double end = SteppingConstants.EndCoupling;
        var last = plan.Nodes;
        var segments = plan.Cells.Length;
        var y = scratch[..(last + 1)];
        var g = scratch.Slice(last + 1, last + 1);
        var inverse = scratch.Slice(2 * (last + 1), last + 1);
        var factor = scratch.Slice(3 * (last + 1), segments);
        for (var k = 0; k < steps; k++)
        {
            var ds = clocks.Slice(k * plan.MaterialCount, plan.MaterialCount);

            // Stage 1, with the factorisation that stage 2 uses again.
            var left = content[0];
            var here = content[1];
            double yp;
            double gp;
            if (isSealed)
            {
                var h = cellMm[0];
                var stiff = ds[plan.Materials[0]] / h;
                inverse[0] = 1 / ((h * (0.5 - end)) + stiff);
                g[0] = ((h * end) - stiff) * inverse[0];
                y[0] = ((h * (0.5 - end) * left) + (h * end * here)) * inverse[0];
                yp = y[0];
                gp = g[0];
            }
            else
            {
                yp = surfaceStage[k];
                gp = 0;
            }

            var i = 0;
            for (var s = 0; s < segments; s++)
            {
                var h = cellMm[s];
                var stiff = ds[plan.Materials[s]] / h;
                var couple = h * SteppingConstants.InnerCoupling;
                var own = h * (1 - (2 * SteppingConstants.InnerCoupling));
                var off = couple - stiff;
                var diagonal = own + (2 * stiff);
                for (var j = 1; j < plan.Cells[s]; j++)
                {
                    i++;
                    var right = content[i + 1];
                    var inv = 1 / (diagonal - (off * gp));
                    var r = (couple * (left + right)) + (own * here);
                    left = here;
                    here = right;
                    gp = off * inv;
                    yp = (r * inv) - (gp * yp);
                    y[i] = yp;
                    g[i] = gp;
                    inverse[i] = inv;
                }

                i++;
                if (s < segments - 1)
                {
                    var hr = cellMm[s + 1];
                    var stiffRight = ds[plan.Materials[s + 1]] / hr;
                    var lower = (h * end) - stiff;
                    var upper = (hr * end) - stiffRight;
                    var inv = 1 / (((h + hr) * (0.5 - end)) + stiff + stiffRight - (lower * gp));
                    var right = content[i + 1];
                    var hereRight = here + jumps[s];
                    var r =
                        (h * end * left)
                        + (hr * end * right)
                        + ((0.5 - end) * ((h * here) + (hr * hereRight)));
                    var q = lower * inv;
                    yp = (r * inv) - (q * yp);
                    gp = upper * inv;
                    left = hereRight;
                    here = right;
                    y[i] = yp;
                    g[i] = gp;
                    inverse[i] = inv;
                    factor[s] = q;
                }
                else
                {
                    var lower = (h * end) - stiff;
                    var inv = 1 / ((h * (0.5 - end)) + stiff - (lower * gp));
                    var r = (h * end * left) + (h * (0.5 - end) * here);
                    var q = lower * inv;
                    yp = (r * inv) - (q * yp);
                    inverse[i] = inv;
                    factor[s] = q;
                    content[i] = (omr * content[i]) + (rho * yp);
                }
            }

            for (i = last - 1; i >= 1; i--)
            {
                yp = y[i] - (g[i] * yp);
                content[i] = (omr * content[i]) + (rho * yp);
            }

            content[0] =
                (omr * content[0]) + (rho * (isSealed ? y[0] - (g[0] * yp) : surfaceStage[k]));

            // Stage 2.
            left = content[0];
            here = content[1];
            if (isSealed)
            {
                var h = cellMm[0];
                y[0] = ((h * (0.5 - end) * left) + (h * end * here)) * inverse[0];
                yp = y[0];
            }
            else
            {
                yp = surfaceEnd[k];
            }

            i = 0;
            for (var s = 0; s < segments; s++)
            {
                var h = cellMm[s];
                var couple = h * SteppingConstants.InnerCoupling;
                var own = h * (1 - (2 * SteppingConstants.InnerCoupling));
                for (var j = 1; j < plan.Cells[s]; j++)
                {
                    i++;
                    var right = content[i + 1];
                    var r = (couple * (left + right)) + (own * here);
                    left = here;
                    here = right;
                    yp = (r * inverse[i]) - (g[i] * yp);
                    y[i] = yp;
                }

                i++;
                if (s < segments - 1)
                {
                    var hr = cellMm[s + 1];
                    var right = content[i + 1];
                    var hereRight = here + (omr * jumps[s]);
                    var r =
                        (h * end * left)
                        + (hr * end * right)
                        + ((0.5 - end) * ((h * here) + (hr * hereRight)));
                    yp = (r * inverse[i]) - (factor[s] * yp);
                    left = hereRight;
                    here = right;
                    y[i] = yp;
                    jumps[s] = 0;
                }
                else
                {
                    var r = (h * end * left) + (h * (0.5 - end) * here);
                    yp = (r * inverse[i]) - (factor[s] * yp);
                    content[i] = yp;
                }
            }

            for (i = last - 1; i >= 1; i--)
            {
                yp = y[i] - (g[i] * yp);
                content[i] = yp;
            }

            content[0] = isSealed ? y[0] - (g[0] * yp) : surfaceEnd[k];
            history[k] = content[plan.PointNode];
        }
    }
}
