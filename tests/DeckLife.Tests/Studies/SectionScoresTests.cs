using DeckLife.Numerics.Distributions;
using DeckLife.Studies;
using Xunit;

namespace DeckLife.Tests.Studies;

public class SectionScoresTests
{
    // What is counted from scores is what the closed form says of the values written out, for each ageing law, fixed, cut and correlated quantities.
    [Theory]
    [InlineData(SectionAgeing.None, "")]
    [InlineData(SectionAgeing.Apparent, "")]
    [InlineData(SectionAgeing.Instantaneous, "")]
    [InlineData(SectionAgeing.Instantaneous, "temperature")]
    [InlineData(SectionAgeing.Apparent, "convection")]
    [InlineData(SectionAgeing.Instantaneous, "fixed")]
    [InlineData(SectionAgeing.Instantaneous, "correlated")]
    public void InitiatedBy_FromScores_IsTheClosedFormOfTheValues(SectionAgeing ageing, string more)
    {
        var study = Study(ageing, more);
        var draws = new StudyDraws(study);
        var model = new SectionModel(study);
        Assert.NotNull(model.FromScores(study.ToRandomVector()));
        var inputs = StudyDraws.Buffers(draws.Inputs);
        var outputs = StudyDraws.Buffers(draws.Outputs);
        var expected = StudyDraws.Buffers(draws.Outputs);
        var alone = StudyDraws.Buffers(draws.Outputs);
        const int count = 2043;
        draws.Fill(3, count, inputs, outputs);
        model.Evaluate(count, inputs, expected);
        draws.FillOutputs(3, count, StudyDraws.Buffers(draws.Inputs), alone);
        for (var o = 0; o < outputs.Length; o++)
        {
            Assert.Equal(expected[o][..count], outputs[o][..count]);
            Assert.Equal(outputs[o], alone[o]);
            Assert.InRange(outputs[o].Sum(), 20, count - 20);
        }
    }

    [Theory]
    [InlineData("initial")]
    [InlineData("content")]
    [InlineData("uniform")]
    [InlineData("drawn temperature")]
    public void FromScores_OfAnotherKindOfStudy_IsAbsent(string more)
    {
        var study = Study(SectionAgeing.Instantaneous, more);
        Assert.Null(new SectionModel(study).FromScores(study.ToRandomVector()));
    }

    private static StudyDefinition Study(SectionAgeing ageing, string more)
    {
        List<StudyInput> inputs =
        [
            new(StudyVariable.Cover, 0, new NormalDistribution(50, 6)),
            new(
                StudyVariable.DiffusionCoefficient,
                0,
                LognormalDistribution.FromMeanAndStandardDeviation(
                    ageing == SectionAgeing.None ? 20 : 200,
                    60
                )
            ),
            new(
                StudyVariable.SurfaceChloride,
                more == "fixed" ? 7 : 0,
                more == "fixed" ? null
                    : more == "uniform" ? new UniformDistribution(5, 9)
                    : LognormalDistribution.FromMeanAndStandardDeviation(7, 2)
            ),
            new(
                StudyVariable.ChlorideThreshold,
                0,
                new TruncatedDistribution(
                    LognormalDistribution.FromMeanAndStandardDeviation(1.2, 0.3),
                    0.7,
                    3
                )
            ),
            new(
                StudyVariable.AgeingExponent,
                0,
                new TruncatedDistribution(new NormalDistribution(0.4, 0.1), 0.1, 0.8)
            ),
        ];
        switch (more)
        {
            case "temperature":
                inputs.Add(new(StudyVariable.Temperature, 24, null));
                inputs.Add(new(StudyVariable.ActivationTemperature, 4800, null));
                break;
            case "drawn temperature":
                inputs.Add(new(StudyVariable.Temperature, 0, new NormalDistribution(12, 2)));
                inputs.Add(new(StudyVariable.ActivationTemperature, 4800, null));
                break;
            case "convection":
                inputs.Add(new(StudyVariable.ConvectionDepth, 9, null));
                break;
            case "initial":
                inputs.Add(new(StudyVariable.InitialChloride, 0.1, null));
                break;
            case "correlated":
                // A correlated quantity that is cut goes the other way.
                inputs[3] = inputs[3] with
                {
                    Distribution = LognormalDistribution.FromMeanAndStandardDeviation(1.2, 0.3),
                };
                inputs[4] = inputs[4] with { Distribution = new NormalDistribution(0.4, 0.05) };
                break;
            default:
                break;
        }

        return new()
        {
            Name = "scores",
            Seed = 11,
            Section = new() { Ageing = ageing },
            Inputs = [.. inputs],
            Correlations =
                more == "correlated"
                    ? [new(StudyVariable.DiffusionCoefficient, StudyVariable.AgeingExponent, 0.4)]
                    : [],
            Outputs =
            [
                new(
                    more == "content" ? StudyOutputKind.ContentAtBar : StudyOutputKind.InitiatedBy,
                    30
                ),
                new(StudyOutputKind.InitiatedBy, 60),
            ],
            Methods = [new MonteCarloMethod(10)],
        };
    }
}
