using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Benchmarks;

/// <summary>Runs one kernel over and over for a profiler, and prints the least and the median processor time of a unit of its work.</summary>
internal static class SpinMode
{
    /// <summary>Spins.</summary>
    /// <param name="what">histories, years1 (one time asked), scalar, study, layered, limit, conditional, fits, limits, fitscalar or stepping.</param>
    /// <param name="runs">Number of measurements of 0.02 s each.</param>
    /// <returns>Exit code: 2 for an unknown kernel.</returns>
    public static int Run(string what, int runs)
    {
        const int count = 4096;
        var sections = BenchmarkCases.Sections(count);
        var profiles = BenchmarkCases.Profiles(count);
        var zero = new double[count];
        SectionSolverOptions Level0(LaneWidth width) =>
            new()
            {
                Threads = 1,
                FirstLevel = 0,
                LastLevel = 0,
                Width = width,
            };
        Action Histories(LaneWidth width, double[] times)
        {
            var solver = new BatchedOverlaySolver(Level0(width));
            var target = solver.Solve(sections, times);
            return () => solver.Solve(sections, target);
        }

        const int points = 1 << 15;
        var estimator = new ConditionalEstimator(BenchmarkCases.LimitState);
        var fit = new BatchedProfileFit(BenchmarkCases.Tops, BenchmarkCases.Bottoms);
        var one = new BatchedProfileFit(
            BenchmarkCases.Tops,
            BenchmarkCases.Bottoms,
            width: LaneWidth.Scalar
        );
        var (action, units) = what switch
        {
            "histories" => (Histories(VectorWidth.InUse, BenchmarkCases.Years), count),
            "years1" => (Histories(VectorWidth.InUse, [60]), count),
            "scalar" => (Histories(LaneWidth.Scalar, BenchmarkCases.Years), count),
            "study" => (() => BenchmarkStudy.Run(), BenchmarkStudy.Draws),
            "layered" => (() => BenchmarkStudy.RunLayered(), BenchmarkStudy.LayeredDraws),
            "limit" => (() => estimator.EstimateByCounting([50], points, 4, 1, 1), 4 * points),
            "conditional" => (() => estimator.Estimate([50], points, 4, 1, 1), 4 * points),
            "fits" => (() => fit.Fit(profiles, zero), count),
            "limits" => (() => fit.FitWithLimits(profiles, zero, 2.4469), count),
            "fitscalar" => (() => one.Fit(profiles, zero), count),
            _ => ((Action)(() => { }), 0),
        };
        if (what == "stepping")
        {
            for (var i = 0; i < runs; i++)
            {
                var peak = KernelLimit.PeakSeconds();
                var (seconds, nodeSteps) = KernelLimit.Stepping();
                Console.WriteLine(
                    FormattableString.Invariant(
                        $"{seconds / nodeSteps * 1e9:F2} ns a node and step, {peak * 1e9:F3} ns a multiply-add: {32 * peak * nodeSteps / seconds:P0}"
                    )
                );
            }

            return 0;
        }

        if (units == 0)
        {
            return 2;
        }

        CpuClock.Once(action, 0.5);
        var found = new double[runs];
        for (var i = 0; i < runs; i++)
        {
            found[i] = CpuClock.Once(action, 0.02) / units * 1e9;
        }

        Array.Sort(found);
        Console.WriteLine(
            FormattableString.Invariant(
                $"{what}: least {found[0]:F2} ns, median {found[runs / 2]:F2} ns"
            )
        );
        return 0;
    }
}
