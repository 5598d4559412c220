using System.Globalization;
using System.Runtime.InteropServices;
using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;

namespace DeckLife.Benchmarks;

/// <summary>Writes the cases for the peers, times DeckLife on the same work, and prints lines of key, value, error, unit.</summary>
internal static class PeersMode
{
    private const int CaseCount = 64;
    private const int BatchCount = 4096;

    // Cells times steps of each level, for two layers.
    public static readonly int[] Work = [36 * 20, 46 * 28, 72 * 48, 144 * 96, 288 * 192];

    /// <summary>Runs everything.</summary>
    /// <param name="folder">Where the cases are written.</param>
    public static void Run(string folder)
    {
        Directory.CreateDirectory(folder);
        Line("version", RuntimeInformation.FrameworkDescription);
        Line("vectors", VectorWidth.Description);
        var sections = BenchmarkCases.Sections(BatchCount);
        var reference = new BatchedOverlaySolver(new SectionSolverOptions { FirstLevel = 4 }).Solve(
            sections,
            BenchmarkCases.Years
        );
        WriteSections(folder, sections, reference);
        Histories(sections, reference);
        Fits(folder);
        LimitStates();
        Functions();
        Growth(sections);
        MemoryFigures.Print();
        Limit();
    }

    private static void Histories(SectionSamples sections, SectionHistories reference)
    {
        var solver = new BatchedOverlaySolver(new SectionSolverOptions { Threads = 1 });
        var error = Error(sections, reference, solver.Solve(sections, BenchmarkCases.Years));
        var target = solver.Solve(sections, BenchmarkCases.Years);
        var batched = CpuClock.Seconds(() => solver.Solve(sections, target)) / BatchCount;
        Line("histories batched, one thread", batched * 1e6, error, "us");
        foreach (var width in VectorWidth.Available)
        {
            if (width == VectorWidth.InUse)
            {
                continue;
            }

            var other = new BatchedOverlaySolver(
                new SectionSolverOptions { Threads = 1, Width = width }
            );
            var seconds = CpuClock.Seconds(() => other.Solve(sections, target)) / BatchCount;
            Line(
                FormattableString.Invariant($"histories batched, {(int)width} lanes"),
                seconds * 1e6,
                error,
                "us"
            );
        }

        var single = new BatchedOverlaySolver(
            new SectionSolverOptions
            {
                Threads = 1,
                Width = LaneWidth.Scalar,
                FirstLevel = 0,
                LastLevel = 0,
            }
        );
        var fixedLevel = new BatchedOverlaySolver(
            new SectionSolverOptions
            {
                Threads = 1,
                FirstLevel = 0,
                LastLevel = 0,
            }
        );
        var coarse = Error(sections, reference, fixedLevel.Solve(sections, BenchmarkCases.Years));
        Line(
            "histories batched, level 0 only",
            CpuClock.Seconds(() => fixedLevel.Solve(sections, target)) / BatchCount * 1e6,
            coarse,
            "us"
        );
        // A scalar batch steps its eight samples one after another: its time is that of eight single histories.
        Line(
            "history scalar, level 0 only",
            CpuClock.Seconds(() => single.Solve(sections, target)) / BatchCount * 1e6,
            coarse,
            "us"
        );
        var one = BenchmarkCases.Sections(32768);
        var large = solver.Solve(one, BenchmarkCases.Years);
        var alone = CpuClock.WallSeconds(() => solver.Solve(one, large));
        var pair = new BatchedOverlaySolver(new SectionSolverOptions { Threads = 2 });
        var both = CpuClock.WallSeconds(() => pair.Solve(one, large));
        Line("histories, 2 threads over 1 (wall)", alone / both, 0, "ratio");
    }

    private static (double Largest, double Mean) Worst(
        SectionSamples sections,
        SectionHistories reference,
        SectionHistories found,
        int count
    )
    {
        var largest = 0.0;
        var sum = 0.0;
        for (var i = 0; i < count; i++)
        {
            var scale = Math.Max(
                sections.SurfaceContent[i],
                sections.Layers[1].Residual!.SurfaceContent[i]
            );
            var error = 0.0;
            for (var k = 0; k < BenchmarkCases.Years.Length; k++)
            {
                error = Math.Max(
                    error,
                    Math.Abs(found.ContentAt(k)[i] - reference.ContentAt(k)[i]) / scale
                );
            }

            largest = Math.Max(largest, error);
            sum += error / count;
        }

        return (largest, sum);
    }

    private static double Error(
        SectionSamples sections,
        SectionHistories reference,
        SectionHistories found
    ) => Worst(sections, reference, found, CaseCount).Largest;

    private static void Fits(string folder)
    {
        const int count = 4096;
        var profiles = BenchmarkCases.Profiles(count);
        var zero = new double[count];
        var scalar = new BatchedProfileFit(
            BenchmarkCases.Tops,
            BenchmarkCases.Bottoms,
            width: LaneWidth.Scalar
        );
        var fit = new BatchedProfileFit(BenchmarkCases.Tops, BenchmarkCases.Bottoms);
        var exact = scalar.Fit(profiles, zero);
        var found = fit.Fit(profiles, zero);
        var deviation = 0.0;
        using (var writer = new StreamWriter(Path.Combine(folder, "profiles.csv")))
        {
            for (var i = 0; i < count; i++)
            {
                deviation = Math.Max(
                    deviation,
                    Math.Abs((found.SpreadMm2[i] / exact.SpreadMm2[i]) - 1)
                );
                if (i < 1000)
                {
                    writer.WriteLine(
                        Row([
                            .. profiles.AsSpan(i * 8, 8),
                            exact.SurfaceContent[i],
                            exact.SpreadMm2[i],
                        ])
                    );
                }
            }
        }

        Line(
            "fit Cs and D, scalar",
            CpuClock.Seconds(() => scalar.Fit(profiles, zero)) / count * 1e6,
            0,
            "us"
        );
        Line(
            "fit Cs and D, batched",
            CpuClock.Seconds(() => fit.Fit(profiles, zero)) / count * 1e6,
            deviation,
            "us"
        );
        Line(
            "fit Cs and D with limits of D, batched",
            CpuClock.Seconds(() => fit.FitWithLimits(profiles, zero, 2.4469)) / count * 1e6,
            deviation,
            "us"
        );
        Line(
            "fit Cs and D with limits of both, batched",
            CpuClock.Seconds(() => fit.FitWithLimits(profiles, zero, 2.4469, ofAll: true))
                / count
                * 1e6,
            deviation,
            "us"
        );
        Line(
            "fit Cs, D and C0 with limits of all, batched",
            CpuClock.Seconds(() => fit.FitWithLimits(profiles, 2.5706, ofAll: true)) / count * 1e6,
            deviation,
            "us"
        );
        Line(
            "fit Cs, D and C0, batched",
            CpuClock.Seconds(() => fit.Fit(profiles)) / count * 1e6,
            deviation,
            "us"
        );
        MathNetFit(profiles, exact);
    }

    private static void MathNetFit(double[] profiles, BatchedFits exact)
    {
        const int count = 200;
        var x = Vector<double>.Build.Dense(8, j => (double)j);
        var worst = 0.0;
        void All()
        {
            worst = 0;
            for (var i = 0; i < count; i++)
            {
                var y = Vector<double>.Build.Dense(profiles.AsSpan(i * 8, 8).ToArray());
                var model = ObjectiveFunction.NonlinearModel(
                    (p, _) =>
                        Vector<double>.Build.Dense(
                            8,
                            j =>
                                p[0]
                                * BenchmarkCases.SliceMean(
                                    BenchmarkCases.Tops[j],
                                    BenchmarkCases.Bottoms[j],
                                    Math.Exp(p[1])
                                )
                        ),
                    x,
                    y
                );
                var result = new LevenbergMarquardtMinimizer(
                    0.001,
                    1e-12,
                    1e-12,
                    1e-12,
                    100
                ).FindMinimum(model, Vector<double>.Build.Dense([0.5, Math.Log(300)]));
                worst = Math.Max(
                    worst,
                    Math.Abs((Math.Exp(result.MinimizingPoint[1]) / exact.SpreadMm2[i]) - 1)
                );
            }
        }

        Line(
            "peer: MathNet Levenberg-Marquardt fit",
            CpuClock.Seconds(All) / count * 1e6,
            worst,
            "us"
        );
    }

    private static void LimitStates()
    {
        const double exact = 0.0829341530;
        var estimator = new ConditionalEstimator(BenchmarkCases.LimitState);
        const int points = 1 << 17;
        var counting = estimator.EstimateByCounting([50], points, 4, 1, 1)[0];
        Line(
            "limit state by counting, 5 variables",
            CpuClock.Seconds(() => estimator.EstimateByCounting([50], points, 4, 1, 1))
                / (4.0 * points)
                * 1e9,
            Math.Abs(counting.Probability - exact),
            "ns"
        );
        Line(
            "limit state as a whole study, 5 variables, a draw",
            CpuClock.Seconds(() => BenchmarkStudy.Run()) / BenchmarkStudy.Draws * 1e9,
            Math.Abs(BenchmarkStudy.Run() - exact),
            "ns"
        );
        var share = BenchmarkStudy.RunLayered();
        Line(
            "section with an overlay as a whole study, a draw",
            CpuClock.Seconds(() => BenchmarkStudy.RunLayered()) / BenchmarkStudy.LayeredDraws * 1e6,
            Math.Sqrt(share * (1 - share) / BenchmarkStudy.LayeredDraws), // of the probability, by the number of draws
            "us"
        );
        var conditional = estimator.Estimate([50], points, 4, 1, 1)[0];
        Line(
            "limit state, threshold integrated",
            CpuClock.Seconds(() => estimator.Estimate([50], points, 4, 1, 1))
                / (4.0 * points)
                * 1e9,
            Math.Abs(conditional.Probability - exact),
            "ns"
        );
        var square = 0.0;
        for (var r = 0; r < 40; r++)
        {
            var error = estimator.Estimate([50], 4096, 2, 500 + (ulong)r, 1)[0].Probability - exact;
            square += 2 * error * error / 40;
        }

        Line(
            "limit state, 4096 points",
            CpuClock.Seconds(() => estimator.Estimate([50], 4096, 2, 1, 1)) / 2 * 1e6,
            Math.Sqrt(square),
            "us"
        );
    }

    private static void Functions()
    {
        var x = new double[4096];
        var result = new double[4096];
        new RandomStream(1, "arguments").FillUniform(x);
        Line(
            "erfc",
            CpuClock.Seconds(() => VectorFunctions.Erfc(x, result)) / 4096 * 1e9,
            5e-15,
            "ns"
        );
        Line(
            "exp",
            CpuClock.Seconds(() => VectorFunctions.Exp(x, result)) / 4096 * 1e9,
            4e-16,
            "ns"
        );
        Line(
            "normal quantile",
            CpuClock.Seconds(() => VectorFunctions.NormalQuantile(x, result)) / 4096 * 1e9,
            2e-15,
            "ns"
        );
    }

    // Time against samples, cells × steps (by level), layers and years: points for log-log slopes.
    private static void Growth(SectionSamples sections)
    {
        foreach (var count in new[] { 512, 2048, 8192, 32768 })
        {
            var some = BenchmarkCases.Sections(count);
            var solver = new BatchedOverlaySolver(
                new SectionSolverOptions { Threads = 1, LastLevel = 0 }
            );
            Line(
                FormattableString.Invariant($"growth,samples,{count}"),
                CpuClock.Seconds(() => solver.Solve(some, BenchmarkCases.Years)) * 1e3,
                0,
                "ms"
            );
        }

        for (var level = 0; level <= 4; level++)
        {
            var solver = new BatchedOverlaySolver(
                new SectionSolverOptions
                {
                    Threads = 1,
                    FirstLevel = level,
                    LastLevel = level,
                }
            );
            Line(
                FormattableString.Invariant($"growth,cells times steps,{Work[level]}"),
                CpuClock.Seconds(() => solver.Solve(sections, BenchmarkCases.Years)) * 1e3,
                0,
                "ms"
            );
        }

        foreach (var years in new[] { 15, 30, 60, 120 })
        {
            var solver = new BatchedOverlaySolver(
                new SectionSolverOptions { Threads = 1, LastLevel = 0 }
            );
            double[] times = [.. Enumerable.Range(1, years).Select(i => (double)i)];
            Line(
                FormattableString.Invariant($"growth,years,{years}"),
                CpuClock.Seconds(() => solver.Solve(sections, times)) * 1e3,
                0,
                "ms"
            );
        }

        for (var layers = 1; layers <= 4; layers++)
        {
            var some = BenchmarkCases.Stack(layers, BatchCount);
            var solver = new BatchedOverlaySolver(
                new SectionSolverOptions { Threads = 1, LastLevel = 0 }
            );
            Line(
                FormattableString.Invariant($"growth,layers,{layers}"),
                CpuClock.Seconds(() => solver.Solve(some, BenchmarkCases.Years)) * 1e3,
                0,
                "ms"
            );
        }
    }

    // What the bare stepping costs, and the peak of fused multiply-adds: the distance to the machine's limit.
    private static void Limit()
    {
        if (VectorWidth.InUse != LaneWidth.Eight)
        {
            return;
        }

        var (stepping, nodeSteps) = KernelLimit.Stepping();
        Line(
            "bare stepping of two 512-bit vectors, a node and step",
            stepping / nodeSteps * 1e9,
            0,
            "ns"
        );
        Line(
            "fused multiply-add of a 512-bit vector, peak",
            KernelLimit.PeakSeconds() * 1e9,
            0,
            "ns"
        );
    }

    private static void WriteSections(
        string folder,
        SectionSamples sections,
        SectionHistories reference
    )
    {
        using var cases = new StreamWriter(Path.Combine(folder, "sections.csv"));
        using var values = new StreamWriter(Path.Combine(folder, "reference.csv"));
        var (o, s) = (sections.Layers[0], sections.Layers[1]);
        for (var i = 0; i < BatchCount; i++)
        {
            cases.WriteLine(
                Row([
                    o.ThicknessMm[i],
                    sections.PointDepthMm[i],
                    o.DiffusionMm2PerYr[i],
                    o.AgeingExponent[i],
                    s.DiffusionMm2PerYr[i],
                    s.AgeingExponent[i],
                    sections.SurfaceContent[i],
                    s.Residual!.SurfaceContent[i],
                    s.Residual.SpreadMm2[i],
                    s.Residual.RemovedMm[i],
                    o.ThicknessMm[i] + s.ThicknessMm[i],
                ])
            );
            if (i < CaseCount)
            {
                values.WriteLine(
                    Row([.. Enumerable.Range(0, 60).Select(k => reference.ContentAt(k)[i])])
                );
            }
        }
    }

    private static string Row(double[] values) =>
        string.Join(',', values.Select(v => v.ToString("R", CultureInfo.InvariantCulture)));

    private static void Line(string key, double value, double error, string unit) =>
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"decklife|{key}|{value:G6}|{error:G3}|{unit}"
            )
        );

    private static void Line(string key, string text) =>
        Console.WriteLine($"decklife|{key}|{text}||");
}
