using System.Globalization;
using System.Runtime.CompilerServices;
using DeckLife.Data.Folders;
using DeckLife.Data.Studies;
using DeckLife.Projection;
using DeckLife.Studies;
using Xunit;

namespace DeckLife.Data.Tests.Studies;

/// <summary>Studies of the demonstration deck under a strategy.</summary>
public class DeckStudyTests
{
    private const string Strategy = "scarify and overlay";

    private static readonly Lazy<Deck> Quillmarsh = new(() =>
        DeckFolder.Read(Demo("quillmarsh-crossing")).Deck!
    );

    private static readonly Lazy<DeckSubject> Subject = new(() =>
        new(Quillmarsh.Value, Strategy, 64)
    );

    private static StudyDefinition Study(StudyOutput[] outputs, params StudyInput[] inputs) =>
        new()
        {
            Name = "deck",
            Seed = 3,
            Deck = Subject.Value,
            // One drawn input of no width to speak of: a study must draw something.
            Inputs =
            [
                .. inputs,
                new(
                    StudyVariable.ModelDiscrepancy,
                    0,
                    new Numerics.Distributions.UniformDistribution(-1e-9, 1e-9)
                ),
            ],
            Outputs = [.. outputs],
            Methods = [new MonteCarloMethod(1)],
        };

    private static double[] At(StudyOutput[] outputs, params (StudyVariable, double)[] values)
    {
        var draws = new StudyDraws(
            Study(outputs, [.. values.Select(v => new StudyInput(v.Item1, v.Item2, null))])
        );
        var found = StudyDraws.Buffers(draws.Outputs);
        draws.Fill(0, 1, StudyDraws.Buffers(draws.Inputs), found);
        return [.. found.Select(o => o[0])];
    }

    private static StudyOutput Value() => new(StudyOutputKind.PresentValue, 60);

    [Fact]
    public void Outputs_AtTheMiddle_LieWithinTheProjectionsBand()
    {
        var deck = Quillmarsh.Value with
        {
            // The study does not learn from the surveys: neither must the projection it is held against.
            Surveys = Quillmarsh.Value.Surveys with
            {
                Learn = false,
            },
            Strategies = [.. Quillmarsh.Value.Strategies.Where(s => s.Name == Strategy)],
            Analysis = Quillmarsh.Value.Analysis with { Draws = 100, Points = 64 },
        };
        var projected = DeckAnalysis.Run(deck).Strategies[0];
        var found = At([
            new(StudyOutputKind.DamagedShare, 20),
            new(StudyOutputKind.InitiatedShare, 20),
            new(StudyOutputKind.YearOfLimit, 60),
            Value(),
        ]);
        var at20 = projected.Curve.Single(p => p.TimeYr == 20);
        Assert.InRange(found[0], at20.Damaged.P05, at20.Damaged.P95);
        Assert.InRange(found[1], at20.Initiated.P05, at20.Initiated.P95);
        Assert.InRange(
            found[2],
            projected.ServiceLife.P05Yr ?? 0,
            projected.ServiceLife.P95Yr ?? 60
        );
        Assert.InRange(found[3], projected.Cost!.PresentValue.P05, projected.Cost.PresentValue.P95);
    }

    // More cover, a higher threshold, a slower D: each delays damage; more salt hastens it. A longer period does so before the intervention only:
    // after it, what was not yet damaged then was not repaired either.
    [Theory]
    [InlineData(StudyVariable.CoverMean, 50, 75, -1, 45)]
    [InlineData(StudyVariable.ThresholdMean, 1, 2, -1, 45)]
    [InlineData(StudyVariable.DiffusionCoefficientMedian, 8, 20, 1, 45)]
    [InlineData(StudyVariable.SurfaceChlorideMedian, 4, 9, 1, 45)]
    [InlineData(StudyVariable.Background, 0.05, 0.6, 1, 45)]
    [InlineData(StudyVariable.PropagationFactor, 0.5, 2, -1, 0.5)]
    [InlineData(StudyVariable.OverlayDiffusionFactor, 0.3, 10, 1, 45)]
    [InlineData(StudyVariable.CorrosionRateUnderOverlay, 0.3, 1, 1, 45)]
    [InlineData(StudyVariable.ModelDiscrepancy, -0.5, 0.5, 1, 45)]
    public void DamagedShare_OfAnInput_MovesTheKnownWay(
        StudyVariable variable,
        double low,
        double high,
        int sign,
        double timeYr
    )
    {
        StudyOutput[] outputs = [new(StudyOutputKind.DamagedShare, timeYr)];
        double Share(double value) =>
            variable == StudyVariable.ModelDiscrepancy
                ? AtDiscrepancy(outputs, value)
                : At(outputs, (variable, value))[0];
        Assert.True(
            sign * (Share(high) - Share(low)) > 1e-4,
            string.Create(CultureInfo.InvariantCulture, $"{Share(low)} {Share(high)}")
        );
    }

    private static double AtDiscrepancy(StudyOutput[] outputs, double value)
    {
        var study = Study(outputs) with
        {
            Inputs =
            [
                new(
                    StudyVariable.ModelDiscrepancy,
                    0,
                    new Numerics.Distributions.UniformDistribution(value, value + 1e-9)
                ),
            ],
        };
        var draws = new StudyDraws(study);
        var found = StudyDraws.Buffers(1);
        draws.Fill(0, 1, StudyDraws.Buffers(1), found);
        return found[0][0];
    }

    [Fact]
    public void PresentValue_OfPricesAndRate_IsLinearInPricesAndFallsWithTheRate()
    {
        StudyOutput[] outputs = [Value()];
        var one = At(outputs)[0];
        var work = At(outputs, (StudyVariable.RenewalPriceFactor, 0))[0];
        var renewal = At(outputs, (StudyVariable.PriceFactor, 0))[0];
        Assert.Equal(one, work + renewal, 1e-6 * one);
        Assert.Equal(
            (2 * work) + (3 * renewal),
            At(outputs, (StudyVariable.PriceFactor, 2), (StudyVariable.RenewalPriceFactor, 3))[0],
            1e-6 * one
        );
        Assert.True(work > 0);
        // The intervention is 1 yr away: at another rate its cost changes by that year alone.
        Assert.Equal(
            work * (1 + Quillmarsh.Value.DiscountRate) / 1.1,
            At(outputs, (StudyVariable.RenewalPriceFactor, 0), (StudyVariable.DiscountRate, 0.1))[
                0
            ],
            1e-6 * work
        );
    }

    [Theory]
    [InlineData("\"scarify and overlay\"", "\"scarify\"", "DL6016")]
    [InlineData("../quillmarsh-crossing", "../no-such-deck", "no-such-deck")]
    [InlineData("\"horizon_yr\": 60", "\"horizon_yr\": 61", "DL6016")]
    [InlineData("\"coverMean\", \"unit\": \"in\"", "\"cover\", \"unit\": \"in\"", "DL6017")]
    [InlineData(
        "{ \"output\": \"presentValue\" }",
        "{ \"output\": \"initiatedBy\", \"age_yr\": 10 }",
        "DL6017"
    )]
    [InlineData(
        "    { \"output\": \"yearOfLimit\", \"horizon_yr\": 60 },\n    { \"output\": \"presentValue\" }\n  ],\n  \"methods\": [\n    { \"method\": \"swings\" },",
        "    { \"output\": \"presentValue\" }\n  ],\n  \"methods\": [\n    { \"method\": \"reliability\" },",
        "DL6009"
    )]
    [InlineData("\"deck\":", "\"section\": { \"ageing\": \"none\" }, \"deck\":", "not both")]
    [InlineData("\"inputs\": [", "\"inputs\": [ { \"input\": \"surveyedState\" },", "DL6019")]
    [InlineData(
        "\"inputs\": [",
        "\"inputs\": [ { \"input\": \"surveyedState\", \"value\": 0.5 },",
        "inputs[0]"
    )]
    public void Read_WhatDoesNotFit_IsRefusedWithItsReason(string old, string now, string holds)
    {
        var text = File.ReadAllText(Path.Combine(Demo("studies"), "deck-overlay.json"));
        Assert.Contains(old, text, StringComparison.Ordinal);
        var read = StudyFileReader.Read(
            text.Replace(old, now, StringComparison.Ordinal),
            Demo("studies")
        );
        Assert.Null(read.Study);
        Assert.Contains(
            read.Problems,
            p => $"{p.Code} {p.Text}".Contains(holds, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Read_AStrategyOfALongAndOddName_IsQuotedShort()
    {
        var text = File.ReadAllText(Path.Combine(Demo("studies"), "deck-overlay.json"));
        var name = "\\u0007" + new string('x', 100_000);
        var problem = Assert.Single(
            StudyFileReader
                .Read(
                    text.Replace("scarify and overlay", name, StringComparison.Ordinal),
                    Demo("studies")
                )
                .Problems
        );
        Assert.Equal("DL6016", problem.Code);
        Assert.InRange(problem.Text.Length, 50, 2000);
        Assert.DoesNotContain(problem.Text, char.IsControl);
    }

    // Sampling around the design points against plain draws of the same study: both unbiased, so they agree within their own scatter.
    [Fact]
    public void Reliability_OfALifeThatEndsEarly_AgreesWithPlainDraws()
    {
        var middle = At([new(StudyOutputKind.YearOfLimit, 60)])[0];
        Assert.InRange(middle, 5, 59);
        var study = Study([new(StudyOutputKind.YearOfLimit, 0.8 * middle)]) with
        {
            Inputs =
            [
                new(
                    StudyVariable.ThresholdMean,
                    0,
                    new Numerics.Distributions.UniformDistribution(0.8, 2.4)
                ),
                new(
                    StudyVariable.PropagationFactor,
                    0,
                    new Numerics.Distributions.UniformDistribution(0.5, 2)
                ),
            ],
            Methods = [new MonteCarloMethod(600), new ReliabilityMethod(300)],
        };
        var runner = new StudyRunner(study);
        var pieces = new StudyAccumulator(study);
        runner.Run(runner.Pieces, pieces, 2);
        var results = runner.Finish(pieces, 2).Results;
        var plain = results.Single(r => r.Draws is not null).Draws!.Probability!;
        var found = results.Single(r => r.Reliability is not null).Reliability!;
        Assert.NotEmpty(found.Points);
        Assert.InRange(plain.Value, 0.02, 0.98);
        var scatter = Math.Sqrt(
            (plain.Value * (1 - plain.Value) / 600)
                + (found.Probability.StandardError * found.Probability.StandardError)
        );
        Assert.InRange(found.Probability.Value - plain.Value, -4 * scatter, 4 * scatter);
    }

    // The same two estimates of an event that has no time: a share at a year that reaches a level; and what the event says of the share itself.
    [Fact]
    public void Reliability_OfAShareThatReachesALevel_AgreesWithPlainDraws()
    {
        var damaged = new StudyOutput(StudyOutputKind.DamagedShare, 40);
        var initiated = new StudyOutput(StudyOutputKind.InitiatedShare, 40);
        var middle = At([damaged, initiated]);
        double[] levels = [1.3 * middle[0], 1.1 * middle[1]];
        StudyOutput[] outputs =
        [
            damaged with
            {
                Level = levels[0],
            },
            initiated with
            {
                Level = levels[1],
            },
            damaged,
            initiated,
        ];
        var study = Study(outputs) with
        {
            Inputs =
            [
                new(
                    StudyVariable.ThresholdMean,
                    0,
                    new Numerics.Distributions.UniformDistribution(0.8, 2.4)
                ),
                new(
                    StudyVariable.DiffusionCoefficientMedian,
                    0,
                    Numerics.Distributions.LognormalDistribution.FromMeanAndStandardDeviation(11, 2)
                ),
            ],
            Methods = [new MonteCarloMethod(120), new ReliabilityMethod(60)],
        };
        Assert.DoesNotContain(
            StudyCheck.Find(study),
            d => d.Severity == DeckLife.Diagnostics.Severity.Error
        );
        var draws = new StudyDraws(study);
        var found = StudyDraws.Buffers(draws.Outputs);
        draws.Fill(0, 24, StudyDraws.Buffers(draws.Inputs), found);
        for (var o = 0; o < 2; o++)
        {
            var reached = found[o + 2][..24].Select(s => s >= levels[o] ? 1.0 : 0).ToArray();
            Assert.Equal(reached, found[o][..24]);
            Assert.InRange(reached.Sum(), 1, 23);
        }

        study = study with { Outputs = [outputs[0], damaged] };
        var runner = new StudyRunner(study);
        var pieces = new StudyAccumulator(study);
        runner.Run(runner.Pieces, pieces, 2);
        var results = runner.Finish(pieces, 2).Results;
        var plain = results[0].Draws!.Probability!;
        Assert.Null(results[1].Draws!.Probability);
        var sampled = Assert.Single(results, r => r.Reliability is not null).Reliability!;
        Assert.NotEmpty(sampled.Points);
        Assert.InRange(plain.Value, 0.02, 0.98);
        var scatter = Math.Sqrt(
            (plain.Value * (1 - plain.Value) / 120)
                + (sampled.Probability.StandardError * sampled.Probability.StandardError)
        );
        Assert.InRange(sampled.Probability.Value - plain.Value, -4 * scatter, 4 * scatter);
    }

    [Fact]
    public void Read_AShareThatReachesALevel_IsAnEventOfItsOwnName()
    {
        var text = File.ReadAllText(Path.Combine(Demo("studies"), "deck-overlay.json"));
        StudyReading Read(string output) =>
            StudyFileReader.Read(
                text.Replace("{ \"output\": \"presentValue\" }", output, StringComparison.Ordinal),
                Demo("studies")
            );
        var event10 = Read(
            "{ \"output\": \"damagedShare\", \"time_yr\": 20, \"reaching\": 0.1 }"
        ).Study!.Outputs[2];
        Assert.True(event10.IsEvent && event10.HasMargin);
        Assert.Equal("damagedShare_20yr_reaching_0.1", event10.Name);
        Assert.Null(
            Read("{ \"output\": \"damagedShare\", \"time_yr\": 20, \"reaching\": 1.5 }").Study
        );
        Assert.Null(
            Read("{ \"output\": \"yearOfLimit\", \"horizon_yr\": 20, \"reaching\": 0.1 }").Study
        );
    }

    [Fact]
    public void Run_AnyNumberOfThreads_SameBytesAndDeckFilesNamed()
    {
        var study = Study(
            [new(StudyOutputKind.DamagedShare, 20), new(StudyOutputKind.YearOfLimit, 60)],
            new StudyInput(
                StudyVariable.ThresholdMean,
                0,
                new Numerics.Distributions.UniformDistribution(1, 2)
            )
        ) with
        {
            Methods = [new MonteCarloMethod(300), new SwingMethod(0.1, 0.9)],
        };
        var from = StudyProvenance.Of(study, "deck.json", [1, 2, 3]);
        string Csv(int threads)
        {
            var runner = new StudyRunner(study);
            var pieces = new StudyAccumulator(study);
            runner.Run(runner.Pieces, pieces, threads);
            return StudyWriter.ToCsv(runner.Finish(pieces, threads), from);
        }

        var one = Csv(1);
        Assert.Equal(one, Csv(3));
        Assert.All(
            Quillmarsh.Value.Inputs,
            f => Assert.Contains($"{f.Name}, sha256 {f.Sha256}", one, StringComparison.Ordinal)
        );
        Assert.DoesNotContain("NaN", one, StringComparison.Ordinal);
    }

    private static string Demo(string name, [CallerFilePath] string here = "") =>
        Path.Combine(Path.GetDirectoryName(here)!, "../../../demo-data", name);
}
