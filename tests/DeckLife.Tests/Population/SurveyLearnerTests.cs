using DeckLife.Numerics.Sampling;
using DeckLife.Population;
using DeckLife.Tests.Projection;
using Xunit;

namespace DeckLife.Tests.Population;

/// <summary>The learner by itself, with far fewer draws than a projection asks for.</summary>
public class SurveyLearnerTests
{
    private static readonly Deck Deck = ExampleDecks.Plain;

    private static readonly SurveyEvidence Sounded = new()
    {
        UnsoundShare = 0.15,
        SoundingPlaces = 30,
    };

    [Fact]
    public void Learn_NothingToLearnFromOrNotAsked_DrawsInTheirOrder()
    {
        var without = Learn(new(), 512);
        var notAsked = Learn(Sounded, 512, Deck with { Surveys = new() { Learn = false } });

        foreach (var draws in new[] { without, notAsked })
        {
            Assert.Equal([0, 1, 2, 3], draws.Before.AsEnumerable());
            Assert.Equal([0, 1, 2, 3], draws.Used.AsEnumerable());
            Assert.Equal(0, draws.Weighed);
            Assert.False(draws.IsLearned);
            Assert.Null(draws.SoundingPredictive);
            Assert.Null(draws.HalfCellPredictive);
            Assert.Null(draws.CorrodingByHalfCell);
        }
    }

    [Fact]
    public void Learn_Sounding_UsedDrawsLieNearerToIt()
    {
        var learner = Learner(Deck, 1024, 100);

        var draws = learner.Learn(Sounded, 200, default);

        Assert.Equal(1024, draws.Weighed);
        Assert.True(draws.IsLearned);
        Assert.InRange(draws.EffectiveSampleSize, 100, 1023);
        Assert.Same(Sounded, draws.Evidence);
        Assert.All(draws.Before.Concat(draws.Used), i => Assert.InRange(i, 0, 1023));
        // Found 15 % with nine in ten found: a sixth is damaged.
        double Spread(IEnumerable<int> which) =>
            which.Average(i => Math.Abs(learner.Shares(i).Damaged - (0.15 / 0.9)));
        Assert.True(Spread(draws.Used) < 0.5 * Spread(draws.Before));
    }

    [Fact]
    public void Learn_BeforeLearning_DrawsStandEvenlyAmongThoseWeighed()
    {
        // Four combs of 512, 49 % into each 128.
        Assert.Equal([62, 190, 318, 446], Learn(Sounded, 512).Before.AsEnumerable());
    }

    [Fact]
    public void Learn_TooFewEffective_MoreAreWeighedByDoublingThenNothingIsCalledLearned()
    {
        var draws = Learner(Deck, 32, 35).Learn(Sounded, 4, default);

        Assert.Contains(draws.Weighed, new[] { 64, 128, 256, 512 });
        Assert.InRange(draws.EffectiveSampleSize, 35, 100);
        Assert.False(draws.IsLearned);
        Assert.Equal(draws.Before.AsEnumerable(), draws.Used);
        // Half as many were not enough.
        Assert.True(
            Learner(Deck, draws.Weighed / 2, 0).Learn(Sounded, 4, default).EffectiveSampleSize < 35
        );
    }

    [Fact]
    public void Learn_SurveyWhereThePredictionsLieOrFarFromThem_ProbabilityOfBeingAsFarOff()
    {
        var learner = Learner(Deck, 512, 0);
        var damaged = Enumerable.Range(0, 512).Select(i => learner.Shares(i).Damaged).Order();
        var middle = damaged.ElementAt(256) * 0.9;
        double Predictive(double share) =>
            learner
                .Learn(new() { UnsoundShare = share, SoundingPlaces = 1e6 }, 4, default)
                .SoundingPredictive!.Value;

        // So many places leave the spread of the predictions alone.
        Assert.InRange(Predictive(middle), 0.97, 1);
        Assert.InRange(Predictive(damaged.ElementAt(51) * 0.9), 0.18, 0.22);
        Assert.InRange(Predictive(damaged.ElementAt(460) * 0.9), 0.18, 0.22);
        Assert.True(Predictive(0.95) < 0.01);
    }

    [Fact]
    public void Learn_PatchedShare_IsNotLookedForByTheSounding()
    {
        // Half of what was ever damaged is patched: sounding finds nine tenths of the other half.
        var learner = Learner(Deck, 512, 0);
        var damaged = Enumerable.Range(0, 512).Select(i => learner.Shares(i).Damaged).Order();
        var found = damaged.ElementAt(256) / 2 * 0.9;

        var draws = learner.Learn(
            new()
            {
                UnsoundShare = found,
                PatchedShare = found / 0.9,
                SoundingPlaces = 1e6,
            },
            4,
            default
        );

        Assert.InRange(draws.SoundingPredictive!.Value, 0.97, 1);
    }

    [Theory]
    [InlineData(0.3)]
    [InlineData(0.8)]
    public void Learn_Potentials_ShareThatCorrodesByThemAlone(double active)
    {
        var draws = Learn(Potentials(active, 2000), 256);

        // Both kinds overlap: the share of 2000 mixed readings has an error of about 0.02.
        Assert.Equal(active, draws.CorrodingByHalfCell!.Value, 0.06);
        Assert.Null(draws.SoundingPredictive);
        Assert.InRange(draws.HalfCellPredictive!.Value, 0, 1);
    }

    [Fact]
    public void Learn_PotentialsAsPredictedOrNot_ToldApart()
    {
        var learner = Learner(Deck, 256, 0);
        var initiated = Enumerable
            .Range(0, 256)
            .Select(i => learner.Shares(i).Initiated)
            .Order()
            .ToArray();
        double Predictive(double active, bool sound) =>
            learner
                .Learn(Potentials(active, 2000) with { NodesAreOnSoundPlaces = sound }, 4, default)
                .HalfCellPredictive!.Value;

        var expected = Predictive(initiated[128], false);
        Assert.True(expected > 0.6, $"{expected}");
        Assert.True(Predictive(1, false) < 0.1);
        // On places that sounding left, only what is active and not damaged is looked for: the same readings are more than that.
        Assert.True(Predictive(initiated[128], true) < expected);
    }

    [Fact]
    public void Shares_OfADraw_AreThoseOfItsAreaShiftedByItsDiscrepancy()
    {
        var clock = new ExposureClock(25);
        var sampler = Sampler(Deck with { Surveys = new() { ModelDiscrepancySd = 0.3 } });
        var shares = Learner(Deck with { Surveys = new() { ModelDiscrepancySd = 0.3 } }, 256, 0)
            .Shares(6);

        var draw = sampler.Draw(6);
        var area = new UntreatedArea(
            AreaPoints.From(draw.Population, UnitPoints.ForArea(7, 6, 256, AreaPoints.Dimensions)),
            draw.Population.Threshold,
            draw.Population.BackgroundKgPerM3,
            clock
        );

        double Score(double share) => NormalQuantile.At(share);
        Assert.NotEqual(0, draw.Discrepancy);
        Assert.Equal(
            Score(area.DamagedFraction(25)) + draw.Discrepancy,
            Score(shares.Damaged),
            1e-6
        );
        Assert.Equal(
            Score(area.InitiatedFraction(25)) + draw.Discrepancy,
            Score(shares.Initiated),
            1e-6
        );
    }

    private static LearnedDraws Learn(SurveyEvidence evidence, int first, Deck? deck = null) =>
        Learner(deck ?? Deck, first, 0).Learn(evidence, 4, default);

    private static SurveyLearner Learner(Deck deck, int first, double aimedAt) =>
        new(deck, Sampler(deck), new(25), new(first, aimedAt));

    private static KnowledgeSampler Sampler(Deck deck) =>
        new(deck, ExampleDecks.Fit, new(0, 55, 10), deck.Analysis.Seed, 20);

    // Of the readings a share over active bars, at the quantiles of the two distributions.
    private static SurveyEvidence Potentials(double active, int count)
    {
        var model = new SurveyModel();
        var corroding = (int)(active * count);
        double At(int i, int of, double mean, double sd) =>
            mean + (sd * NormalQuantile.At((i + 0.5) / of));
        return new()
        {
            PotentialsMv =
            [
                .. Enumerable
                    .Range(0, corroding)
                    .Select(i => At(i, corroding, model.ActiveMeanMv, model.ActiveSdMv)),
                .. Enumerable
                    .Range(0, count - corroding)
                    .Select(i => At(i, count - corroding, model.PassiveMeanMv, model.PassiveSdMv)),
            ],
            IndependentNodes = count,
        };
    }
}
