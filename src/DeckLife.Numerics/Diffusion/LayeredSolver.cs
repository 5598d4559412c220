namespace DeckLife.Numerics.Diffusion;

/// <summary>Diffusion through layers with dated events, refined until its own error estimate is small enough.</summary>
/// <remarks>
/// Equation: ∂T/∂t = ∂/∂x (D_i(t) m ∂u/∂x) in each layer, u and the flux continuous. Each level halves mesh and steps
/// together; both are of second order, so contents are extrapolated (Richardson 1911) from the two finest levels; the
/// error estimate is the last change of the extrapolated contents. Accuracy: the estimate, by default at most 2e-4 of the largest content; it bounds the
/// true error in at least 95 % of random cases (LayeredSolverCoverageTests). Checked by LayeredSolverTests against image,
/// slab and two-media series, manufactured solutions and Laplace inversion.
/// </remarks>
public static class LayeredSolver
{
    // No estimate below this share of the largest content is claimed: differences of levels that are smaller still say
    // more of their chance agreement than of the error.
    private const double SmallestClaim = 2e-6;

    // Node steps beyond which no further level is begun: some seconds of work. The estimate then says what was reached.
    private const double LinearWork = 1e8;
    private const double NonlinearWork = 1e7;

    /// <summary>Contents at given times and depths.</summary>
    /// <param name="problem">The section, its faces and events.</param>
    /// <param name="queries">Times and depths asked.</param>
    /// <param name="options">How fine; absent: the defaults.</param>
    /// <exception cref="ArgumentException">A depth lies below the section, or an event removes all of it.</exception>
    public static LayeredSolution Solve(
        LayeredProblem problem,
        IReadOnlyList<LayeredQuery> queries,
        LayeredOptions? options = null
    )
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(queries);
        options ??= new LayeredOptions();
        var plan = new LayeredPlan(problem, queries, options);
        var range = LayeredRange.Of(plan);
        var largest = range.LargestContent;
        var coarsest = new LayeredMarch(plan, options, 0);
        var coarse = coarsest.Run();
        var last = coarsest;
        var contents = coarse;
        double[]? previous = null;
        var estimate = plan.Periods.All(p => !(p.End > p.Start)) ? 0 : double.PositiveInfinity;
        var difference = double.PositiveInfinity;
        var isLinear = plan.Layers.All(l => l.Sorption.IsLinear);
        for (
            var level = 1;
            level <= options.MaximumLevel && estimate > options.RelativeTolerance * largest;
            level++
        )
        {
            // A level doubles nodes and steps: four times the work.
            if (
                level > 2
                && 4.0 * last.NodeCount * last.StepCount > (isLinear ? LinearWork : NonlinearWork)
            )
            {
                break;
            }

            last = new LayeredMarch(plan, options, level);
            var fine = last.Run();
            difference = LargestDifference(fine, coarse);
            contents = Extrapolate(plan, range, coarse, fine);
            if (previous is not null)
            {
                // The last change of the extrapolated contents; a share of the finest levels' own change guards against
                // one that is small by chance.
                estimate = Math.Max(
                    LargestDifference(contents, previous),
                    Math.Max(0.02 * difference, SmallestClaim * largest)
                );
            }

            previous = contents;
            coarse = fine;
        }

        return new LayeredSolution
        {
            Contents = contents,
            LayerIndices = [.. plan.Points.Select(p => p.Layer)],
            ErrorEstimate = double.IsFinite(estimate) ? estimate : difference,
            MassBalanceError = last.MassBalanceError,
            LargestContent = largest,
            IsComplete = last.HasConverged && contents.All(double.IsFinite),
            IsConverged = estimate <= options.RelativeTolerance * largest,
            Nodes = last.NodeCount,
            Steps = last.StepCount,
        };
    }

    /// <summary>The history of the content at one point of the material, at a fixed and cheap resolution.</summary>
    /// <param name="problem">The section, its faces and events.</param>
    /// <param name="depth">Depth of the point from the surface at the start [mm]; it stays with the material.</param>
    /// <param name="horizon">Last problem time [yr].</param>
    /// <param name="options">How fine; absent: <see cref="HistoryOptions"/>.</param>
    /// <returns>The history up to the horizon, or up to the event that removes the point.</returns>
    /// <remarks>
    /// Two levels, extrapolated; the first fiftieth of each period is resolved coarsely (a choice: with a hundredth the mesh is finer by √2, and with it
    /// the work). Accuracy: about 2e-4 of the largest content from a fiftieth of the period after an event on (LayeredHistoryTests).
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The horizon is not after the start.</exception>
    /// <exception cref="ArgumentException">The depth lies below the section, or an event removes all of it.</exception>
    public static LayeredHistory History(
        LayeredProblem problem,
        double depth,
        double horizon,
        LayeredOptions? options = null
    )
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(horizon, problem.StartTime);
        options ??= HistoryOptions;
        var starts = problem
            .Events.Select(e => e.Time)
            .Where(t => t > problem.StartTime && t < horizon)
            .Prepend(problem.StartTime);
        var asked = starts
            .Select(t => new LayeredQuery(t + (0.02 * (horizon - t)), 0))
            .Append(new LayeredQuery(horizon, 0))
            .ToArray();
        var plan = new LayeredPlan(problem, asked, options);
        var (layer, position) = plan.FixPoint(depth);
        var coarse = Record(plan, options, 0, layer, position);
        var fine = Record(plan, options, 1, layer, position);
        var times = new double[coarse.Count + 1];
        var contents = new double[coarse.Count + 1];
        times[0] = problem.StartTime;
        contents[0] = plan.Layers[layer].InitialContent(position);
        var range = LayeredRange.Of(plan);
        var sorption = plan.Layers[layer].Sorption;
        for (var k = 0; k < coarse.Count; k++)
        {
            var (time, content) = fine[(2 * k) + 1];
            times[k + 1] = time;
            contents[k + 1] = range.Hold(content + ((content - coarse[k].Content) / 3), sorption);
        }

        return new LayeredHistory(times, contents);
    }

    /// <summary>The resolution of a history where none is asked for.</summary>
    public static LayeredOptions HistoryOptions { get; } =
        new()
        {
            LogarithmicStep = 0.2,
            SpacingGrowth = 0.3,
            SpacingAtSharpPoint = 0.35,
        };

    private static List<(double Time, double Content)> Record(
        LayeredPlan plan,
        LayeredOptions options,
        int level,
        int layer,
        double position
    )
    {
        var history = new List<(double, double)>();
        new LayeredMarch(plan, options, level).Run(
            (time, section) =>
            {
                if (section.Holds(layer, position))
                {
                    history.Add((time, section.Content(section.NodeOf(layer, position), layer)));
                }
            }
        );
        return history;
    }

    private static double LargestDifference(double[] first, double[] second)
    {
        double largest = 0;
        for (var q = 0; q < first.Length; q++)
        {
            largest = Math.Max(largest, Math.Abs(first[q] - second[q]));
        }

        return largest;
    }

    private static double[] Extrapolate(
        LayeredPlan plan,
        LayeredRange range,
        double[] coarse,
        double[] fine
    )
    {
        var result = new double[fine.Length];
        for (var q = 0; q < fine.Length; q++)
        {
            result[q] = range.Hold(
                fine[q] + ((fine[q] - coarse[q]) / 3),
                plan.Layers[plan.Points[q].Layer].Sorption
            );
        }

        return result;
    }
}
