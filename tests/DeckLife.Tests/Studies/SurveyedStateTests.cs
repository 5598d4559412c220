using DeckLife.Numerics.DesignOfExperiments;
using DeckLife.Numerics.Distributions;
using DeckLife.Numerics.Sensitivity;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Rehabilitation;
using DeckLife.Studies;
using DeckLife.Tests.Population;
using DeckLife.Tests.Projection;
using Xunit;

namespace DeckLife.Tests.Studies;

/// <summary>Studies that start from what a projection has learned, held against the projection itself.</summary>
public class SurveyedStateTests
{
    private const int Draws = 400;
    private const double LimitYr = 25;

    // Fewer draws weighed than in earnest, on either side of a comparison.
    private static readonly LearningEffort Effort = new(1000, 100);

    private static readonly Deck Unsurveyed = ExampleDecks.Plain with
    {
        Surveys = new() { CorrelationLengthM = 1.2 },
        Strategies = [ExampleDecks.Nothing],
        Analysis = new()
        {
            Seed = 5,
            Draws = Draws,
            Points = 128,
        },
    };

    private static readonly Deck Surveyed = Unsurveyed with
    {
        Soundings = SurveyLearningTests.Sounding(0.18, 0.05),
    };

    private static readonly Lazy<DeckSubject> Subject = new(() => Of(Surveyed));

    private static DeckSubject Of(
        Deck deck,
        string strategy = "do nothing",
        LearningEffort? effort = null
    ) => new(deck, strategy, 128, ExampleDecks.Fit, effort ?? Effort);

    private static StudyDefinition Study(DeckSubject subject, params StudyMethod[] methods) =>
        new()
        {
            Name = "test",
            Seed = 9,
            Deck = subject,
            Inputs = [StudyInput.SurveyedState],
            Outputs = [new(StudyOutputKind.DamagedShare, LimitYr)],
            Methods = [.. methods],
        };

    // The output at the middle of the place of each draw: every draw once.
    private static double[] OfEachDraw(StudyDefinition study)
    {
        double[][] found = [new double[Draws]];
        study
            .ToModel()
            .Evaluate(
                Draws,
                [
                    [.. Enumerable.Range(0, Draws).Select(k => (k + 0.5) / Draws)],
                ],
                found
            );
        return found[0];
    }

    private static PercentileBand Projected(Deck deck, double timeYr) =>
        DeckProjector
            .Project(
                deck,
                ExampleDecks.Fit,
                new() { KeepsRecord = false, Effort = Effort },
                CancellationToken.None
            )
            .Strategies[0]
            .Curve.Single(p => p.TimeYr == timeYr)
            .Damaged;

    private static double ShareBelow(double[] values, double limit) =>
        values.Count(v => v < limit) / (double)values.Length;

    [Fact]
    public void Outputs_OfASurveyedDeck_AreTheProjectionsBand()
    {
        var band = Projected(Surveyed, LimitYr);
        var found = OfEachDraw(Study(Subject.Value));

        // The same draws; the points that stand for the area differ, by about a hundredth of the order among draws.
        Assert.InRange(ShareBelow(found, band.P05), 0.03, 0.07);
        Assert.InRange(ShareBelow(found, band.P50), 0.47, 0.53);
        Assert.InRange(ShareBelow(found, band.P95), 0.93, 0.97);
    }

    [Fact]
    public void Outputs_OfASurveyedDeck_SpreadLessThanThoseOfItsCoresAlone()
    {
        double Spread(Deck deck)
        {
            var found = OfEachDraw(Study(Of(deck))).Order().ToArray();
            return found[(int)(0.95 * Draws)] - found[(int)(0.05 * Draws)];
        }

        // At the survey a sounding of 18 % halves what cores alone leave open (SurveyLearningTests); 25 yr on most of that is left.
        Assert.True(Spread(Surveyed) < 0.8 * Spread(Unsurveyed));
    }

    [Fact]
    public void Outputs_OfSurveysThatSayNothing_AreThoseOfCoresAloneWithinSamplingError()
    {
        var silent = Unsurveyed with
        {
            Surveys = Unsurveyed.Surveys with
            {
                PassiveMeanMv = -280,
                ActiveMeanMv = -280,
                PassiveSdMv = 70,
                ActiveSdMv = 70,
            },
            HalfCells = SurveyLearningTests.HalfCells(200, _ => -280),
        };
        var subject = Of(silent);
        var found = OfEachDraw(Study(subject));
        Assert.True(subject.Basis.States.Learned.IsLearned);
        var alone = OfEachDraw(Study(Of(Unsurveyed))).Order().ToArray();
        foreach (var p in new[] { 0.1, 0.5, 0.9 })
        {
            Assert.Equal(
                p,
                ShareBelow(found, alone[(int)(p * Draws)]),
                4 * Math.Sqrt(2 * p * (1 - p) / Draws)
            );
        }
    }

    [Fact]
    public void Draws_AlongTheirPlaces_RiseInDamageHalfWayToTheHorizon()
    {
        var halfWay = 0.5 * Surveyed.Horizon.Years;
        var found = OfEachDraw(
            Study(Subject.Value) with
            {
                Outputs = [new(StudyOutputKind.DamagedShare, halfWay)],
            }
        );

        Assert.Equal(found.Order(), found);
        Assert.True(found[^1] > found[0]);
    }

    [Fact]
    public void Run_StateAndRate_DamageIsTheStatesAloneAndSameOnAnyThreads()
    {
        var study = Study(
            Subject.Value,
            new SobolMethod(32, PointSource.Lattice, 100, []),
            new ShapleyMethod(16, PointSource.Lattice, 100),
            new MonteCarloMethod(150)
        );
        study = study with
        {
            Inputs =
            [
                .. study.Inputs,
                new(StudyVariable.DiscountRate, 0, new UniformDistribution(0.01, 0.05)),
            ],
        };

        var result = StudyExamples.Run(study, 1);

        Assert.Equal(
            StudyExamples.Numbers(result),
            StudyExamples.Numbers(StudyExamples.Run(study, 3))
        );
        var sobol = result.Results.Single(r => r.Sobol is not null).Sobol!;
        Assert.Equal(0, sobol.Groups[1].Total.Value, 1e-12);
        Assert.InRange(1.0, sobol.Groups[0].FirstOrder.Lower, sobol.Groups[0].FirstOrder.Upper);
        var note = Assert.Single(result.Flags, f => f.Code == "DL6020").Text;
        Assert.Contains("400 draws", note, StringComparison.Ordinal);
        Assert.DoesNotContain("thresholdMean", note, StringComparison.Ordinal);
        Assert.DoesNotContain(result.Flags, f => f.Code == "DL6018");
    }

    [Fact]
    public void OverlayDiffusionFactor_Named_ReplacesWhatTheDrawsSayOfTheOverlay()
    {
        const double Spread = 0.3;
        Deck With(double mean, double spread) =>
            Unsurveyed with
            {
                Strategies = [ExampleDecks.Overlay("overlay", 0, 10, 50)],
                Materials =
                [
                    Surveyed.Materials[0] with
                    {
                        DiffusionCoefficient = new(mean, spread, SpreadShape.Lognormal),
                        WithinDeckShare = 0,
                    },
                ],
                Analysis = Unsurveyed.Analysis with { Draws = 20 },
            };
        double[] At(Deck deck, double? factor)
        {
            var study = Study(Of(deck, "overlay"));
            study = study with
            {
                Inputs = factor is { } f
                    ? [.. study.Inputs, new(StudyVariable.OverlayDiffusionFactor, f, null)]
                    : study.Inputs,
            };
            double[][] found = [new double[3]];
            study
                .ToModel()
                .Evaluate(
                    3,
                    [
                        [0.2, 0.5, 0.8],
                    ],
                    found
                );
            return found[0];
        }

        // A lognormal overlay at its median, and one that is known to be just that.
        var named = At(With(8, Spread), 1);
        var known = At(With(8 / Math.Sqrt(1 + Spread * Spread), 1e-12), null);
        var drawn = At(With(8, Spread), null);

        Assert.All(named.Zip(known), p => Assert.Equal(p.Second, p.First, 1e-7));
        Assert.Contains(named.Zip(drawn), p => Math.Abs(p.Second - p.First) > 1e-4);
    }

    [Theory]
    [InlineData(StudyVariable.ThresholdMean, 1.2)]
    [InlineData(StudyVariable.CoverMean, 50)]
    [InlineData(StudyVariable.ModelDiscrepancy, 0)]
    public void Check_AnInputThatTheStateDraws_Refused(StudyVariable variable, double value)
    {
        var study = Study(Subject.Value, new MonteCarloMethod(10));
        var found = StudyCheck.Find(
            study with
            {
                Inputs = [.. study.Inputs, new(variable, value, null)],
            }
        );

        Assert.Contains(
            StudyVariableInfo.Of(variable).Name,
            Assert.Single(found, d => d.Code == "DL6019").Text,
            StringComparison.Ordinal
        );
    }

    public static TheoryData<StudyMethod> AlongALine =>
        [
            new SwingMethod(0.1, 0.9),
            new MorrisMethod(MorrisDesign.Radial, 10, 4, 0.01),
            new ReliabilityMethod(1000),
        ];

    [Theory]
    [MemberData(nameof(AlongALine))]
    public void Check_AMethodThatMovesAlongALine_Refused(StudyMethod method) =>
        Assert.Contains(
            StudyCheck.Find(
                Study(Subject.Value, method) with
                {
                    Outputs = [new(StudyOutputKind.YearOfLimit, LimitYr)],
                }
            ),
            d => d.Code == "DL6009" && d.Text.Contains(method.Name, StringComparison.Ordinal)
        );

    [Fact]
    public void Check_ACorrelationWithTheState_Refused()
    {
        var study = Study(Subject.Value, new MonteCarloMethod(10));
        study = study with
        {
            Inputs =
            [
                .. study.Inputs,
                new(StudyVariable.DiscountRate, 0, new UniformDistribution(0.01, 0.05)),
            ],
            Correlations = [new(StudyVariable.DiscountRate, StudyVariable.SurveyedState, 0.5)],
        };

        Assert.Contains(StudyCheck.Find(study), d => d.Code == "DL6009");
    }

    [Fact]
    public void Check_SurveysThatContradictTheCores_SaidWithTheStudy()
    {
        var deck = Unsurveyed with
        {
            ExposureAge = DeckLife.Quantities.Age.FromYears(8),
            Soundings = SurveyLearningTests.Sounding(0.5, 0),
        };

        var found = StudyCheck.Find(
            Study(Of(deck, effort: new(1000, 1)), new MonteCarloMethod(10))
        );

        Assert.Contains(found, d => d.Code == "DL4015");
        // Too few draws could have led to such a survey: the study says that it starts from cores and cover alone.
        Assert.Contains(found, d => d.Code == "DL4016");
        Assert.Contains(
            "cores and cover alone",
            Assert.Single(found, d => d.Code == "DL6020").Text,
            StringComparison.Ordinal
        );
    }
}
