using DeckLife.Fitting;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.ReferenceChecks.Fitting;

public class CoverageStudyTests(ITestOutputHelper output)
{
    private const ulong Seed = 20261125;

    private static readonly ProfileFitOptions Unstated = new()
    {
        Influence = false,
        SkipSurface = 0,
    };

    private static readonly ProfileFitOptions Constant = Unstated with
    {
        LimitsOverErrorKinds = false,
    };

    private static readonly ProfileFitOptions Relative = Constant with
    {
        Weights = SliceWeights.Relative,
    };

    public static TheoryData<int, CoverageNoise> Cells
    {
        get
        {
            var cells = new TheoryData<int, CoverageNoise>();
            for (var design = 0; design < CoverageStudy.Designs.Count; design++)
            {
                cells.Add(design, CoverageNoise.Constant);
                cells.Add(design, CoverageNoise.Proportional);
            }

            return cells;
        }
    }

    // The small share that every run does; the study of 2000 cores a cell is in studies/profile-coverage.md.
    [Theory]
    [MemberData(nameof(Cells))]
    public void Limits_WeightsAsTheNoise_HoldTheTruth(int design, CoverageNoise noise) =>
        Holds(design, noise, Matching(noise)!, parameters: 2);

    // The default does not know the noise, and holds under either kind, background included.
    [Theory]
    [MemberData(nameof(Cells))]
    public void Limits_WeightsNotStated_HoldTheTruth(int design, CoverageNoise noise) =>
        Holds(design, noise, Unstated, parameters: 3);

    // That the checks above can fail: noise in proportion to the content, fitted as if it were constant, does not hold Cs.
    [Fact]
    public void Limits_ProportionalNoiseFittedAsConstant_TooNarrowForSurfaceContent()
    {
        var cell = CoverageStudy.Run(1, CoverageNoise.Proportional, Constant, 150, Seed);

        Assert.True(cell.Inner[1] < 0.85);
    }

    // And the other way round: constant noise, fitted as if it were proportional, does not hold C0.
    [Fact]
    public void Limits_ConstantNoiseFittedAsProportional_TooNarrowForBackground()
    {
        var cell = CoverageStudy.Run(2, CoverageNoise.Constant, Relative, 150, Seed);

        Assert.True(cell.Inner[2] < 0.85);
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
        (string Name, ProfileFitOptions Options)[] weights =
        [
            ("constant", Constant),
            ("relative", Relative),
            ("not stated", Unstated),
        ];
        var lines = (
            from design in Enumerable.Range(0, CoverageStudy.Designs.Count)
            from noise in Enum.GetValues<CoverageNoise>()
            from w in weights
            select (Design: design, Noise: noise, w.Name, w.Options)
        ).ToArray();
        var cells = new CoverageStudy.Cell[lines.Length];
        Parallel.For(
            0,
            lines.Length,
            i =>
                cells[i] = CoverageStudy.Run(
                    lines[i].Design,
                    lines[i].Noise,
                    lines[i].Options,
                    cores,
                    Seed
                )
        );
        var table = new CoverageTable();
        for (var i = 0; i < lines.Length; i++)
        {
            var (design, noise, name, options) = lines[i];
            table.Add(design, noise, name, ReferenceEquals(options, Matching(noise)), cells[i]);
        }

        var studies = Path.Combine(Path.GetDirectoryName(ResultsFile.Path)!, "studies");
        File.WriteAllText(Path.Combine(studies, "profile-coverage.md"), table.Text(Seed, cores));
    }

    private void Holds(int design, CoverageNoise noise, ProfileFitOptions options, int parameters)
    {
        const int cores = 150;
        var cell = CoverageStudy.Run(design, noise, options, cores, Seed);
        output.WriteLine(CoverageTable.Line(design, noise, options.Weights.ToString(), cell));

        // Three standard errors of a coverage of 95 % at this number of cores.
        var least = 0.95 - (3 * Math.Sqrt(0.95 * 0.05 / cell.Fitted));
        for (var j = 0; j < parameters; j++)
        {
            var held =
                (cell.Inner[j] * (cell.Fitted - cell.AtBound)) + (cell.Bound[j] * cell.AtBound);
            Assert.True(held / cell.Fitted >= least, $"parameter {j}: {held} of {cell.Fitted}");
        }

        Assert.True(cell.Fitted >= 0.98 * cores);
    }

    // What a laboratory that states its kind of error asks for; of errors of both kinds neither is right.
    private static ProfileFitOptions? Matching(CoverageNoise noise) =>
        noise switch
        {
            CoverageNoise.Constant => Constant,
            CoverageNoise.Proportional => Relative,
            _ => null,
        };
}
