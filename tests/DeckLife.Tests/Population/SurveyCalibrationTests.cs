using System.Globalization;
using System.Text;
using DeckLife.Numerics.ImportanceSampling;
using DeckLife.Numerics.Sampling;
using DeckLife.Population;
using DeckLife.Tests.Projection;
using Xunit;
using Xunit.Abstractions;

namespace DeckLife.Tests.Population;

/// <summary>
/// Simulation-based calibration of learning from surveys: truths drawn from what is not known before, surveys simulated from them, and the rank
/// of the truth's damaged share 20 yr on among the learned draws. A small share here; the whole study with
/// DECKLIFE_STUDIES=folder, which writes its table there.
/// </summary>
/// <remarks>Source of the method: Talts, Betancourt, Simpson, Vehtari and Gelman, arXiv:1804.06788 (2018).</remarks>
public sealed class SurveyCalibrationTests(ITestOutputHelper log)
{
    private const ulong Seed = 20_310_701;
    private const double LaterYr = 20;

    private static readonly string? StudyFolder = Environment.GetEnvironmentVariable(
        "DECKLIFE_STUDIES"
    );

    [Fact]
    public void Learn_TruthsFromThePrior_BandIsHonestAndHeldOutNodesAreBetterPredicted()
    {
        var decks = StudyFolder is null ? 200 : 1000;
        var draws = StudyFolder is null ? 4000 : 20_000;
        const int Places = 60;
        const int Nodes = 40;
        var deck = ExampleDecks.Plain with { Surveys = new() { ModelDiscrepancySd = 0.2 } };
        var prior = Shares(deck, draws + decks);
        var covered = 0;
        var ranks = new double[decks];
        double before = 0,
            after = 0,
            effective = 0;
        for (var j = 0; j < decks; j++)
        {
            var truth = prior[draws + j];
            var stream = new RandomStream(Seed, "simulated surveys", (ulong)j);
            var (evidence, heldOut) = Simulate(truth, deck.Surveys, Places, Nodes, stream);
            var likelihood = new SurveyLikelihood(evidence, deck.Surveys);
            var weights = ParetoSmoothedWeights.From([
                .. prior.Take(draws).Select(s => likelihood.Log(s.Damaged, s.Initiated)),
            ]);
            var rank = 0.0;
            for (var i = 0; i < draws; i++)
            {
                rank += prior[i].Later < truth.Later ? weights.Weights[i] : 0;
            }

            ranks[j] = rank;
            covered += rank is > 0.05 and < 0.95 ? 1 : 0;
            effective += weights.EffectiveSampleSize / decks;
            var score = new SurveyLikelihood(
                evidence with
                {
                    UnsoundShare = null,
                    PotentialsMv = heldOut,
                    IndependentNodes = heldOut.Length,
                },
                deck.Surveys
            );
            before += Score(prior, draws, score, _ => 1.0 / draws) / (decks * heldOut.Length);
            after += Score(prior, draws, score, i => weights.Weights[i]) / (decks * heldOut.Length);
        }

        var bins = Enumerable
            .Range(0, 10)
            .Select(b => ranks.Count(r => (int)Math.Min(9, 10 * r) == b))
            .ToArray();
        var chiSquare = bins.Sum(n => Math.Pow(n - decks / 10.0, 2) / (decks / 10.0));
        var coverage = 100.0 * covered / decks;
        Report(decks, draws, Places, Nodes, bins, chiSquare, coverage, effective, before, after);

        // 99.9 % point of χ² with 9 degrees of freedom: 27.88. Coverage of 90: three standard errors of a binomial.
        Assert.True(chiSquare < 27.88, $"ranks are not uniform: {string.Join(' ', bins)}");
        Assert.Equal(90, coverage, 300 * Math.Sqrt(0.09 / decks));
        Assert.True(after > before, "held-out nodes are predicted no better after learning");
    }

    [Fact]
    public void Log_SameStateSeenTwice_NarrowsLessThanTwoIndependentSurveys()
    {
        // 60 places seen by sounding and by half-cell at the same places, against another 60 places for the half-cell.
        var deck = ExampleDecks.Plain with
        {
            Surveys = new(),
        };
        var prior = Shares(deck, 4000);
        var truth = prior.MinBy(s => Math.Abs(s.Damaged - 0.2));
        var (evidence, _) = Simulate(truth, deck.Surveys, 60, 60, new(Seed, "one survey"));

        double Spread(SurveyEvidence seen)
        {
            var likelihood = new SurveyLikelihood(seen, deck.Surveys);
            var weights = ParetoSmoothedWeights.From([
                .. prior.Select(s => likelihood.Log(s.Damaged, s.Initiated)),
            ]);
            var mean = prior.Select((s, i) => s.Damaged * weights.Weights[i]).Sum();
            return Math.Sqrt(
                prior
                    .Select((s, i) => (s.Damaged - mean) * (s.Damaged - mean) * weights.Weights[i])
                    .Sum()
            );
        }

        var sounding = Spread(evidence with { PotentialsMv = [], IndependentNodes = 0 });
        var both = Spread(evidence);
        var twice = Spread(
            evidence with
            {
                PotentialsMv = [],
                IndependentNodes = 0,
                SoundingPlaces = 2 * evidence.SoundingPlaces,
            }
        );

        Assert.True(
            twice < both,
            "a half-cell at the sounded places must not count as a second sounding"
        );
        Assert.True(both <= 1.02 * sounding);
    }

    private static (double Damaged, double Initiated, double Later)[] Shares(Deck deck, int count)
    {
        var cover = new CoverSurvey(0, 55, 55 * 0.18);
        var clock = new ExposureClock(deck.ExposureAge.Years);
        var sampler = new KnowledgeSampler(deck, ExampleDecks.Fit, cover, Seed, count);
        return FixedOrderParallel.Map(
            count,
            i =>
            {
                // Every draw of the fit with equal chance, in no order that the index knows.
                var draw = sampler.Draw(i);
                var area = new UntreatedArea(
                    AreaPoints.From(
                        draw.Population,
                        UnitPoints.ForArea(Seed, i, 128, AreaPoints.Dimensions)
                    ),
                    draw.Population.Threshold,
                    draw.Population.BackgroundKgPerM3,
                    clock
                );
                double At(double years) =>
                    ModelDiscrepancy.Shift(
                        area.DamagedFraction(clock.ExposureAtSurveyYr + years),
                        draw.Discrepancy
                    );
                return (
                    At(0),
                    ModelDiscrepancy.Shift(
                        area.InitiatedFraction(clock.ExposureAtSurveyYr),
                        draw.Discrepancy
                    ),
                    At(LaterYr)
                );
            }
        );
    }

    private static (SurveyEvidence Evidence, double[] HeldOut) Simulate(
        (double Damaged, double Initiated, double Later) truth,
        SurveyModel model,
        int places,
        int nodes,
        RandomStream stream
    )
    {
        var found = 0;
        for (var i = 0; i < places; i++)
        {
            found += stream.NextUniform() < truth.Damaged * model.DetectionProbability ? 1 : 0;
        }

        var seen = truth.Damaged * model.DetectionProbability;
        var corroding = (truth.Initiated - seen) / (1 - seen);
        double Potential() =>
            stream.NextUniform() < corroding
                ? model.ActiveMeanMv + model.ActiveSdMv * stream.NextNormal()
                : model.PassiveMeanMv + model.PassiveSdMv * stream.NextNormal();
        double[] used = [.. Enumerable.Range(0, nodes).Select(_ => Potential())];
        double[] heldOut = [.. Enumerable.Range(0, nodes).Select(_ => Potential())];
        return (
            new()
            {
                UnsoundShare = (double)found / places,
                SoundingPlaces = places,
                PotentialsMv = used,
                IndependentNodes = nodes,
                NodesAreOnSoundPlaces = true,
            },
            heldOut
        );
    }

    // Log of the predictive density of the held-out nodes together.
    private static double Score(
        (double Damaged, double Initiated, double Later)[] prior,
        int draws,
        SurveyLikelihood likelihood,
        Func<int, double> weight
    )
    {
        var logs = new double[draws];
        for (var i = 0; i < draws; i++)
        {
            logs[i] = likelihood.Log(prior[i].Damaged, prior[i].Initiated);
        }

        var largest = logs.Max();
        return largest + Math.Log(logs.Select((l, i) => weight(i) * Math.Exp(l - largest)).Sum());
    }

    private void Report(
        int decks,
        int draws,
        int places,
        int nodes,
        int[] bins,
        double chiSquare,
        double coverage,
        double effective,
        double before,
        double after
    )
    {
        var text = new StringBuilder();
        text.AppendLine(
            CultureInfo.InvariantCulture,
            $"decks {decks}, draws {draws}, independent sounding places {places}, nodes {nodes}, seed {Seed}"
        );
        text.AppendLine(
            CultureInfo.InvariantCulture,
            $"ranks of the damaged share {LaterYr} yr on, ten bins: {string.Join(' ', bins)}; chi-square {chiSquare:F2} (9 degrees of freedom)"
        );
        text.AppendLine(
            CultureInfo.InvariantCulture,
            $"90 % band covers {coverage:F1} of 100; mean effective number of draws {effective:F0}"
        );
        text.AppendLine(
            CultureInfo.InvariantCulture,
            $"log score of a held-out node: {before:F4} before, {after:F4} after learning"
        );
        log.WriteLine(text.ToString());
        if (StudyFolder is not null)
        {
            File.WriteAllText(
                Path.Combine(StudyFolder, "survey-calibration.txt"),
                text.Replace("\r\n", "\n").ToString()
            );
        }
    }
}
