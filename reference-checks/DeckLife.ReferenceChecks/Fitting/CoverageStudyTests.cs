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
        for (var design = 0; design < CoverageStudy.Designs.Count; design++)
        {
            foreach (var proportional in new[] { false, true })
            {
                foreach (var weights in new[] { SliceWeights.Constant, SliceWeights.Relative })
                {
                    text.Append(
                        Line(
                            design,
                            proportional,
                            weights,
                            Run(design, proportional, weights, cores)
                        )
                    );
                }
            }
        }

        text.Append(
            "\nWeights that are not those of the noise do not hold: choose them by what the laboratory says of its error. "
                + "Constant weights (the default) with constant noise, relative weights with proportional noise, are the lines to read. There D and Cs hold 94.5 to 96.6 % where no bound is active and 94.8 % or more where one is; the one-sided limit of a background at its bound holds 88 to 96 %, the least with relative weights (88.2 % of 110 cores, standard error 2.1 %): read that limit as a 90 % one.\n"
        );
        File.WriteAllText(
            Path.Combine(
                Path.GetDirectoryName(ResultsFile.Path)!,
                "studies",
                "profile-coverage.md"
            ),
            text.ToString()
        );
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
