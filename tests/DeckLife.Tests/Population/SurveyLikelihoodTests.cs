using DeckLife.Population;
using Xunit;

namespace DeckLife.Tests.Population;

public class SurveyLikelihoodTests
{
    private static readonly SurveyModel Model = new() { DetectionProbability = 0.8 };

    // 16 % found of 20 % there, and 5 % patched: a fifth of all ever damaged.
    private static readonly SurveyEvidence Sounded = new()
    {
        UnsoundShare = 0.16,
        PatchedShare = 0.05,
        SoundingPlaces = 70,
    };

    [Fact]
    public void UnpatchedAmongDamaged_FoundAndPatched_CountsTheMissedToo()
    {
        Assert.Equal(0.8, new SurveyLikelihood(Sounded, Model).UnpatchedAmongDamaged, 1e-12);
        Assert.Equal(1, new SurveyLikelihood(new(), Model).UnpatchedAmongDamaged);
        Assert.Equal(
            0,
            new SurveyLikelihood(new() { PatchedShare = 0.1 }, Model).UnpatchedAmongDamaged
        );
    }

    [Theory]
    [InlineData(0.10)]
    [InlineData(0.25)]
    [InlineData(0.60)]
    public void Log_SoundingAlone_IsTheMultinomial(double damaged)
    {
        // Found: damaged × not patched × detected; patched: the fifth.
        double[] probabilities = [damaged * 0.8 * 0.8, damaged * 0.2, 1 - (damaged * 0.84)];
        double[] shares = [0.16, 0.05, 0.79];
        var expected = 70 * shares.Zip(probabilities, (s, p) => s * Math.Log(p)).Sum();
        var likelihood = new SurveyLikelihood(Sounded, Model);

        Assert.Equal(expected, likelihood.Log(damaged, 0.9), 1e-10);
        // Sounding sees damage, not initiation.
        Assert.Equal(likelihood.Log(damaged, 0.7), likelihood.Log(damaged, 0.9));
    }

    [Fact]
    public void Log_NothingFound_OnlyWhatIsNeitherCounts()
    {
        var likelihood = new SurveyLikelihood(
            new() { UnsoundShare = 0, SoundingPlaces = 50 },
            Model
        );

        Assert.Equal(50 * Math.Log(1 - (0.3 * 0.8)), likelihood.Log(0.3, 0.5), 1e-10);
        // All damaged and every place found, yet nothing found: all but impossible, and finite.
        Assert.Equal(
            50 * Math.Log(1e-9),
            new SurveyLikelihood(
                new() { UnsoundShare = 0, SoundingPlaces = 50 },
                new() { DetectionProbability = 1 }
            ).Log(1, 1),
            1e-4
        );
        // Damage of 0 is as good as it gets, and finite.
        Assert.Equal(0, likelihood.Log(0, 0.5), 1e-6);
    }

    [Theory]
    [InlineData(true, 0.2, 0.6)]
    [InlineData(false, 0.2, 0.6)]
    [InlineData(true, 0.2, 0.2)]
    public void Log_Potentials_AreTheMixtureAmongThePlacesThatCount(
        bool nodesAreOnSoundPlaces,
        double damaged,
        double initiated
    )
    {
        double[] potentials = [-180, -240, -390];
        var likelihood = new SurveyLikelihood(
            Sounded with
            {
                UnsoundShare = null,
                PatchedShare = 0,
                PotentialsMv = potentials,
                IndependentNodes = 2,
                NodesAreOnSoundPlaces = nodesAreOnSoundPlaces,
            },
            Model
        );
        // By hand, of the deck: active and not damaged, and of the damaged the fifth that sounding missed, or all.
        var missed = damaged * (nodesAreOnSoundPlaces ? 0.2 : 1);
        var active = (initiated - damaged + missed) / (1 - damaged + missed);
        var expected =
            2.0
            / 3
            * potentials.Sum(v =>
                Math.Log(
                    ((1 - active) * Normal(v, Model.PassiveMeanMv, Model.PassiveSdMv))
                        + (active * Normal(v, Model.ActiveMeanMv, Model.ActiveSdMv))
                )
            );

        // The floor under the densities adds a millionth of their height.
        Assert.Equal(expected, likelihood.Log(damaged, initiated), 1e-4);
    }

    [Fact]
    public void Log_PatchedPlaces_HoldNoNodes()
    {
        // All damage is patched: nodes lie on the 80 % left, of which 0.4/0.8 is active.
        var likelihood = new SurveyLikelihood(
            new()
            {
                PatchedShare = 0.2,
                PotentialsMv = [-500],
                IndependentNodes = 1,
            },
            Model
        );

        Assert.Equal(
            Math.Log(
                (0.5 * Normal(-500, Model.PassiveMeanMv, Model.PassiveSdMv))
                    + (0.5 * Normal(-500, Model.ActiveMeanMv, Model.ActiveSdMv))
            ),
            likelihood.Log(0.2, 0.6),
            1e-4
        );
    }

    [Fact]
    public void Log_OneWildReading_DoesNotDecideEverything()
    {
        var likelihood = new SurveyLikelihood(
            new() { PotentialsMv = [3000], IndependentNodes = 1 },
            Model
        );

        // The floor: as if each distribution held a millionth of its height there.
        Assert.Equal(
            Math.Log((0.7e-6 / Model.PassiveSdMv) + (0.3e-6 / Model.ActiveSdMv)),
            likelihood.Log(0, 0.3),
            1e-6
        );
    }

    private static double Normal(double value, double mean, double sd) =>
        Math.Exp(-0.5 * Math.Pow((value - mean) / sd, 2)) / sd;
}
