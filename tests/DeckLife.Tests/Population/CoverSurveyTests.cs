using System.Collections.Immutable;
using DeckLife.Population;
using DeckLife.Quantities;
using DeckLife.Surveys;
using Xunit;

namespace DeckLife.Tests.Population;

public class CoverSurveyTests
{
    [Fact]
    public void FromReadings_Five_MeanAndDeviationByHand()
    {
        var survey = CoverSurvey.FromReadings(Read(40, 50, 60, 50, 50))!;

        Assert.Equal(5, survey.Readings);
        Assert.Equal(5, survey.IndependentReadings);
        Assert.Equal(50, survey.MeanMm, 1e-12);
        // (100 + 100)/4.
        Assert.Equal(Math.Sqrt(50), survey.StandardDeviationMm, 1e-12);
        Assert.Null(survey.Shape);
        Assert.Null(CoverSurvey.FromReadings(Read(40, 50, 60, 50)));
    }

    [Theory]
    [InlineData(29, CoverShape.Readings, false)] // too few to have a shape
    [InlineData(30, CoverShape.Readings, true)]
    [InlineData(30, CoverShape.Normal, false)]
    public void FromReadings_TheirOwnShape_FromThirtyOn(int count, CoverShape shape, bool isOwn) =>
        Assert.Equal(
            isOwn,
            CoverSurvey
                .FromReadings(Read([.. Enumerable.Range(0, count).Select(i => 40.0 + i)]), shape)!
                .Shape
                is not null
        );

    [Fact]
    public void Draw_ReadingsAllEqual_EveryPointHasThem()
    {
        var survey = CoverSurvey.FromReadings(
            Read([.. Enumerable.Repeat(48.0, 30)]),
            CoverShape.Readings
        )!;

        Assert.Null(survey.Shape);
        Assert.True(survey.Draw(0.1, 2).IsExact);
        Assert.Equal(48, survey.Draw(0.1, 2).Quantile(0.2));
    }

    [Fact]
    public void Draw_StatedMeanAndDeviation_AreTakenAsTheyAre()
    {
        var stated = new CoverSurvey(0, 55, 10);

        Assert.Equal(55 + 10, stated.Draw(0.9, 2).Quantile(0.8413447460685429), 1e-5);
    }

    [Fact]
    public void Draw_TwoIndependentReadings_ByOneDegreeOfFreedom()
    {
        // χ² of one degree has its value 1 where the normal's two-sided share lies within one deviation, and 4 within two.
        var survey = new CoverSurvey(20, 50, 2) { IndependentReadings = 2 };
        PointDistribution At(double within, double score) => survey.Draw(within, score);
        const double One = 0.6826894921370859;
        const double Two = 0.9544997361036416;

        Assert.Equal(50, At(One, 0).Quantile(0.5), 1e-6);
        Assert.Equal(2, At(One, 0).Quantile(0.8413447460685429) - 50, 1e-6);
        Assert.Equal(1, At(Two, 0).Quantile(0.8413447460685429) - 50, 1e-6);
        // The mean moves by the drawn deviation over √2.
        Assert.Equal(50 + (3 * 2 / Math.Sqrt(2)), At(One, 3).Quantile(0.5), 1e-6);
        // Fewer than two are taken for two.
        Assert.Equal(
            At(One, 3).Quantile(0.5),
            (survey with { IndependentReadings = 1 }).Draw(One, 3).Quantile(0.5)
        );
        // A mean far below 0 is held at a millimetre.
        Assert.InRange(At(One, -200).Quantile(0.5), 0, 3);
    }

    [Fact]
    public void With_AnotherMeanOrSpread_KeepsTheRest()
    {
        var normal = new CoverSurvey(20, 50, 5);
        var own = CoverSurvey.FromReadings(
            Read([.. Enumerable.Range(0, 60).Select(i => i % 2 == 0 ? 40.0 + (0.1 * i) : 70)]),
            CoverShape.Readings
        )!;

        Assert.Equal(60, normal.With(60, null).Quantile(0.5), 1e-6);
        Assert.Equal(65, normal.With(60, null).Quantile(0.8413447460685429), 1e-5);
        Assert.Equal(52, normal.With(null, 2).Quantile(0.8413447460685429), 1e-5);
        // Two modes stay two modes: hardly anything in the middle.
        var moved = own.With(80, 10);
        Assert.Equal(80, Mean(moved), 0.1);
        Assert.True(moved.Cumulative(82) - moved.Cumulative(78) < 0.1);
    }

    private static double Mean(PointDistribution distribution) =>
        Enumerable.Range(0, 1000).Average(i => distribution.Quantile((i + 0.5) / 1000));

    private static ImmutableArray<CoverReading> Read(params double[] covers) =>
        [.. covers.Select((c, i) => new CoverReading(i + 2, null, null, Depth.FromMillimetres(c)))];
}
