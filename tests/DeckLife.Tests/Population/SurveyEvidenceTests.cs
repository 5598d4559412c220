using System.Collections.Immutable;
using DeckLife.Population;
using DeckLife.Surveys;
using DeckLife.Tests.Projection;
using Xunit;

namespace DeckLife.Tests.Population;

public class SurveyEvidenceTests
{
    // 800 m²; what is not stated of the field is 1.5 m.
    private static readonly Deck Deck = ExampleDecks.Plain;

    [Fact]
    public void Of_NoSurveys_IsEmpty()
    {
        var evidence = SurveyEvidence.Of(Deck);

        Assert.True(evidence.IsEmpty);
        Assert.Null(evidence.UnsoundShare);
        Assert.False((evidence with { UnsoundShare = 0 }).IsEmpty);
        Assert.False((evidence with { PotentialsMv = [-200] }).IsEmpty);
    }

    [Fact]
    public void Of_AreasWithoutCorners_SharesOfTheDeckAndPlacesOfItsArea()
    {
        var evidence = SurveyEvidence.Of(
            Deck with
            {
                Soundings =
                [
                    Area(SoundingFinding.Delaminated, 80),
                    Area(SoundingFinding.Spalled, 40),
                    Area(SoundingFinding.Patched, 20),
                ],
            }
        );

        Assert.Equal(0.15, evidence.UnsoundShare!.Value, 1e-12);
        Assert.Equal(0.025, evidence.PatchedShare, 1e-12);
        Assert.Equal(800 / (2 * Math.PI * 1.5 * 1.5), evidence.SoundingPlaces, 1e-9);
        Assert.Equal(0, evidence.FiniteAreaSd);
        Assert.Null(evidence.UnsoundField);
        Assert.False(evidence.NodesAreOnSoundPlaces);
        Assert.False(evidence.IsEmpty);
    }

    [Fact]
    public void Of_MoreMarkedThanTheDeckHas_IsAllOfIt() =>
        Assert.Equal(
            1,
            SurveyEvidence
                .Of(Deck with { Soundings = [Area(SoundingFinding.Delaminated, 900)] })
                .UnsoundShare
        );

    [Theory]
    [InlineData(19, BarType.Bare, 0)]
    [InlineData(20, BarType.Bare, 20)]
    [InlineData(20, BarType.EpoxyCoated, 0)] // a potential over coated bars says nothing
    public void Of_HalfCells_UsedFromTwentyOnOverBareBars(int nodes, BarType bars, int used)
    {
        var evidence = SurveyEvidence.Of(
            Deck with
            {
                BarType = bars,
                HalfCells = SurveyLearningTests.HalfCells(nodes, i => -200 - i),
                Surveys = new() { CorrelationLengthM = 2 },
            }
        );

        Assert.Equal(used, evidence.PotentialsMv.Count);
        Assert.Equal(Enumerable.Range(0, used).Select(i => -200.0 - i), evidence.PotentialsMv);
        Assert.Equal(2, evidence.CorrelationLengthM);
        Assert.False(evidence.NodesAreOnSoundPlaces);
        if (used > 0)
        {
            // A stated length stands alone: no nugget is estimated beside it.
            double[] x = [.. Enumerable.Range(0, used).Select(i => (i % 25 * 1.5) + 0.5)];
            Assert.Equal(
                SpatialReadings.EffectiveNumber(x, [.. x.Select(_ => 0.5)], 2),
                evidence.IndependentNodes,
                1e-9
            );
        }
    }

    [Fact]
    public void Of_OneAreaWithoutCorners_NodesAreNotKeptApart()
    {
        var deck = Deck with
        {
            Surveys = new() { CorrelationLengthM = 1.5 },
            HalfCells = SurveyLearningTests.HalfCells(100, _ => -250),
            Soundings = [Square(0, 0, 10)],
        };

        var placed = SurveyEvidence.Of(deck);
        var partly = SurveyEvidence.Of(
            deck with
            {
                Soundings = [Square(0, 0, 10), Area(SoundingFinding.Delaminated, 5)],
            }
        );

        Assert.True(placed.NodesAreOnSoundPlaces);
        Assert.True(placed.PotentialsMv.Count < 100);
        Assert.False(partly.NodesAreOnSoundPlaces);
        Assert.Equal(100, partly.PotentialsMv.Count);
    }

    [Fact]
    public void Of_AreasWithCorners_PlacesAreThoseOfTheSoundingsOwnError()
    {
        var evidence = SurveyEvidence.Of(
            Scattered with
            {
                Surveys = new() { SoundingAreaError = 0.2, DetectionProbability = 0.7 },
            }
        );

        // 20 squares of 4 m² on 800 m²: a tenth; its own error 0.02, and of twenty areas of 0.005 each missed with 0.3.
        var variance = Math.Pow(0.2 * 0.1, 2) + (0.3 * 20 * 0.005 * 0.005);
        Assert.Equal(0.1 * 0.9 / variance, evidence.SoundingPlaces, 1e-6);
        Assert.NotNull(evidence.UnsoundField);
        // √(p(1 − p)/places) over the normal's density at the score of a tenth, 0.17550.
        var field = evidence.UnsoundField!;
        Assert.True(field.Length > 0);
        Assert.InRange(evidence.FiniteAreaSd, 0.3 / Math.Sqrt(480) / 0.1755, 1);
    }

    [Fact]
    public void Of_StatedLength_LeavesTheFieldOfUnsoundPlacesAlone()
    {
        var evidence = SurveyEvidence.Of(
            Scattered with
            {
                Surveys = new() { CorrelationLengthM = 3 },
            }
        );

        Assert.Null(evidence.UnsoundField);
        Assert.Equal(0, evidence.FiniteAreaSd);
        Assert.Equal(800 / (2 * Math.PI * 9), evidence.SoundingPlaces, 1e-9);
    }

    [Fact]
    public void Of_OnlyPatches_NoFieldOfUnsoundPlaces()
    {
        var evidence = SurveyEvidence.Of(
            Scattered with
            {
                Soundings =
                [
                    .. Scattered.Soundings.Select(s =>
                        s with
                        {
                            Finding = SoundingFinding.Patched,
                        }
                    ),
                ],
            }
        );

        Assert.Null(evidence.UnsoundField);
        Assert.Equal(0, evidence.UnsoundShare);
        Assert.Equal(0.1, evidence.PatchedShare, 1e-12);
    }

    private static readonly Deck Scattered = Deck with
    {
        LengthM = 40,
        WidthM = 20,
        Soundings =
        [
            .. Enumerable.Range(0, 20).Select(i => Square(1 + (i % 5 * 7.7), 1 + (i / 5 * 5.1), 2)),
        ],
    };

    private static SoundingArea Area(SoundingFinding finding, double areaM2) =>
        new()
        {
            Row = 2,
            Finding = finding,
            AreaM2 = areaM2,
        };

    private static SoundingArea Square(double x, double y, double side) =>
        Area(SoundingFinding.Delaminated, side * side) with
        {
            Corners = [(x, y), (x + side, y), (x + side, y + side), (x, y + side)],
        };
}
