using System.Collections.Immutable;
using DeckLife.Numerics.Sampling;
using DeckLife.Population;
using DeckLife.Projection;
using DeckLife.Surveys;
using DeckLife.Tests.Projection;
using Xunit;

namespace DeckLife.Tests.Population;

public class SurveyLearningTests
{
    private static readonly Deck Deck = ExampleDecks.Plain with
    {
        Surveys = new() { CorrelationLengthM = 1.2 },
        Strategies = [ExampleDecks.Nothing],
        Analysis = new()
        {
            Seed = 5,
            Draws = 400,
            Points = 128,
        },
    };

    [Fact]
    public void Project_SurveyOfDamage_CurveStartsAtTheSurveyedShareWithItsOwnError()
    {
        var result = ExampleDecks.Project(Deck with { Soundings = Sounding(0.18, 0.05) });

        var hindcast = result.Hindcast!;
        var before = hindcast.CurveBefore[0].DamagedOrPatched;
        var after = hindcast.CurveAfter!.Value[0].DamagedOrPatched;
        Assert.True(hindcast.IsLearned);
        Assert.True(hindcast.EffectiveSampleSize > 400);
        Assert.True(hindcast.ParetoShape < 0.7);
        // 18 % found by a sounding that finds 90 %, and 5 % patched: 25 %. 88 independent places: one standard error 4.6 %.
        Assert.Equal(0.25, after.P50, 0.04);
        Assert.True(after.P95 - after.P05 < 0.6 * (before.P95 - before.P05));
        Assert.Equal(result.Strategies[0].Curve.AsEnumerable(), hindcast.CurveAfter!.Value);
    }

    [Fact]
    public void Project_SurveyThatSaysNothing_ChangesNothing()
    {
        // One independent place on the whole deck, and readings half-way between both kinds of bar.
        var deck = Deck with
        {
            Surveys = Deck.Surveys with
            {
                CorrelationLengthM = 1000,
                PassiveMeanMv = -280,
                ActiveMeanMv = -280,
                PassiveSdMv = 70,
                ActiveSdMv = 70,
            },
            HalfCells = HalfCells(200, _ => -280),
        };

        var result = ExampleDecks.Project(deck);

        Assert.Equal(
            result.Hindcast!.CurveBefore.AsEnumerable(),
            result.Hindcast.CurveAfter!.Value
        );
    }

    [Fact]
    public void Project_SurveyFarFromTheCores_IsSaidLoudly()
    {
        var result = ExampleDecks.Project(
            Deck with
            {
                ExposureAge = DeckLife.Quantities.Age.FromYears(8),
                Soundings = Sounding(0.5, 0),
            }
        );

        Assert.Contains(result.Flags, f => f.Code == "DL4015");
        Assert.True(result.Hindcast!.SoundingPredictive < 0.02);
        if (result.Hindcast.EffectiveSampleSize < 100)
        {
            Assert.Null(result.Hindcast.CurveAfter);
            Assert.Contains(result.Flags, f => f.Code == "DL4016");
        }
    }

    [Fact]
    public void Of_NodesOnUnsoundAreas_AreLeftOut()
    {
        var deck = Deck with
        {
            Soundings =
            [
                new()
                {
                    Row = 2,
                    Finding = SoundingFinding.Delaminated,
                    AreaM2 = 100,
                    Corners = [(0, 0), (10, 0), (10, 10), (0, 10)],
                },
            ],
            HalfCells = HalfCells(200, i => -200 - i),
        };

        var evidence = SurveyEvidence.Of(deck);

        var outside = deck.HalfCells.Count(h => !(h.X < 10 && h.Y < 10));
        Assert.Equal(outside, evidence.PotentialsMv.Count);
        Assert.True(evidence.NodesAreOnSoundPlaces);
    }

    [Fact]
    public void Log_HalfCellOnPlacesThatSoundingCalledSound_TellsOnlyOfTheRest()
    {
        // Sounding took the damaged share; among what it left half is active: the likelihood peaks there, not at the sum of both.
        var stream = new RandomStream(11, "potentials");
        var model = new SurveyModel();
        var evidence = new SurveyEvidence
        {
            UnsoundShare = 0.18,
            SoundingPlaces = 100,
            PotentialsMv =
            [
                .. Enumerable
                    .Range(0, 4000)
                    .Select(i =>
                        i % 2 == 0
                            ? -207 + 80.4 * stream.NextNormal()
                            : -354 + 69.7 * stream.NextNormal()
                    ),
            ],
            IndependentNodes = 4000,
            NodesAreOnSoundPlaces = true,
        };
        var likelihood = new SurveyLikelihood(evidence, model);

        var best = Enumerable
            .Range(1, 99)
            .SelectMany(d => Enumerable.Range(d, 100 - d).Select(i => (D: d / 100.0, I: i / 100.0)))
            .MaxBy(p => likelihood.Log(p.D, p.I));

        // Damaged 0.18/0.9 = 0.20; of the 0.82 that sounding left 0.02 is damaged unseen and half in all corrodes: 0.20 + 0.39.
        Assert.Equal(0.20, best.D, 0.011);
        Assert.Equal(0.59, best.I, 0.03);
    }

    [Fact]
    public void EffectiveNumber_EveryNodeTwice_IsNoMoreThanOnce()
    {
        var once = HalfCells(200, i => -200);
        double[] x = [.. once.Select(h => h.X)],
            y = [.. once.Select(h => h.Y)];

        var single = SpatialReadings.EffectiveNumber(x, y, 1.5);
        var twice = SpatialReadings.EffectiveNumber([.. x, .. x], [.. y, .. y], 1.5);

        Assert.Equal(single, twice, 1e-9);
        Assert.True(single < 200);
        Assert.Equal(200, SpatialReadings.EffectiveNumber(x, y, 0));
    }

    [Fact]
    public void EffectiveNumber_OfTheDeckMean_CornerOfTheDeckIsWorthFewAndAnEvenGridAll()
    {
        var plan = new DeckPlan(0, 40, 0, 12);
        double[] spreadX = [.. Enumerable.Range(0, 120).Select(i => 1 + i % 20 * 2.0)],
            spreadY = [.. Enumerable.Range(0, 120).Select(i => 1 + i / 20 * 2.0)];
        double[] cornerX = [.. spreadX.Select(x => x / 8)],
            cornerY = [.. spreadY.Select(y => y / 4)];

        Assert.Equal(120, SpatialReadings.EffectiveNumber(spreadX, spreadY, 5, 0.3, plan));
        Assert.InRange(SpatialReadings.EffectiveNumber(cornerX, cornerY, 5, 0.3, plan), 1, 4);
        Assert.Equal(120, SpatialReadings.EffectiveNumber(cornerX, cornerY, 5, 1, plan), 1e-9);
    }

    [Fact]
    public void CoverSurvey_ReadingsOfOneCorner_MeanIsKnownLessWell()
    {
        var stream = new RandomStream(21, "cover");
        // A slow wave along the deck, and scatter: read evenly, or within the first eighth only.
        CoverReading Read(int i, double x, double y) =>
            new(
                i + 2,
                x,
                y,
                DeckLife.Quantities.Depth.FromMillimetres(
                    55 + 8 * Math.Sin(0.3 * x) + 2 * stream.NextNormal()
                )
            );
        var even = Deck with
        {
            LengthM = 66,
            WidthM = 12,
            Covers =
            [
                .. Enumerable
                    .Range(0, 120)
                    .Select(i => Read(i, 1.5 + i % 20 * 3.2, 1 + i / 20 * 2)),
            ],
        };
        var corner = even with
        {
            Covers =
            [
                .. Enumerable
                    .Range(0, 120)
                    .Select(i => Read(i, 0.2 + i % 20 * 0.4, 1 + i / 20 * 2)),
            ],
        };

        var spread = CoverSurvey.Of(even)!;
        var local = CoverSurvey.Of(corner)!;

        Assert.True(spread.Field!.IsShown);
        Assert.Equal(120, spread.IndependentReadings);
        Assert.InRange(local.IndependentReadings, 1, 12);
        var width = (CoverSurvey s) => s.Draw(0.5, 1).Quantile(0.5) - s.Draw(0.5, 0).Quantile(0.5);
        Assert.True(
            width(local) / local.StandardDeviationMm
                > 2 * width(spread) / spread.StandardDeviationMm
        );
    }

    [Fact]
    public void Of_SoundedAreasWithCorners_ClustersTellHowFarChanceMovesTheDeck()
    {
        Deck With(Func<int, (double X, double Y)> place) =>
            Deck with
            {
                LengthM = 66,
                WidthM = 12,
                Surveys = new(),
                Soundings =
                [
                    .. Enumerable
                        .Range(0, 40)
                        .Select(i =>
                        {
                            var (x, y) = place(i);
                            return new SoundingArea
                            {
                                Row = i + 2,
                                Finding = SoundingFinding.Delaminated,
                                AreaM2 = 1.44,
                                Corners = Square(x, y, 1.2),
                            };
                        }),
                ],
            };
        var stream = new RandomStream(4, "hollows");

        var scattered = SurveyEvidence.Of(
            With(_ => (64 * stream.NextUniform(), 10.5 * stream.NextUniform()))
        );
        var clustered = SurveyEvidence.Of(With(i => (10 + i % 8 * 1.2, 2 + i / 8 * 1.2)));

        Assert.InRange(scattered.FiniteAreaSd, 0.01, 0.3);
        Assert.True(clustered.FiniteAreaSd > 2 * scattered.FiniteAreaSd);
        // The survey's own error: a tenth of the area marked, and a tenth of the areas missed.
        Assert.InRange(scattered.SoundingPlaces, 500, 2000);
    }

    [Fact]
    public void Project_SurveysTwoWays_SameNumbersForAnyThreads()
    {
        var deck = Deck with
        {
            Soundings = Sounding(0.1, 0.02),
            HalfCells = HalfCells(200, i => -150 - i),
            Analysis = Deck.Analysis with { Draws = 60, Threads = 1 },
        };

        var one = ExampleDecks.Project(deck);
        var eight = ExampleDecks.Project(
            deck with
            {
                Analysis = deck.Analysis with { Threads = 8 },
            }
        );

        Assert.Equal(one.Strategies[0].Curve.AsEnumerable(), eight.Strategies[0].Curve);
        Assert.Equal(one.Hindcast!.EffectiveSampleSize, eight.Hindcast!.EffectiveSampleSize);
    }

    private static ImmutableArray<(double X, double Y)> Square(double x, double y, double side) =>
        [(x, y), (x + side, y), (x + side, y + side), (x, y + side)];

    internal static ImmutableArray<SoundingArea> Sounding(double unsound, double patched) =>
        [
            new()
            {
                Row = 2,
                Finding = SoundingFinding.Delaminated,
                AreaM2 = unsound * 800,
            },
            new()
            {
                Row = 3,
                Finding = SoundingFinding.Patched,
                AreaM2 = patched * 800,
            },
        ];

    internal static ImmutableArray<HalfCellReading> HalfCells(
        int count,
        Func<int, double> potential
    ) =>
        [
            .. Enumerable
                .Range(0, count)
                .Select(i => new HalfCellReading(
                    i + 2,
                    i % 25 * 1.5 + 0.5,
                    i / 25 * 1.5 + 0.5,
                    potential(i)
                )),
        ];
}
