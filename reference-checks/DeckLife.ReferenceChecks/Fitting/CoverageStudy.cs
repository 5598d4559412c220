using DeckLife.Fitting;
using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.Sampling;
using DeckLife.Profiles;
using DeckLife.Quantities;

namespace DeckLife.ReferenceChecks.Fitting;

/// <summary>Simulated cores of known Cs, D and C0: how often do the 95 % limits hold the truth?</summary>
internal sealed class CoverageStudy
{
    private const double Years = 25;
    private const double DetectionLimit = 0.45;

    /// <summary>The designs: five, six and eight slices, and eight of which the deepest fall below detection.</summary>
    public static IReadOnlyList<(
        string Name,
        double[] EdgesMm,
        bool WithNonDetects
    )> Designs { get; } =
    [
        ("5 slices", [6, 19, 32, 45, 58, 71], false),
        ("6 slices", [6, 19, 32, 45, 58, 71, 84], false),
        ("8 slices", [6, 13, 19, 25, 38, 51, 64, 76, 89], false),
        ("8 slices, non-detects", [6, 13, 19, 25, 38, 51, 64, 76, 89], true),
    ];

    /// <summary>Counts of one cell of the table.</summary>
    /// <param name="Fitted">Cores with estimates.</param>
    /// <param name="AtBound">Of these, with the background at its bound.</param>
    /// <param name="Inner">Coverage of D, Cs, C0 where no bound is active [share].</param>
    /// <param name="Bound">Coverage of D, Cs, C0 where the background is at its bound [share].</param>
    /// <param name="Plain">Coverage of the plain interval for D and Cs, all cores.</param>
    /// <param name="Bias">Mean of ln(D / truth).</param>
    /// <param name="Spread">Standard deviation of ln(D / truth).</param>
    /// <param name="WidthOfD">Median of the upper limit of D over the lower; infinite where half have none.</param>
    /// <param name="WidthOfSurface">Median of the upper limit of Cs over the lower.</param>
    public sealed record Cell(
        int Fitted,
        int AtBound,
        double[] Inner,
        double[] Bound,
        double[] Plain,
        double Bias,
        double Spread,
        double WidthOfD,
        double WidthOfSurface
    );

    /// <summary>Runs one cell.</summary>
    /// <param name="design">Index of the design.</param>
    /// <param name="noise">The laboratory's error.</param>
    /// <param name="options">How the cores are fitted.</param>
    /// <param name="cores">Number of cores.</param>
    /// <param name="seed">Seed.</param>
    public static Cell Run(
        int design,
        CoverageNoise noise,
        ProfileFitOptions options,
        int cores,
        ulong seed
    )
    {
        var inner = new Tally();
        var bound = new Tally();
        var plain = new Tally();
        var logs = new List<double>();
        var widths = (D: new List<double>(), Surface: new List<double>());
        for (var i = 0; i < cores; i++)
        {
            var random = new RandomStream(
                seed,
                FormattableString.Invariant($"coverage {design} {Stream(noise)}"),
                (ulong)i
            );
            var (core, truth) = Simulate(random, design, noise);
            var fit = ProfileFitter.Fit(core, options);
            if (fit.Status == FitStatus.Refused)
            {
                continue;
            }

            logs.Add(Math.Log(fit.DiffusionCoefficient!.Value / truth.D));
            (fit.Background!.IsAtBound ? bound : inner).Add(
                Holds(fit.DiffusionCoefficient, truth.D),
                Holds(fit.SurfaceChloride!, truth.Surface),
                Holds(fit.Background, truth.Background)
            );
            widths.D.Add(Width(fit.DiffusionCoefficient));
            widths.Surface.Add(Width(fit.SurfaceChloride!));
            plain.Add(
                Within(
                    fit.DiffusionCoefficient.PlainLower95,
                    fit.DiffusionCoefficient.PlainUpper95,
                    truth.D
                ),
                Within(
                    fit.SurfaceChloride!.PlainLower95,
                    fit.SurfaceChloride.PlainUpper95,
                    truth.Surface
                ),
                true
            );
        }

        var mean = logs.Average();
        return new Cell(
            logs.Count,
            bound.Count,
            inner.Shares(),
            bound.Shares(),
            plain.Shares(),
            mean,
            Math.Sqrt(logs.Sum(l => Math.Pow(l - mean, 2)) / (logs.Count - 1)),
            Median(widths.D),
            Median(widths.Surface)
        );
    }

    /// <summary>One core: Cs lognormal about 6 kg/m³ (20 %), D about 20 mm²/yr (50 %), C0 uniform to 0.4 kg/m³, 25 yr.</summary>
    public static (CoreProfile Core, (double Surface, double D, double Background) Truth) Simulate(
        RandomStream random,
        int design,
        CoverageNoise noise
    )
    {
        var surface = Math.Exp(Math.Log(6) + (0.2 * random.NextNormal()));
        var d = Math.Exp(Math.Log(20) + (0.5 * random.NextNormal()));
        var background = 0.4 * random.NextUniform();
        var length = 2 * Math.Sqrt(d * Years);
        var (_, edges, withNonDetects) = Designs[design];
        var slices = new List<ChlorideSlice>();
        for (var i = 0; i + 1 < edges.Length; i++)
        {
            var mean =
                background
                + ((surface - background) * SliceMean.Value(edges[i], edges[i + 1], length));
            var sd = noise switch
            {
                CoverageNoise.Constant => 0.12,
                CoverageNoise.Proportional => 0.08 * Math.Max(mean, 0.02 * surface),
                _ => Math.Sqrt(Math.Pow(0.08, 2) + Math.Pow(0.05 * mean, 2)),
            };
            var content = Math.Max(0, mean + (sd * random.NextNormal()));
            var below = withNonDetects && content < DetectionLimit;
            slices.Add(
                new ChlorideSlice
                {
                    Row = i + 2,
                    Top = Depth.FromMillimetres(edges[i]),
                    Bottom = Depth.FromMillimetres(edges[i + 1]),
                    Content = ChlorideContent.FromKilogramsPerCubicMetre(
                        below ? DetectionLimit : content
                    ),
                    IsNonDetect = below,
                }
            );
        }

        return (
            new CoreProfile
            {
                Core = "simulated",
                ExposureAge = Age.FromYears(Years),
                Slices = [.. slices],
            },
            (surface, d, background)
        );
    }

    // The cores of both kinds of noise are those that the study has always drawn.
    private static string Stream(CoverageNoise noise) =>
        noise switch
        {
            CoverageNoise.Constant => "False",
            CoverageNoise.Proportional => "True",
            _ => "both",
        };

    private static double Width(Estimate estimate) =>
        estimate is { Lower95: { } low, Upper95: { } high } && low > 0
            ? high / low
            : double.PositiveInfinity;

    private static double Median(List<double> values) => values.Order().ElementAt(values.Count / 2);

    // A limit that does not exist holds everything on its side; so does the missing lower limit of a background at its bound.
    private static bool Holds(Estimate estimate, double truth) =>
        !(estimate.Lower95 > truth) && !(estimate.Upper95 < truth);

    private static bool Within(double? low, double? high, double truth) =>
        low <= truth && truth <= high;

    private sealed class Tally
    {
        private readonly int[] _held = new int[3];

        public int Count { get; private set; }

        public void Add(params ReadOnlySpan<bool> held)
        {
            Count++;
            for (var i = 0; i < held.Length; i++)
            {
                _held[i] += held[i] ? 1 : 0;
            }
        }

        public double[] Shares() => [.. _held.Select(h => Count > 0 ? h / (double)Count : 0)];
    }
}
