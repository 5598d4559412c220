using System.Globalization;
using System.Text;
using DeckLife.Fitting;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.ReferenceChecks.Fitting;

public class CoverageStudyTests(ITestOutputHelper output)
{
    private const ulong Seed = 20261125;

    public static TheoryData<int, bool> Cells
    {
        get
        {
            var cells = new TheoryData<int, bool>();
            for (var design = 0; design < CoverageStudy.Designs.Count; design++)
            {
                cells.Add(design, false);
                cells.Add(design, true);
            }

            return cells;
        }
    }

    // The small share that every run does; the study of 2000 cores a cell is in studies/profile-coverage.md.
    [Theory]
    [MemberData(nameof(Cells))]
    public void Limits_WeightsAsTheNoise_HoldTheTruth(int design, bool proportional)
    {
        const int cores = 150;
        var cell = Run(design, proportional, Matching(proportional), cores);
        output.WriteLine(Line(design, proportional, Matching(proportional), cell));

        // Three standard errors of a coverage of 95 % at this number of cores.
        var least = 0.95 - (3 * Math.Sqrt(0.95 * 0.05 / cell.Fitted));
        for (var j = 0; j < 2; j++)
        {
            var held =
                (cell.Inner[j] * (cell.Fitted - cell.AtBound)) + (cell.Bound[j] * cell.AtBound);
            Assert.True(held / cell.Fitted >= least, $"parameter {j}: {held} of {cell.Fitted}");
        }

        Assert.True(cell.Fitted >= 0.98 * cores);
    }

    // That the check above can fail: noise in proportion to the content, fitted as if it were constant, does not hold Cs.
    [Fact]
    public void Limits_ProportionalNoiseFittedAsConstant_TooNarrowForSurfaceContent()
    {
        var cell = Run(1, proportional: true, SliceWeights.Constant, 150);

        Assert.True(cell.Inner[1] < 0.85);
    }

    // The remedy of a fit that does not know its noise: the span over both weightings holds under either.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void SpanOverBothWeights_EitherNoise_HoldsTheTruth(bool proportional)
    {
        const int cores = 150;
        for (var design = 0; design < CoverageStudy.Designs.Count; design++)
        {
            var span = CoverageStudy.RunSpan(design, proportional, cores, Seed);
            output.WriteLine(SpanLine(design, proportional, span));
            var least = 0.95 - (3 * Math.Sqrt(0.95 * 0.05 / span.Fitted));

            Assert.True(span.Fitted >= 0.95 * cores);
            Assert.True(span.D >= least && span.Surface >= least && span.Background >= least);
            Assert.True(span.Flagged > 0.5);
        }
    }

    [Fact]
    public void Study_WhenAskedFor_IsWritten()
    {
        if (Environment.GetEnvironmentVariable("DECKLIFE_STUDY") != "profile-coverage")
        {
            output.WriteLine("skipped: DECKLIFE_STUDY is not profile-coverage");
            return;
        }

        const int cores = 2000;
        var text = new StringBuilder("# Coverage of the 95 % limits of single-core fits\n\n");
        text.Append(
            CultureInfo.InvariantCulture,
            $"Written by `bash reference-checks/studies/profile-coverage.sh`; seed {Seed}, {cores} simulated cores a line, version {typeof(ProfileFitter).Assembly.GetName().Version}.\n\n"
        );
        text.Append(
            "Truth: Cs lognormal about 6 kg/m³ (s.d. of the logarithm 0.2), D about 20 mm²/yr (0.5), C0 uniform from 0 to 0.4 kg/m³, 25 yr. "
                + "Noise: constant, s.d. 0.12 kg/m³; or 8 % of the content, not below that of 2 % of Cs. Non-detects: below 0.45 kg/m³. "
                + "Background fitted, at least 0; limits by profile likelihood with the F(1, n - p) cut. A limit that does not exist counts as holding. "
                + "The standard error of a coverage of 95 % is 0.5 % at 2000 cores and 1.5 % at 200.\n\n"
                + "| design | noise | weights | fitted | at bound | D | Cs | C0 | D, at bound | Cs, at bound | C0, at bound | plain D | plain Cs | bias of ln D | s.d. of ln D |\n"
                + "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n"
        );
        var matching = new List<(string Name, CoverageStudy.Cell Cell)>();
        for (var design = 0; design < CoverageStudy.Designs.Count; design++)
        {
            foreach (var proportional in new[] { false, true })
            {
                foreach (var weights in new[] { SliceWeights.Constant, SliceWeights.Relative })
                {
                    var cell = Run(design, proportional, weights, cores);
                    text.Append(Line(design, proportional, weights, cell));
                    if (weights == Matching(proportional))
                    {
                        var noise = proportional ? "8 %" : "constant";
                        matching.Add(($"{CoverageStudy.Designs[design].Name}, {noise}", cell));
                    }
                }
            }
        }

        text.Append(Summary(matching));
        text.Append(SpanHead);
        for (var design = 0; design < CoverageStudy.Designs.Count; design++)
        {
            foreach (var proportional in new[] { false, true })
            {
                text.Append(
                    SpanLine(
                        design,
                        proportional,
                        CoverageStudy.RunSpan(design, proportional, cores, Seed)
                    )
                );
            }
        }

        File.WriteAllText(
            Path.Combine(
                Path.GetDirectoryName(ResultsFile.Path)!,
                "studies",
                "profile-coverage.md"
            ),
            text.ToString()
        );
    }

    private const string SpanHead =
        "\n## Where the kind of noise is not known\n\n"
        + "A fit with constant weights is set beside one with relative weights; where that widens the limits by more than a quarter it is flagged (DL2022), "
        + "with the span over both. Coverage of that span, all cores, on the same simulated cores:\n\n"
        + "| design | noise | fitted | D | Cs | C0 | flagged |\n| --- | --- | --- | --- | --- | --- | --- |\n";

    private static string SpanLine(
        int design,
        bool proportional,
        (int Fitted, double D, double Surface, double Background, double Flagged) span
    ) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"| {CoverageStudy.Designs[design].Name} | {(proportional ? "8 %" : "constant")} | {span.Fitted} | {100 * span.D:F1} | {100 * span.Surface:F1} | {100 * span.Background:F1} | {100 * span.Flagged:F1} |\n"
        );

    // In words, from the counts themselves.
    private static string Summary(List<(string Name, CoverageStudy.Cell Cell)> lines)
    {
        static string Range(IEnumerable<double> shares)
        {
            var sorted = shares.Order().ToArray();
            return string.Create(
                CultureInfo.InvariantCulture,
                $"{100 * sorted[0]:F1} to {100 * sorted[^1]:F1} %"
            );
        }

        var failing = lines
            .Where(l => l.Cell.Bound[2] < 0.93)
            .Select(l =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{l.Name} ({100 * l.Cell.Bound[2]:F1} % of {l.Cell.AtBound} cores, standard error {100 * Math.Sqrt(0.95 * 0.05 / l.Cell.AtBound):F1} %)"
                )
            )
            .ToArray();
        return "\nWeights that are not those of the noise do not hold: choose them by what the laboratory says of its error. "
            + "Constant weights (the default) with constant noise, relative weights with proportional noise, are the lines to read. "
            + $"There, where no bound is active, D and Cs hold {Range(lines.SelectMany(l => l.Cell.Inner.Take(2)))} and C0 {Range(lines.Select(l => l.Cell.Inner[2]))}; "
            + $"where the background is at its bound, D and Cs hold {Range(lines.SelectMany(l => l.Cell.Bound.Take(2)))} and the upper limit of C0 {Range(lines.Select(l => l.Cell.Bound[2]))}. "
            + (
                failing.Length == 0
                    ? "No line to read falls below 93 %. "
                    : $"Below 93 %: {string.Join("; ", failing)}. "
            )
            + "The upper limit of a background at its bound is the upper end of the set that the two-sided cut leaves. The lower cut of a one-sided 95 % limit (F at twice the tail) held C0 in 88.2 to 97.8 % on the same cores, "
            + "below 93 % on two lines (6 slices, constant: 92.3 %; 8 slices, 8 %: 88.2 %): backgrounds come out at their bound where the errors pulled them down, so the misses gather there.\n";
    }

    private static SliceWeights Matching(bool proportional) =>
        proportional ? SliceWeights.Relative : SliceWeights.Constant;

    private static CoverageStudy.Cell Run(
        int design,
        bool proportional,
        SliceWeights weights,
        int cores
    ) =>
        CoverageStudy.Run(
            design,
            proportional,
            new ProfileFitOptions
            {
                Influence = false,
                CompareWeights = false,
                SkipSurface = 0,
                Weights = weights,
            },
            cores,
            Seed
        );

    private static string Line(
        int design,
        bool proportional,
        SliceWeights weights,
        CoverageStudy.Cell c
    )
    {
        static string Percent(double share) =>
            (100 * share).ToString("F1", CultureInfo.InvariantCulture);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"| {CoverageStudy.Designs[design].Name} | {(proportional ? "8 %" : "constant")} | {weights.ToString().ToLowerInvariant()} | {c.Fitted} | {c.AtBound} | {string.Join(" | ", c.Inner.Select(Percent))} | {string.Join(" | ", c.Bound.Select(Percent))} | {Percent(c.Plain[0])} | {Percent(c.Plain[1])} | {c.Bias:F3} | {c.Spread:F3} |\n"
        );
    }
}
