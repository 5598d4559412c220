using BenchmarkDotNet.Attributes;
using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Benchmarks;

/// <summary>The kernels that everything stands on; allocations beside times.</summary>
[MemoryDiagnoser]
public class KernelBenchmarks
{
    private readonly SectionSamples _sections = BenchmarkCases.Sections(2048);
    private readonly BatchedOverlaySolver _solver = new(new SectionSolverOptions { Threads = 1 });
    private readonly BatchedOverlaySolver _pair = new(new SectionSolverOptions { Threads = 2 });
    private readonly BatchedOverlaySolver _scalar = new(
        new SectionSolverOptions { Threads = 1, Width = LaneWidth.Scalar }
    );
    private readonly double[] _profiles = BenchmarkCases.Profiles(2048);
    private readonly BatchedProfileFit _fit = new(BenchmarkCases.Tops, BenchmarkCases.Bottoms);
    private readonly ConditionalEstimator _estimator = new(BenchmarkCases.LimitState);
    private readonly double[] _values = new double[4096];

    /// <summary>2048 layered histories, one thread.</summary>
    [Benchmark]
    public SectionHistories LayeredHistories() => _solver.Solve(_sections, BenchmarkCases.Years);

    /// <summary>2048 layered histories, two threads.</summary>
    [Benchmark]
    public SectionHistories LayeredHistoriesTwoThreads() =>
        _pair.Solve(_sections, BenchmarkCases.Years);

    /// <summary>2048 layered histories without vectors.</summary>
    [Benchmark]
    public SectionHistories LayeredHistoriesScalar() =>
        _scalar.Solve(_sections, BenchmarkCases.Years);

    /// <summary>2048 fits of surface content, D t and background.</summary>
    [Benchmark]
    public BatchedFits ProfileFits() => _fit.Fit(_profiles);

    /// <summary>2 × 4096 points of the closed-form limit state, threshold and surface content integrated out.</summary>
    [Benchmark]
    public ProbabilityEstimate[] ConditionalEstimate() => _estimator.Estimate([50], 4096, 2, 1, 1);

    /// <summary>4096 standard normal numbers from a random stream.</summary>
    [Benchmark]
    public double Normals()
    {
        new RandomStream(1, "benchmark").FillNormal(_values);
        return _values[0];
    }
}
