using DeckLife.Numerics.Distributions;
using DeckLife.Studies;
using Xunit;

namespace DeckLife.Tests.Studies;

/// <summary>Each study provokes one message that no other test asks for.</summary>
public class ProvokedStudyMessageTests
{
    [Fact]
    public void Check_AllInputsFixed_NothingDrawn() =>
        AssertFound(
            "DL6006",
            StudyExamples.Bare(new MonteCarloMethod(1000)) with
            {
                Inputs = [new(StudyVariable.Cover, 50, null)],
            }
        );

    [Fact]
    public void Check_NoMethod_NothingAsked() => AssertFound("DL6007", StudyExamples.Bare());

    [Fact]
    public void Check_ConvectionDepthUnderAnOverlay_Refused()
    {
        var bare = StudyExamples.Bare(new MonteCarloMethod(1000));
        AssertFound(
            "DL6008",
            bare with
            {
                Section = bare.Section with { OverlayAgeYr = 20 },
                Inputs =
                [
                    .. bare.Inputs,
                    new(StudyVariable.ConvectionDepth, 0, new UniformDistribution(0, 10)),
                ],
            }
        );
    }

    [Fact]
    public void Check_CorrelationsThatContradict_NearestTakenOnlyWhereAsked()
    {
        var study = StudyExamples.Bare(new MonteCarloMethod(1000)) with
        {
            TakeNearestValidCorrelations = true,
            Correlations =
            [
                new(StudyVariable.Cover, StudyVariable.SurfaceChloride, 0.9),
                new(StudyVariable.SurfaceChloride, StudyVariable.DiffusionCoefficient, 0.9),
                new(StudyVariable.Cover, StudyVariable.DiffusionCoefficient, -0.9),
            ],
        };

        AssertFound("DL6010", study);
        AssertFound("DL6009", study with { TakeNearestValidCorrelations = false });
    }

    [Fact]
    public void Reliability_WhereNothingCanFail_NoDesignPoint()
    {
        var study = StudyExamples.Bare(new ReliabilityMethod(1000)) with
        {
            Inputs =
            [
                new(StudyVariable.Cover, 50, null),
                new(StudyVariable.SurfaceChloride, 7, null),
                new(StudyVariable.DiffusionCoefficient, 0, new UniformDistribution(0.1, 0.2)),
                new(StudyVariable.ChlorideThreshold, 1.2, null),
            ],
            Outputs = [new(StudyOutputKind.InitiatedBy, 1)],
        };

        Assert.Contains(StudyExamples.Run(study).Flags, f => f.Code == "DL6013");
    }

    private static void AssertFound(string code, StudyDefinition study)
    {
        var found = StudyCheck.Find(study);
        Assert.True(found.Any(d => d.Code == code), string.Join('\n', found));
    }
}
