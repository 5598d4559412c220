using System.Globalization;
using System.Text;
using DeckLife.Fitting;
using DeckLife.Numerics.Sampling;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.Tests.Projection;

/// <summary>
/// Lives of overlays projected for a cohort of decks, beside the published lives of overlays on 133 decks in Virginia: rigid ones 25.9 yr
/// (21 to 32), epoxy 20.9 yr (18 to 22), VTRC 20-R6 (2019), means and 95 % limits as printed. A comparison, not a fit: the inputs are
/// priors, written down before and not moved. A small share here; the whole study with DECKLIFE_STUDIES=folder, which writes its table there.
/// </summary>
/// <remarks>
/// The published end is the agency's decision to replace an overlay, the projected one a share of the area damaged or patched since;
/// no life of its own (bond, cracking, wear) is given to the rigid overlay, so that what is compared is corrosion beneath it alone.
/// Each draw is one deck. Every prior is judgement, in the range of common North American practice.
/// </remarks>
public sealed class OverlayLifeStudyTests(ITestOutputHelper log)
{
    private const ulong Seed = 20_310_702;

    private static readonly string? StudyFolder = Environment.GetEnvironmentVariable(
        "DECKLIFE_STUDIES"
    );

    private static readonly double[] AgesYr = [15, 20, 25, 30];
    private static readonly double[] Limits = [0.05, 0.10, 0.15, 0.20];

    [Fact]
    public void Project_CohortOfOverlaidDecks_LivesBesideThePublishedOnes()
    {
        var draws = StudyFolder is null ? 40 : 500;
        var text = new StringBuilder();
        text.Append(
            CultureInfo.InvariantCulture,
            $"decks {draws * AgesYr.Length} an overlay, overlaid at {string.Join(", ", AgesYr)} yr, seed {Seed}\n"
        );
        text.Append(
            "published (VTRC 20-R6): rigid overlays 25.9 yr (21 to 32), epoxy 20.9 yr (18 to 22)\n"
        );
        text.Append(
            "| overlay | decks by damage at the overlay | decks | end: share damaged or patched since | median [yr] | 5 % | 95 % | beyond 75 yr |\n"
        );
        text.Append("| --- | --- | --- | --- | --- | --- | --- | --- |\n");
        var spans = new List<(bool IsRigid, bool IsChosen, double Low, double High)>();
        foreach (var isRigid in new[] { true, false })
        {
            var cohorts = AgesYr.Select(age => Follow(isRigid, age, draws)).ToArray();
            foreach (var isChosen in new[] { false, true })
            {
                foreach (var limit in Limits)
                {
                    var lives = cohorts
                        .SelectMany(c => Lives(c, limit, isChosen))
                        .Order()
                        .ToArray();
                    double At(double share) => Percentiles.At(lives, share);
                    spans.Add((isRigid, isChosen, At(0.05), At(0.95)));
                    text.Append(
                        CultureInfo.InvariantCulture,
                        $"| {(isRigid ? "rigid, 38 mm" : "epoxy, thin")} | {(isChosen ? "1 to 15 % damaged" : "any")} | {lives.Length} | {limit:0%} | {Years(At(0.5))} | {Years(At(0.05))} | {Years(At(0.95))} | {lives.Count(double.IsInfinity) / (double)lives.Length:0.00} |\n"
                    );
                }
            }
        }

        log.WriteLine(text.ToString());
        if (StudyFolder is not null)
        {
            File.WriteAllText(Path.Combine(StudyFolder, "overlay-lives.txt"), text.ToString());
        }

        // Later ends take longer, for every cohort; the published means lie within the spread of decks for some limit in use.
        foreach (var cohort in spans.Chunk(Limits.Length))
        {
            for (var n = 1; n < cohort.Length; n++)
            {
                Assert.True(cohort[n].Low >= cohort[n - 1].Low);
            }
        }

        Assert.Contains(spans, s => s.IsRigid && s.IsChosen && s.Low < 25.9 && s.High > 25.9);
        Assert.Contains(spans, s => !s.IsRigid && s.IsChosen && s.Low < 20.9 && s.High > 20.9);
    }

    private static string Years(double value) =>
        double.IsInfinity(value) ? "–" : value.ToString("0.0", CultureInfo.InvariantCulture);

    // An agency overlays decks with some damage and replaces those with much: 1 to 15 % of the area, judgement.
    private static IEnumerable<double> Lives(StrategyDraw[] decks, double limit, bool isChosen)
    {
        var chosen = decks.Where(d => !isChosen || d.Damaged[0] is >= 0.01 and <= 0.15).ToArray();
        return new StrategyLives(
            ExampleDecks.Plain with
            {
                DamageLimit = limit,
                DamageLimitCountsPatches = true,
                Horizon = Age.FromYears(75),
            },
            chosen
        ).Deck;
    }

    private static StrategyDraw[] Follow(bool isRigid, double ageYr, int draws)
    {
        var deck = ExampleDecks.Plain with
        {
            ExposureAge = Age.FromYears(ageYr),
            AgeingExponent = 0,
            StatedCoverMm = new(50, 0.2, SpreadShape.Normal),
            Threshold = ExampleDecks.Plain.Threshold with
            {
                Content = new(1.4, 0.5, SpreadShape.Lognormal),
            },
            Propagation = new()
            {
                Period = new(6, 0.4, SpreadShape.Lognormal),
                Source = "judgement",
            },
            CorrosionRateUnderOverlay = 1,
            Materials =
            [
                new()
                {
                    Name = "rigid",
                    DiffusionCoefficient = new(40, 0.5, SpreadShape.Lognormal),
                    AgeingExponent = 0.2,
                    ReferenceAge = Age.FromDays(28),
                    AgeAtExposure = Age.FromDays(28),
                    ConstantAfter = Age.FromYears(25),
                    Source = "judgement",
                },
            ],
            Protections =
            [
                new()
                {
                    Name = "epoxy",
                    Kind = ProtectionKind.Barrier,
                    PassingFraction = 0.05,
                    ServiceLife = new(15, 0.3, SpreadShape.Lognormal),
                    Source = "judgement: 10 to 20 yr is what owners plan with",
                },
            ],
            Strategies =
            [
                new()
                {
                    Name = "overlay",
                    Interventions =
                    [
                        isRigid
                            ? new()
                            {
                                At = Age.FromYears(0),
                                Removal = new FixedDepthRemoval(Depth.FromMillimetres(12.7)),
                                Overlay = new("rigid", Depth.FromMillimetres(38.1)),
                            }
                            : new() { At = Age.FromYears(0), Protection = new("epoxy") },
                    ],
                },
            ],
            Horizon = Age.FromYears(75),
            Prices = null,
            Surveys = new() { Learn = false },
            Analysis = new()
            {
                Seed = Seed,
                Draws = draws,
                Points = 128,
            },
        };
        var clock = new ExposureClock(ageYr);
        var sampler = new KnowledgeSampler(
            deck,
            Cohort(draws),
            new(0, deck.StatedCoverMm!.Value.Mean, 10),
            Seed,
            draws
        );
        var centre = sampler.Centre();
        var plan = new StrategyPlanner(
            deck,
            centre,
            AreaPoints.From(
                centre.Population,
                UnitPoints.ForArea(Seed, -1, 256, AreaPoints.Dimensions)
            ),
            clock
        ).Plan(deck.Strategies[0], out _)!;
        var run = new ProjectionRun(
            deck,
            clock,
            new BatchedSectionSolver(),
            sampler,
            null,
            CancellationToken.None
        );
        return run.Follow([plan], [.. Enumerable.Range(0, draws)])[0];
    }

    // Decks of one climate differ more than places of one deck do: medians over the cohort, then the spread within a deck.
    private static DeckFit Cohort(int draws) =>
        ExampleDecks.Fitted(0) with
        {
            Draws =
            [
                .. Enumerable
                    .Range(0, draws)
                    .Select(n =>
                    {
                        var stream = new RandomStream(Seed, "decks of the cohort", (ulong)n);
                        return new DeckHyperDraw(
                            Math.Log(5) + 0.35 * stream.NextNormal(),
                            Math.Log(45) + 0.6 * stream.NextNormal(),
                            0.35,
                            0.4,
                            0,
                            0.15,
                            0.1
                        );
                    }),
            ],
        };
}
