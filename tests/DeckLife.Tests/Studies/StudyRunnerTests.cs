using DeckLife.Numerics.Distributions;
using DeckLife.Studies;
using Xunit;

namespace DeckLife.Tests.Studies;

public class StudyRunnerTests
{
    [Fact]
    public void Run_OneTwoEightThreads_SameBytes()
    {
        var study = StudyExamples.Bare(StudyExamples.All);
        Assert.Single(
            new[] { 1, 2, 8 }
                .Select(t => StudyExamples.Numbers(StudyExamples.Run(study, t)))
                .Distinct()
        );
    }

    [Fact]
    public void Run_ShardsInAnyOrder_GiveTheWholeRun()
    {
        var study = StudyExamples.Bare(StudyExamples.All);
        var runner = new StudyRunner(study);
        var pieces = new StudyAccumulator(study);
        foreach (var share in new[] { 3, 1, 2 })
        {
            runner.Run(runner.Shard(share, 3), pieces);
        }

        Assert.Equal(
            StudyExamples.Numbers(StudyExamples.Run(study)),
            StudyExamples.Numbers(runner.Finish(pieces))
        );
    }

    [Fact]
    public void Run_CancelledAndContinued_GivesTheWholeRun()
    {
        var study = StudyExamples.Bare(StudyExamples.All);
        var runner = new StudyRunner(study);
        var pieces = new StudyAccumulator(study);
        using var source = new CancellationTokenSource();
        Assert.Throws<OperationCanceledException>(() =>
            runner.Run(
                runner.Pieces,
                pieces,
                1,
                (_, _) =>
                {
                    if (pieces.Count == 3)
                    {
                        source.Cancel();
                    }
                },
                cancellation: source.Token
            )
        );
        Assert.Equal(3, pieces.Count);
        Assert.Throws<ArgumentException>(() => runner.Finish(pieces));
        runner.Run(runner.Pieces, pieces);
        Assert.Equal(
            StudyExamples.Numbers(StudyExamples.Run(study)),
            StudyExamples.Numbers(runner.Finish(pieces))
        );
    }

    [Fact]
    public void Run_Progress_EndsAtTheWhole()
    {
        var study = StudyExamples.Bare(new SwingMethod(0.1, 0.9), new MonteCarloMethod(100_000));
        var runner = new StudyRunner(study);
        var seen = new List<StudyProgress>();
        runner.Run(runner.Pieces, new(study), 2, progress: new Log(seen));
        Assert.Equal(seen[^1].Total, seen[^1].Done);
        Assert.True(seen[^1].Total >= 100_009);
    }

    [Fact]
    public void Draws_AgainstReliability_AgreeWithinLimits()
    {
        var study = StudyExamples.Bare(
            new MonteCarloMethod(400_000),
            new ReliabilityMethod(100_000)
        );
        var results = StudyExamples.Run(study).Results;
        var plain = results
            .Single(r => r.Output.Kind == StudyOutputKind.InitiatedBy && r.Draws is not null)
            .Draws!.Probability!;
        var sampled = results.Single(r => r.Reliability is not null).Reliability!.Probability;
        var both = Math.Sqrt(
            (plain.StandardError * plain.StandardError)
                + (sampled.StandardError * sampled.StandardError)
        );
        Assert.InRange(plain.Value - sampled.Value, -4 * both, 4 * both);
        Assert.InRange(plain.Value, 0.02, 0.9);
    }

    // The order that the trade knows: cover first, then D, the threshold weakest of these.
    [Fact]
    public void Swings_OfTheTimeToInitiation_HaveTheKnownOrder()
    {
        var study = StudyExamples.Bare(new SwingMethod(0.1, 0.9));
        var swings = StudyExamples.Run(study).Results[1].Swings!.Swings;
        var names = swings.Select(s => study.Drawn[s.Input].Name).ToArray();
        Assert.Equal("cover", names[0]);
        Assert.Equal("diffusionCoefficient", names[1]);
        Assert.True(Array.IndexOf(names, "chlorideThreshold") >= 2);
        Assert.True(swings[0].Change > 0);
        Assert.True(swings[1].Change < 0);
    }

    [Fact]
    public void Shares_WithTimesBeyondTheHorizon_SayThatTheyWereHeld()
    {
        var study = StudyExamples.Bare(StudyExamples.All[2]) with
        {
            Outputs = [new(StudyOutputKind.TimeToInitiation, 25)],
        };
        var result = StudyExamples.Run(study);
        Assert.Contains(result.Flags, f => f.Code == "DL6011");
        Assert.False(result.Results[0].Sobol!.HasNoVariance);
    }

    [Fact]
    public void Shares_OfAConstantOutput_SayNoVariance()
    {
        var study = StudyExamples.Bare(StudyExamples.All[2]) with
        {
            Outputs = [new(StudyOutputKind.InitiatedBy, 0.001)],
        };
        var result = StudyExamples.Run(study);
        Assert.True(result.Results[0].Sobol!.HasNoVariance);
        Assert.Contains(result.Flags, f => f.Code == "DL6012");
    }

    [Fact]
    public void Percentiles_BeyondTheHorizon_AreLeftOutNotPrinted()
    {
        var study = StudyExamples.Bare(new MonteCarloMethod(20_000)) with
        {
            Outputs = [new(StudyOutputKind.TimeToInitiation, 20)],
        };
        var draws = StudyExamples.Run(study).Results[0].Draws!;
        Assert.Null(draws.Percentiles.Single(p => p.Percent == 99).Value);
        Assert.NotNull(draws.Percentiles.Single(p => p.Percent == 5).Value);
        Assert.True(draws.WithValue < draws.Draws);
        Assert.True(draws.Mean < 20);
    }

    [Fact]
    public void Check_WhatCannotBe_IsNamedAllAtOnce()
    {
        var study = StudyExamples.Bare(
            new SobolMethod(1000, Numerics.DesignOfExperiments.PointSource.Lattice, 100, [])
        );
        Assert.Contains(StudyCheck.Find(study), d => d.Code == "DL6009");
        var broken = study with
        {
            Inputs =
            [
                new(StudyVariable.Cover, 0, new NormalDistribution(50, 30)),
                new(StudyVariable.SurfaceChloride, -2, null),
                new(StudyVariable.SurfaceChloride, 7, null),
            ],
        };
        var codes = StudyCheck.Find(broken).Select(d => d.Code).ToArray();
        Assert.Contains("DL6002", codes);
        Assert.Contains("DL6003", codes);
        Assert.Contains("DL6004", codes);
        Assert.Contains("DL6005", codes);
    }

    private sealed class Log(List<StudyProgress> seen) : IProgress<StudyProgress>
    {
        public void Report(StudyProgress value) => seen.Add(value);
    }
}
