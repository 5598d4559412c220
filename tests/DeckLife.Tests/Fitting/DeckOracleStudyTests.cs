using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.Tests.Fitting;

/// <summary>How far one model on all cores comes towards the least error of ln D that any method can reach.</summary>
public class DeckOracleStudyTests(ITestOutputHelper output)
{
    private const ulong Seed = 815;

    private static readonly SimulatedDeck[] Designs =
    [
        .. new[] { 0.1, 0.2, 0.3, 0.4, 0.6 }.Select(sd => new SimulatedDeck { SdLnDiffusion = sd }),
        new() { Error = 0.2 },
        new() { Error = 0.5 },
        new() { SdLnDiffusion = 0.2, Error = 0.2 },
    ];

    // Root mean square errors of ln D of one design, and the ratio of the deck model's to core by core with its standard error.
    private sealed record Errors(
        double Alone,
        double AloneHeld,
        double Deck,
        double DeckHeld,
        double Oracle,
        double RatioError
    );

    // Six decks, 48 cores: nothing beats the oracle but by chance, and the deck model lies between it and core by core.
    [Fact]
    public void Fit_OfSimulatedDecks_BetweenTheOracleAndCoreByCore()
    {
        var errors = Run(new SimulatedDeck(), 6, sweeps: 2000, withHeld: false);
        output.WriteLine(errors.ToString());

        Assert.True(errors.Oracle < errors.Deck);
        Assert.True(errors.Deck < errors.Alone);
        Assert.InRange(errors.Oracle / errors.Alone, 0.3, 0.65);
    }

    [Fact]
    public void Study_WhenAskedFor_WritesItsTable()
    {
        if (Environment.GetEnvironmentVariable("DECKLIFE_STUDY") != "deck-model-oracle")
        {
            output.WriteLine("skipped: study not asked for");
            return;
        }

        const int Decks = 40;
        var text = new StringBuilder(
            "# Deck model: how near the least error of ln D that any method can reach\n\n"
        );
        text.Append(
            CultureInfo.InvariantCulture,
            $"Written by `bash reference-checks/studies/deck-model-oracle.sh`; seed {Seed}, {Decks} invented decks of 8 cores x 6 slices a line "
        );
        text.Append(
            "(Cs 8 kg/m3, D 30 mm2/yr, s.d. of ln Cs between cores 0.3, correlation -0.2, background 0.15 kg/m3; slices of 12.7 mm from 6.35 mm on, 25 yr; constant errors). "
                + "Root mean square errors of ln D of the cores. Oracle: the mean of ln D given a core's slices where the population of (ln Cs, ln D), the background and the laboratory's error are known exactly; on average over such decks no method has a smaller error. "
                + "Held: the background is given its true value. Ratio: one model, background fitted, over core by core, with its standard error (decks left out in turn).\n\n"
                + "| s.d. of ln D between cores | error [kg/m3] | core by core | same, background held | one model on all cores | same, background held | oracle | ratio | oracle's ratio |\n| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n"
        );
        var lines = new List<(SimulatedDeck Design, Errors Errors)>();
        foreach (var design in Designs)
        {
            var e = Run(design, Decks, sweeps: 2000, withHeld: true);
            lines.Add((design, e));
            text.Append(
                CultureInfo.InvariantCulture,
                $"| {design.SdLnDiffusion} | {design.Error:F2} | {e.Alone:F3} | {e.AloneHeld:F3} | {e.Deck:F3} | {e.DeckHeld:F3} | {e.Oracle:F3} | {e.Deck / e.Alone:F2} ± {e.RatioError:F2} | {e.Oracle / e.Alone:F2} |\n"
            );
        }

        var half = lines.Where(l => l.Errors.Deck / l.Errors.Alone <= 0.55).ToArray();
        text.Append(
            CultureInfo.InvariantCulture,
            $"\nOne model's error is {Range(lines.Select(l => l.Errors.Deck / l.Errors.Alone))} of that of fits core by core; the oracle's {Range(lines.Select(l => l.Errors.Oracle / l.Errors.Alone))}. About half (0.55 or less) on {half.Length} of {lines.Count} lines: "
        );
        text.Append(
            half.Length == 0
                ? "none"
                : string.Join(
                    "; ",
                    half.Select(l =>
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"s.d. {l.Design.SdLnDiffusion}, error {l.Design.Error:F2}"
                        )
                    )
                )
        );
        text.Append(
            CultureInfo.InvariantCulture,
            $". One model's error is {Range(lines.Select(l => l.Errors.Deck / l.Errors.Oracle))} times the oracle's with the background fitted, {Range(lines.Select(l => l.Errors.DeckHeld / l.Errors.Oracle))} times with it held: what eight cores can't tell of their population, of the background and of the laboratory.\n"
        );
        File.WriteAllText(
            Path.Combine(SourceFolder(), "../../../reference-checks/studies/deck-model-oracle.md"),
            text.ToString()
        );
    }

    private static Errors Run(SimulatedDeck design, int decks, int sweeps, bool withHeld)
    {
        var oracle = new DeckOracle(design);
        // Sums of squares by deck: alone, alone with C0 held, deck, deck with C0 held, oracle; and the cores that all of them fit.
        var sums = new double[decks][];
        Parallel.For(0, decks, i => sums[i] = One(design, oracle, (ulong)i, sweeps, withHeld));
        double Root(int column) => Math.Sqrt(sums.Sum(s => s[column]) / sums.Sum(s => s[5]));
        double Without(int i) =>
            Math.Sqrt(
                sums.Where((_, j) => j != i).Sum(s => s[2])
                    / sums.Where((_, j) => j != i).Sum(s => s[0])
            );
        double[] left = [.. Enumerable.Range(0, decks).Select(Without)];
        var mean = left.Average();
        var error = Math.Sqrt((decks - 1.0) / decks * left.Sum(r => (r - mean) * (r - mean)));
        return new Errors(Root(0), Root(1), Root(2), Root(3), Root(4), error);
    }

    private static double[] One(
        SimulatedDeck design,
        DeckOracle oracle,
        ulong index,
        int sweeps,
        bool withHeld
    )
    {
        var (cores, _, truth) = design.Draw(Seed, index);
        var options = new DeckFitOptions
        {
            Weights = SliceWeights.Constant,
            Sweeps = sweeps,
            Draws = 2000,
            Threads = 1,
            Seed = index,
        };
        var own = new ProfileFitOptions { Influence = false, LimitsOverErrorKinds = false };
        var background = ChlorideContent.FromKilogramsPerCubicMetre(design.Background);
        var fit = DeckFitter.Fit(cores, options);
        var held = withHeld
            ? DeckFitter.Fit(
                cores,
                options with
                {
                    Background = BackgroundTreatment.Fixed,
                    FixedBackground = background,
                }
            )
            : fit;
        var sums = new double[6];
        for (var j = 0; j < cores.Length; j++)
        {
            var alone = Alone(cores[j], own);
            var aloneHeld = Alone(
                cores[j],
                own with
                {
                    Background = BackgroundTreatment.Fixed,
                    FixedBackground = background,
                }
            );
            if (alone is not { } a || aloneHeld is not { } b)
            {
                continue;
            }

            double?[] estimates =
            [
                a,
                b,
                Of(fit, cores[j]),
                Of(held, cores[j]),
                oracle.LnDiffusion(cores[j]),
            ];
            for (var k = 0; k < estimates.Length; k++)
            {
                sums[k] += Math.Pow(estimates[k]!.Value - truth[j], 2);
            }

            sums[5]++;
        }

        return sums;
    }

    private static double? Alone(CoreProfile core, ProfileFitOptions options) =>
        ProfileFitter.Fit(core, options).DiffusionCoefficient is { } d ? Math.Log(d.Value) : null;

    private static double Of(DeckFit fit, CoreProfile core) =>
        Math.Log(fit.CoreEstimates.Single(e => e.Core == core.Core).DiffusionCoefficient.Value);

    private static string Range(IEnumerable<double> values)
    {
        var sorted = values.Order().ToArray();
        return string.Create(CultureInfo.InvariantCulture, $"{sorted[0]:F2} to {sorted[^1]:F2}");
    }

    private static string SourceFolder([CallerFilePath] string path = "") =>
        Path.GetDirectoryName(path)!;
}
