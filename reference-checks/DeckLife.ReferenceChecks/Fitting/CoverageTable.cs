using System.Globalization;
using System.Text;
using DeckLife.Fitting;

namespace DeckLife.ReferenceChecks.Fitting;

/// <summary>The coverage study as a page: one line a cell, and what the lines say in words.</summary>
internal sealed class CoverageTable
{
    private const double Least = 0.93;
    private const double Most = 0.97;
    private readonly List<Entry> _lines = [];

    /// <summary>Adds a cell.</summary>
    /// <param name="design">Index of the design.</param>
    /// <param name="noise">The laboratory's error.</param>
    /// <param name="weights">What the fit was told of it.</param>
    /// <param name="isMatching">Whether that is right.</param>
    /// <param name="cell">The counts.</param>
    public void Add(
        int design,
        CoverageNoise noise,
        string weights,
        bool isMatching,
        CoverageStudy.Cell cell
    ) => _lines.Add(new Entry(design, noise, weights, isMatching, cell));

    /// <summary>One line of the table.</summary>
    public static string Line(
        int design,
        CoverageNoise noise,
        string weights,
        CoverageStudy.Cell c
    ) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"| {CoverageStudy.Designs[design].Name} | {Name(noise)} | {weights} | {c.Fitted} | {c.AtBound} | {string.Join(" | ", c.Inner.Select(Percent))} | {string.Join(" | ", c.Bound.Select(Percent))} | {Ratio(c.WidthOfD)} | {Ratio(c.WidthOfSurface)} | {Percent(c.Plain[0])} | {Percent(c.Plain[1])} | {c.Bias:F3} | {c.Spread:F3} |\n"
        );

    /// <summary>The page.</summary>
    public string Text(ulong seed, int cores)
    {
        var text = new StringBuilder("# Coverage of the 95 % limits of single-core fits\n\n");
        text.Append(
            CultureInfo.InvariantCulture,
            $"Written by `bash reference-checks/studies/profile-coverage.sh`; seed {seed}, {cores} simulated cores a line, version {typeof(ProfileFitter).Assembly.GetName().Version}.\n\n"
        );
        text.Append(
            "Truth: Cs lognormal about 6 kg/m³ (s.d. of the logarithm 0.2), D about 20 mm²/yr (0.5), C0 uniform from 0 to 0.4 kg/m³, 25 yr. "
                + "Noise: constant, s.d. 0.12 kg/m³; 8 % of the content, not below that of 2 % of Cs; or both, 0.08 kg/m³ and 5 %. Non-detects: below 0.45 kg/m³. "
                + "Weights: what the fit is told of the noise; \"not stated\" is the default, whose limits are taken over the kinds of error from constant to in proportion to the content, as far as the slices leave them likely. "
                + "Background fitted, at least 0; limits by profile likelihood with the F(1, n - p) cut. D, Cs, C0: share of the cores whose limits hold the truth [%], where no bound is active and where the background is at its bound. "
                + "A limit that does not exist counts as holding. Width: median of the upper limit over the lower. Plain: estimate ± t s.e., all cores. "
                + "The standard error of a coverage of 95 % is 0.5 % at 2000 cores and 1.5 % at 200.\n\n"
        );
        text.Append(Summary()).Append('\n');
        text.Append(
            "| design | noise | weights | fitted | at bound | D | Cs | C0 | D, at bound | Cs, at bound | C0, at bound | width of D | width of Cs | plain D | plain Cs | bias of ln D | s.d. of ln D |\n"
                + "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n"
        );
        foreach (var line in _lines)
        {
            text.Append(Line(line.Design, line.Noise, line.Weights, line.Cell));
        }

        return text.ToString();
    }

    private string Summary()
    {
        var text = new StringBuilder();
        Say(text, "Not stated, the default", [.. _lines.Where(l => l.Weights == "not stated")]);
        Say(text, "Stated as the noise is", [.. _lines.Where(l => l.IsMatching)]);
        text.Append(
            "- Stated otherwise than the noise is, limits fail: below 93 % where no bound is active are "
        );
        text.AppendJoin(
            "; ",
            _lines
                .Where(l => l.Weights != "not stated" && !l.IsMatching)
                .SelectMany(l => Cells(l).Where(c => c.Share < Least))
                .Select(c => c.Text)
        );
        return text.Append(".\n").ToString();
    }

    private static void Say(StringBuilder text, string name, Entry[] lines)
    {
        var bound = lines.Where(l => l.Cell.AtBound >= 50).SelectMany(l => l.Cell.Bound);
        text.Append(
            CultureInfo.InvariantCulture,
            $"- {name}: where no bound is active D holds in {Range(lines.Select(l => l.Cell.Inner[0]))}, Cs in {Range(lines.Select(l => l.Cell.Inner[1]))}, C0 in {Range(lines.Select(l => l.Cell.Inner[2]))}; where the background is at its bound, each in {Range(bound)} (cells of 50 cores or more). "
        );
        var wide = lines
            .SelectMany(l => Cells(l).Where(c => c.Share > Most))
            .Select(c => c.Text)
            .ToArray();
        var low = lines
            .SelectMany(l => Cells(l).Where(c => c.Share < Least))
            .Select(c => c.Text)
            .ToArray();
        text.Append(low.Length == 0 ? "None below 93 %" : $"Below 93 %: {string.Join("; ", low)}")
            .Append(
                wide.Length == 0
                    ? "; none above 97 %.\n"
                    : $"; above 97 %, so wider than need be: {string.Join("; ", wide)}.\n"
            );
    }

    private static IEnumerable<(double Share, string Text)> Cells(Entry line)
    {
        string[] names = ["D", "Cs", "C0"];
        for (var j = 0; j < 3; j++)
        {
            var share = line.Cell.Inner[j];
            yield return (
                share,
                $"{names[j]}, {CoverageStudy.Designs[line.Design].Name}, {Name(line.Noise)} noise{(line.Weights == "not stated" || line.IsMatching ? string.Empty : $", {line.Weights} weights")} ({Percent(share)})"
            );
        }
    }

    private static string Range(IEnumerable<double> shares)
    {
        var sorted = shares.Order().ToArray();
        return $"{Percent(sorted[0])} to {Percent(sorted[^1])} %";
    }

    private static string Name(CoverageNoise noise) =>
        noise switch
        {
            CoverageNoise.Constant => "constant",
            CoverageNoise.Proportional => "8 %",
            _ => "both",
        };

    private static string Ratio(double ratio) =>
        double.IsFinite(ratio) ? ratio.ToString("F2", CultureInfo.InvariantCulture) : "none";

    private static string Percent(double share) =>
        (100 * share).ToString("F1", CultureInfo.InvariantCulture);

    private sealed record Entry(
        int Design,
        CoverageNoise Noise,
        string Weights,
        bool IsMatching,
        CoverageStudy.Cell Cell
    );
}
