using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.Tests.Fitting;

public class DeckCalibrationTests(ITestOutputHelper output)
{
    private const ulong Seed = 20260;

    [Fact]
    public void Ranks_OfTruthsFromThePriors_AreUniform()
    {
        // A small share of the study: 5 decks of each of five designs, pooled. Chi-square of ten classes with 9 degrees of freedom; the
        // smallest of ten such probabilities falls below 1e-5 once in 10 000 seeds.
        int[][] rows =
        [
            .. DeckCalibration.Designs.SelectMany(d => DeckCalibration.Run(d, 0, 5, Seed)),
        ];
        for (var q = 0; q < DeckCalibration.Quantities.Length; q++)
        {
            int[] ranks = [.. rows.Select(r => r[q]).Where(r => r >= 0)];
            var (chi, probability) = DeckCalibration.Uniformity(ranks);
            Assert.True(
                probability > 1e-5,
                FormattableString.Invariant(
                    $"{DeckCalibration.Quantities[q]}: chi-square {chi:F1}, seed {Seed}"
                )
            );
        }
    }

    [Fact]
    public void Study_WhenAskedFor_WritesItsTable()
    {
        // DECKLIFE_STUDY=deck-model-calibration dotnet test -c Release tests/DeckLife.Tests --filter Study_WhenAskedFor
        if (Environment.GetEnvironmentVariable("DECKLIFE_STUDY") != "deck-model-calibration")
        {
            output.WriteLine("skipped: study not asked for");
            return;
        }

        var decks = int.Parse(
            Environment.GetEnvironmentVariable("DECKLIFE_STUDY_DECKS") ?? "100",
            CultureInfo.InvariantCulture
        );
        var text = new StringBuilder();
        text.Append("# Deck model: simulation-based calibration\n\n");
        text.Append(
            CultureInfo.InvariantCulture,
            $"Written by `bash reference-checks/studies/deck-model-calibration.sh`; seed {Seed}, {decks} decks of each design.\n\n"
        );
        text.Append(
            "Truths drawn from the documented priors, slices drawn from the truths, the posterior drawn by the library's chains; the rank of the truth among 100 draws must be uniform "
                + "(Talts et al. 2018). Chi-square over ten classes has 9 degrees of freedom: 95 % of honest ones lie below 16.9, 99.9 % below 27.9. "
                + "Inside: share of truths within the 90 % interval (95 % limits of one such share at 100 decks: 84 to 96).\n"
        );
        foreach (var design in DeckCalibration.Designs)
        {
            var rows = DeckCalibration.Run(design, 0, decks, Seed);
            text.Append(
                CultureInfo.InvariantCulture,
                $"\n## {design.Name}\n\n| quantity | counts in ten classes | chi-square | probability | inside 90 % | mean rank (50) |\n|---|---|---|---|---|---|\n"
            );
            for (var q = 0; q < DeckCalibration.Quantities.Length; q++)
            {
                int[] ranks = [.. rows.Select(r => r[q])];
                if (ranks[0] < 0)
                {
                    continue;
                }

                var (chi, probability) = DeckCalibration.Uniformity(ranks);
                var counts = new int[10];
                foreach (var rank in ranks)
                {
                    counts[rank * 10 / (DeckCalibration.Ranks + 1)]++;
                }

                // 91 of the 101 possible ranks: 90.1 % expected.
                var inside = 100.0 * ranks.Count(r => r is >= 5 and <= 95) / decks;
                text.Append(
                    CultureInfo.InvariantCulture,
                    $"| {DeckCalibration.Quantities[q]} | {string.Join(' ', counts)} | {chi:F1} | {probability:F3} | {inside:F1} % | {ranks.Average():F1} |\n"
                );
            }
        }

        File.WriteAllText(
            Path.Combine(
                SourceFolder(),
                "../../../reference-checks/studies/deck-model-calibration.md"
            ),
            text.ToString()
        );
    }

    private static string SourceFolder([CallerFilePath] string path = "") =>
        Path.GetDirectoryName(path)!;
}
