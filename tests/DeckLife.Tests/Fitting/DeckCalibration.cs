using DeckLife.Fitting;
using DeckLife.Numerics.MarkovChains;
using DeckLife.Numerics.Sampling;
using DeckLife.Profiles;
using DeckLife.Quantities;

namespace DeckLife.Tests.Fitting;

/// <summary>
/// Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari and Gelman 2018, arXiv:1804.06788): truths drawn from the priors, data drawn
/// from the truths, posteriors from the data; then the rank of each truth among its posterior draws is uniform, or the sampler is wrong.
/// </summary>
internal static class DeckCalibration
{
    public const int Ranks = 100;

    public static readonly string[] Quantities =
    [
        "mean ln Cs",
        "mean ln D",
        "s.d. ln Cs",
        "s.d. ln D",
        "correlation",
        "background",
        "lab error",
        "ageing exponent",
        "ln Cs of core 1",
        "ln D of core 1",
    ];

    public sealed record Design(
        string Name,
        int Cores,
        int Slices,
        SliceWeights Weights = SliceWeights.Constant,
        double DetectionLimit = 0,
        bool TwoAges = false,
        bool Targeted = false
    );

    public static readonly Design[] Designs =
    [
        new("8 cores x 6 slices", 8, 6),
        new("4 cores x 5 slices", 4, 5),
        new("8 x 6, error in proportion", 8, 6, SliceWeights.Relative),
        new("8 x 6, below 0.5 kg/m3 not detected", 8, 6, DetectionLimit: 0.5),
        new("8 x 6, ages 14 and 38 yr, 3 cores targeted", 8, 6, TwoAges: true, Targeted: true),
    ];

    /// <summary>Ranks from 0 to <see cref="Ranks"/>, one row a deck, one column a quantity; quantities that are held have -1.</summary>
    public static int[][] Run(Design design, int first, int decks, ulong seed)
    {
        var rows = new int[decks][];
        Parallel.For(0, decks, i => rows[i] = RankOne(design, seed, (ulong)(first + i)));
        return rows;
    }

    /// <summary>Chi-square of the ranks in ten equal classes, and its upper tail probability with 9 degrees of freedom.</summary>
    public static (double ChiSquare, double Probability) Uniformity(IReadOnlyList<int> ranks)
    {
        var counts = new double[10];
        foreach (var rank in ranks)
        {
            // Ranks + 1 = 101 values: classes of 10.1, the ends shared in proportion.
            var low = rank * 10.0 / (Ranks + 1);
            var high = (rank + 1) * 10.0 / (Ranks + 1);
            var cell = (int)low;
            var inside = Math.Min(high, cell + 1) - low;
            counts[cell] += inside / (high - low);
            if (cell < 9)
            {
                counts[cell + 1] += Math.Max(0, high - (cell + 1)) / (high - low);
            }
        }

        var expected = ranks.Count / 10.0;
        var chi = counts.Sum(c => (c - expected) * (c - expected) / expected);
        return (chi, 1 - MathNet.Numerics.Distributions.ChiSquared.CDF(9, chi));
    }

    private static int[] RankOne(Design design, ulong seed, ulong index)
    {
        var random = new RandomStream(seed, "calibration " + design.Name, index);
        var priors = new DeckPriors();
        var model = Model(design, priors);
        var truth = new double[Quantities.Length];
        truth[0] =
            priors.MeanLnSurfaceChloride + (priors.SdOfMeanLnSurfaceChloride * random.NextNormal());
        truth[1] =
            priors.MeanLnDiffusionCoefficient
            + (priors.SdOfMeanLnDiffusionCoefficient * random.NextNormal());
        truth[2] = Math.Abs(priors.ScaleOfSdLnSurfaceChloride * random.NextNormal());
        truth[3] = Math.Abs(priors.ScaleOfSdLnDiffusionCoefficient * random.NextNormal());
        truth[4] = CorrelationOfShapeTwo(random);
        truth[5] = Math.Abs(priors.ScaleOfBackgroundKgPerM3 * random.NextNormal());
        var scale =
            design.Weights == SliceWeights.Relative
                ? priors.ScaleOfRelativeLabError
                : priors.ScaleOfLabErrorKgPerM3;
        do
        {
            truth[6] = Math.Abs(scale * random.NextNormal());
        } while (Math.Log(truth[6]) < model.LnSmallestError);

        do
        {
            truth[7] = design.TwoAges
                ? priors.MeanAgeingExponent + (priors.SdAgeingExponent * random.NextNormal())
                : 0;
        } while (truth[7] < 0 || truth[7] > priors.LargestAgeingExponent);

        double[] targetedShift =
        [
            priors.SdOfTargetedShift * random.NextNormal(),
            priors.SdOfTargetedShift * random.NextNormal(),
        ];
        var slices = model.Slices;
        var content = new double[slices.SliceCount];
        var censored = new bool[slices.SliceCount];
        var ageShift = new double[design.Cores];
        model.AgeShifts(truth[7], ageShift);
        for (var j = 0; j < design.Cores; j++)
        {
            var a = random.NextNormal();
            var b = random.NextNormal();
            var targeted = model.IsTargeted?[j] ?? 0;
            var lnSurface = truth[0] + (targeted * targetedShift[0]) + (truth[2] * a);
            var lnDiffusion =
                truth[1]
                + ageShift[j]
                + (targeted * targetedShift[1])
                + (truth[3] * ((truth[4] * a) + (Math.Sqrt(1 - (truth[4] * truth[4])) * b)));
            if (j == 0)
            {
                truth[8] = lnSurface;
                truth[9] = lnDiffusion;
            }

            var start = slices.FirstSlice[j];
            var share = new double[slices.FirstSlice[j + 1] - start];
            slices.Shares(j, lnDiffusion, share);
            for (var i = 0; i < share.Length; i++)
            {
                var mean = truth[5] + ((Math.Exp(lnSurface) - truth[5]) * share[i]);
                var sd =
                    design.Weights == SliceWeights.Relative
                        ? Math.Sqrt(
                            (truth[6] * truth[6] * mean * mean)
                                + (priors.SmallestLabErrorKgPerM3 * priors.SmallestLabErrorKgPerM3)
                        )
                        : truth[6];
                var value = mean + (sd * random.NextNormal());
                censored[start + i] = design.DetectionLimit > 0 && value < design.DetectionLimit;
                content[start + i] = censored[start + i] ? design.DetectionLimit : value;
            }
        }

        // 100 draws, 4 chains x 25, each 40 sweeps after the last: nearly independent.
        var posterior = DeckPosterior.Run(
            Model(design, priors, slices.WithContents(content, censored)),
            seed + index,
            4,
            800,
            Ranks / 4,
            40,
            1
        );
        var rank = new int[Quantities.Length];
        var surface = posterior.LnSurface(0);
        var diffusion = posterior.LnDiffusion(0);
        for (var i = 0; i < Ranks; i++)
        {
            var h = posterior.Untargeted(i);
            double[] draw =
            [
                h.MeanLnSurfaceChloride,
                h.MeanLnDiffusionCoefficient,
                h.SdLnSurfaceChloride,
                h.SdLnDiffusionCoefficient,
                h.Correlation,
                h.BackgroundKgPerM3,
                h.RelativeLabError ?? h.LabErrorSdKgPerM3,
                h.AgeingExponent,
                surface[i],
                diffusion[i],
            ];
            for (var q = 0; q < rank.Length; q++)
            {
                rank[q] += draw[q] < truth[q] ? 1 : 0;
            }
        }

        if (!design.TwoAges)
        {
            rank[7] = -1;
        }

        return rank;
    }

    // Density (3/4)(1 - ρ²) on [-1, 1]: the shape 2 of the prior; ρ = 2 B - 1 with B ~ Beta(2, 2), the median of three uniforms.
    private static double CorrelationOfShapeTwo(RandomStream random)
    {
        var a = random.NextUniform();
        var b = random.NextUniform();
        var c = random.NextUniform();
        var median = Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
        return (2 * median) - 1;
    }

    private static DeckModel Model(Design design, DeckPriors priors, DeckSlices? slices = null) =>
        new()
        {
            Priors = priors,
            Slices = slices ?? new DeckSlices(Cores(design), design.Weights),
            ReferenceYears = design.TwoAges ? 38 : 25,
            StartYears = design.TwoAges ? 0.2 : 0,
            FixedAgeingExponent = design.TwoAges ? null : 0,
            IsTargeted = design.Targeted
                ? [.. Enumerable.Range(0, design.Cores).Select(j => j >= 5 ? 1.0 : 0.0)]
                : null,
            TargetedAreaShare = 0.1,
        };

    private static CoreProfile[] Cores(Design design) =>
        [
            .. Enumerable
                .Range(0, design.Cores)
                .Select(j => new CoreProfile
                {
                    Core = $"C{j + 1}",
                    ExposureAge = Age.FromYears(
                        design.TwoAges
                            ? j % 2 == 0
                                ? 14
                                : 38
                            : 25
                    ),
                    Slices =
                    [
                        .. Enumerable
                            .Range(0, design.Slices)
                            .Select(i => new ChlorideSlice
                            {
                                Top = Depth.FromMillimetres(6.35 + (12.7 * i)),
                                Bottom = Depth.FromMillimetres(6.35 + (12.7 * (i + 1))),
                                Content = default,
                            }),
                    ],
                }),
        ];
}
