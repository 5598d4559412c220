using System.Collections.Immutable;
using DeckLife.Numerics.ImportanceSampling;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Population;

/// <summary>Learns from the deck's own surveys before anything is projected: many cheap draws are weighed by how well they predict them.</summary>
/// <remarks>
/// Source: importance sampling from the prior with Pareto-smoothed weights (Vehtari et al., Journal of Machine Learning Research 25, 2024; memory).
/// A survey that was learned from is never called validation.
/// </remarks>
internal sealed class SurveyLearner
{
    /// <summary>Most draws weighed: three doublings of the first 20 000, a numerical choice of time; what it leaves short is flagged.</summary>
    public const int MostDraws = 160_000;

    /// <summary>Effective number below which nothing is called learned.</summary>
    /// <remarks>Judgement: the 5 % point of a band from 100 draws has a standard error of 2.2 % in probability, √(0.05·0.95/100); 3.1 % at half, 1.5 % at twice.</remarks>
    public const double LeastEffective = 100;

    // Numerical choice. Measured on the demonstration deck, 400 draws: 128 choose other draws, and medians of shares move by up to 1.2 % of the area, ends
    // of the band by 1.7 %: no more than the draws' own chance.
    private const int Points = 256;

    private readonly Deck deck;
    private readonly KnowledgeSampler sampler;
    private readonly ExposureClock clock;
    private readonly ulong seed;
    private readonly int threads;
    private readonly LearningEffort effort;

    /// <summary>Prepares the learner.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="sampler">Where the draws come from.</param>
    /// <param name="clock">How diffusion adds up.</param>
    /// <param name="effort">How many draws are weighed.</param>
    public SurveyLearner(
        Deck deck,
        KnowledgeSampler sampler,
        ExposureClock clock,
        LearningEffort effort
    )
    {
        this.effort = effort;
        this.deck = deck;
        this.sampler = sampler;
        this.clock = clock;
        seed = deck.Analysis.Seed;
        threads = deck.Analysis.Threads ?? 0;
    }

    /// <summary>Finds the draws to project with.</summary>
    /// <param name="evidence">What the surveys found.</param>
    /// <param name="count">Number of draws wanted.</param>
    /// <param name="cancellation">Ends it early.</param>
    public LearnedDraws Learn(SurveyEvidence evidence, int count, CancellationToken cancellation)
    {
        if (!deck.Surveys.Learn || evidence.IsEmpty)
        {
            var all = ImmutableArray.CreateRange(Enumerable.Range(0, count));
            return new() { Before = all, Used = all };
        }

        var likelihood = new SurveyLikelihood(evidence, deck.Surveys);
        var shares = new List<(double Damaged, double Initiated)>();
        ParetoSmoothedWeights weights;
        do
        {
            var from = shares.Count;
            var more = from == 0 ? effort.FirstDraws : from;
            shares.AddRange(
                FixedOrderParallel.Map(more, i => Shares(from + i), threads, cancellation)
            );
            weights = ParetoSmoothedWeights.From([
                .. shares.Select(s => likelihood.Log(s.Damaged, s.Initiated)),
            ]);
        } while (weights.EffectiveSampleSize < effort.AimedAt && shares.Count < MostDraws);

        var learned = weights.EffectiveSampleSize >= LeastEffective;
        // One comb for both, so that surveys which say nothing change nothing; off the middle, where rounding would decide.
        const double Comb = 0.49;
        var before = ImmutableArray.CreateRange(
            Enumerable.Range(0, count).Select(k => (int)((k + Comb) / count * shares.Count))
        );
        var corroding = CorrodingByHalfCell(evidence, deck.Surveys);
        return new()
        {
            Before = before,
            Used = learned ? [.. weights.Resample(count, Comb)] : before,
            Weighed = shares.Count,
            EffectiveSampleSize = weights.EffectiveSampleSize,
            ParetoShape = weights.Shape,
            IsLearned = learned,
            Evidence = evidence,
            SoundingPredictive = evidence.UnsoundShare is { } unsound
                ? TwoSided(
                    shares,
                    unsound,
                    s =>
                        s.Damaged
                        * likelihood.UnpatchedAmongDamaged
                        * deck.Surveys.DetectionProbability,
                    p => Math.Sqrt(p * (1 - p) / evidence.SoundingPlaces)
                )
                : null,
            HalfCellPredictive = corroding is { } c
                ? TwoSided(
                    shares,
                    c.Share,
                    s =>
                        evidence.NodesAreOnSoundPlaces
                            ? (s.Initiated - s.Damaged) / Math.Max(1e-9, 1 - s.Damaged)
                            : s.Initiated,
                    _ => c.Error
                )
                : null,
            CorrodingByHalfCell = corroding?.Share,
        };
    }

    /// <summary>Shares of the deck damaged and initiated at the survey in one draw.</summary>
    /// <param name="index">Index of the draw.</param>
    internal (double Damaged, double Initiated) Shares(int index)
    {
        var draw = sampler.Draw(index);
        var points = AreaPoints.From(
            draw.Population,
            UnitPoints.ForArea(seed, index, Points, AreaPoints.Dimensions)
        );
        var area = UntreatedArea.Of(draw.Population, points, clock);
        return (
            ModelDiscrepancy.Shift(
                area.DamagedFraction(clock.ExposureAtSurveyYr),
                draw.Discrepancy
            ),
            ModelDiscrepancy.Shift(
                area.InitiatedFraction(clock.ExposureAtSurveyYr),
                draw.Discrepancy
            )
        );
    }

    // The mixture's own estimate of the corroding share, by its maximum on a grid, with the error that its curvature gives.
    private static (double Share, double Error)? CorrodingByHalfCell(
        SurveyEvidence evidence,
        SurveyModel model
    )
    {
        if (evidence.PotentialsMv.Count == 0)
        {
            return null;
        }

        var alone = new SurveyLikelihood(
            evidence with
            {
                UnsoundShare = null,
                PatchedShare = 0,
                NodesAreOnSoundPlaces = false,
            },
            model
        );
        const int Steps = 200;
        var best = 0;
        var logs = new double[Steps + 1];
        for (var i = 0; i <= Steps; i++)
        {
            logs[i] = alone.Log(0, (double)i / Steps);
            best = logs[i] > logs[best] ? i : best;
        }

        // Spread of the normalised likelihood over the grid: exists at the ends too.
        double mass = 0,
            mean = 0,
            square = 0;
        for (var i = 0; i <= Steps; i++)
        {
            var weight = Math.Exp(logs[i] - logs[best]);
            var share = (double)i / Steps;
            mass += weight;
            mean += weight * share;
            square += weight * share * share;
        }

        mean /= mass;
        return (mean, Math.Sqrt(Math.Max(0, square / mass - mean * mean)) + 0.005);
    }

    private static double TwoSided(
        List<(double Damaged, double Initiated)> shares,
        double observed,
        Func<(double Damaged, double Initiated), double> predicted,
        Func<double, double> error
    )
    {
        var below = shares.Average(s =>
        {
            var p = predicted(s);
            var sd = Math.Max(error(p), 1e-4);
            return NormalQuantile.Probability((observed - p) / sd);
        });
        return 2 * Math.Min(below, 1 - below);
    }
}
