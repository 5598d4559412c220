using DeckLife.Population;
using Xunit;

namespace DeckLife.Tests.Population;

public class ModelDiscrepancyTests
{
    [Theory]
    [InlineData(0.5, 1, 0.8413447460685429)] // Φ(1)
    [InlineData(0.15865525393145707, 1, 0.5)] // Φ(−1 + 1)
    [InlineData(0.5, -2, 0.02275013194817921)] // Φ(−2)
    [InlineData(0, 1, 0)] // nothing stays nothing
    [InlineData(1, -1, 1)] // and all stays all
    [InlineData(0.3, 0, 0.3)]
    public void Shift_OfTheNormalScore_TabledValues(double share, double shift, double expected) =>
        Assert.Equal(expected, ModelDiscrepancy.Shift(share, shift), 1e-9);

    [Theory]
    [InlineData(1, 10)] // ten effective draws for each of the projection
    [InlineData(12, 120)]
    [InlineData(40, 400)]
    [InlineData(100, 400)] // no more than for one deck by itself
    public void OfANetwork_FewDraws_TenEffectiveEach(int draws, double expected)
    {
        Assert.Equal(expected, LearningEffort.OfANetwork(draws).AimedAt);
        Assert.Equal(400, LearningEffort.Full.AimedAt);
        Assert.Equal(400, LearningEffort.OfAnExploration.AimedAt);
    }

    [Fact]
    public void ShareBeyond_LimitAtAMeanAndADeviationAway_IsHalfAndASixth()
    {
        var model = new SurveyModel
        {
            ActiveMeanMv = -350,
            ActiveSdMv = 70,
            PassiveMeanMv = -200,
            PassiveSdMv = 80,
        };

        // Where not stated: −207 and −354 mV (Faber and Sørensen, Structural Safety 24, 2002; memory), and the surveys are learned from.
        Assert.Equal(
            (-207.0, -354.0),
            (new SurveyModel().PassiveMeanMv, new SurveyModel().ActiveMeanMv)
        );
        Assert.True(new SurveyModel().Learn);
        Assert.Equal(0.5, model.ActiveShareBeyond(-350), 1e-12);
        Assert.Equal(0.15865525393145707, model.ActiveShareBeyond(-420), 1e-9);
        Assert.Equal(0.5, model.PassiveShareBeyond(-200), 1e-12);
        Assert.Equal(0.8413447460685429, model.PassiveShareBeyond(-120), 1e-9);
    }
}
