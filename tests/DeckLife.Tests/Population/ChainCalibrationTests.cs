using System.Collections.Immutable;
using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using DeckLife.Numerics.Sampling;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.Tests.Population;

/// <summary>
/// The whole chain (cores, covers, sounding, half-cell; fit, learning, projection) on decks simulated place by place. A few decks here; the study
/// writes its tables when asked for.
/// </summary>
public class ChainCalibrationTests(ITestOutputHelper output)
{
    private const ulong Seed = 20_260;

    private static readonly Deck Stated = DeckTruth.Stated;

    [Fact]
    public void Run_TruthsFromWhatIsStated_BandHoldsMostOfThem()
    {
        const int Decks = 10;

        var outcomes = ChainCalibration.FromPriors(Stated, Decks, Seed);

        Assert.Equal(Decks, outcomes.Length);
        var inside = outcomes.Sum(o => o.Inside.Count(i => i));
        // Ten decks at four times; fewer than 26 of 40 would be a band that holds two thirds.
        Assert.True(
            inside >= 26,
            FormattableString.Invariant($"{inside} of 40 inside the 90 % band, seed {Seed}")
        );
    }

    [Fact]
    public void Study_Chain_WhenAskedFor()
    {
        // DECKLIFE_STUDY=chain-calibration DECKLIFE_STUDY_DECKS=1000 DECKLIFE_STUDY_ADVERSE=20 dotnet test -c Release tests/DeckLife.Tests --filter Study_Chain
        if (Environment.GetEnvironmentVariable("DECKLIFE_STUDY") != "chain-calibration")
        {
            output.WriteLine("skipped: study not asked for");
            return;
        }

        var decks = Number("DECKLIFE_STUDY_DECKS", 1000);
        var adverse = Number("DECKLIFE_STUDY_ADVERSE", 20);
        var text = new StringBuilder();
        text.Append("# Is the band honest? The whole chain on simulated decks\n\n");
        text.Append(
            CultureInfo.InvariantCulture,
            $"Written by `bash reference-checks/studies/chain-calibration.sh`; seed {Seed}, {decks} decks from what is stated, {adverse} of each adverse kind. "
        );
        text.Append(
            "Each deck is simulated place by place (48 x 12 cells of 1 m²: cover, Cs, D and threshold as fields with 60 % smooth variance over 4 m and 40 % local), then surveyed: "
                + "8 cores of 6 slices, 100 cover readings, 256 potentials, every damaged cell found with the stated probability and outlined with the stated error of the whole marked area. What the model "
                + "states of itself is in the truth: each deck's shares are shifted by a discrepancy drawn from the stated one. Cores are fitted as a deck, the projection "
                + "learns from the surveys, and the damaged share of the simulated deck itself is held against the 90 % band. All inputs invented.\n\n"
        );
        var all = ChainCalibration.FromPriors(Stated, decks, Seed);
        text.Append(
            "## Truths from what is stated\n\nMeans of Cs, D and cover, their spreads, threshold, propagation, laboratory error and the model's discrepancy drawn anew for each deck.\n\n"
        );
        text.Append(Head());
        text.Append(Row("all", all));
        text.Append("\n## Fixed adverse truths\n\n");
        text.Append(
            "Reported, not gated: where reality departs from the model, no band can promise its share. Said: decks where a survey was said to contradict the model, "
                + "or learning not to be trusted.\n\n"
        );
        text.Append(Head());
        foreach (var (name, truth) in ChainCalibration.Adverse)
        {
            var outcomes = FixedOrderParallel
                .Map(
                    adverse,
                    i => ChainCalibration.Run(truth, Stated, Seed, (ulong)i, keepsRecord: true)
                )
                .OfType<ChainCalibration.Outcome>()
                .ToImmutableArray();
            text.Append(Row(name, outcomes));
        }

        File.WriteAllText(
            Path.Combine(
                Folder(),
                "..",
                "..",
                "..",
                "reference-checks",
                "studies",
                "chain-calibration.md"
            ),
            text.ToString()
        );
    }

    private static int Number(string name, int otherwise) =>
        int.TryParse(
            Environment.GetEnvironmentVariable(name),
            CultureInfo.InvariantCulture,
            out var number
        )
            ? number
            : otherwise;

    private static string Head() =>
        "| truth | decks | inside now | inside 10 yr on | inside 20 yr on | inside 40 yr on | of the misses, truth below | year of 10 % inside | mean width 20 yr on | median less truth 20 yr on | said |\n"
        + "|---|---|---|---|---|---|---|---|---|---|---|\n";

    private static string Row(string name, ImmutableArray<ChainCalibration.Outcome> outcomes)
    {
        if (outcomes.IsEmpty)
        {
            return FormattableString.Invariant(
                $"| {name} | 0: no deck could be fitted | | | | | | | | | |\n"
            );
        }

        string Percent(double share) => FormattableString.Invariant($"{100 * share:F1} %");
        var years = Enumerable.Range(0, ChainCalibration.Years.Length).ToArray();
        var misses = outcomes.Sum(o => o.Inside.Count(i => !i));
        var inside = string.Join(
            " | ",
            years.Select(y => Percent(outcomes.Average(o => o.Inside[y] ? 1.0 : 0)))
        );
        return FormattableString.Invariant(
            $"| {name} | {outcomes.Length} | {inside} | {outcomes.Sum(o => o.Below.Count(b => b))} of {misses} | {Percent(outcomes.Average(o => o.LimitInside ? 1.0 : 0))} | {outcomes.Average(o => o.Width):F3} | {outcomes.Average(o => o.Miss):F3} | {outcomes.Count(o => o.IsFlagged)} |\n"
        );
    }

    private static string Folder([CallerFilePath] string path = "") => Path.GetDirectoryName(path)!;
}
