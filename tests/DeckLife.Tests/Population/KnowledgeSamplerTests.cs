using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Population;
using DeckLife.Propagation;
using DeckLife.Tests.Projection;
using Xunit;

namespace DeckLife.Tests.Population;

public class KnowledgeSamplerTests
{
    private const ulong Seed = 7;

    private static readonly Deck Deck = ExampleDecks.Plain;

    [Theory]
    [InlineData(4, 2.5)] // 1, 2, 3, 4
    [InlineData(5, 3)]
    public void Centre_DrawsOfTheFit_MedianOfEachParameter(int count, double median)
    {
        var fit = ExampleDecks.Fit with
        {
            Draws =
            [
                .. Enumerable
                    .Range(0, count)
                    .Select(i => (i * 3 % count) + 1.0)
                    .Select(v => new DeckHyperDraw(v, 2 * v, 3 * v, 4 * v, v / 10, 5 * v, 6 * v)),
            ],
        };

        var centre = Sampler(fit).Centre();

        Assert.Equal(-1, centre.Index);
        Assert.Equal(median, centre.Population.MeanLnSurfaceChloride, 1e-12);
        Assert.Equal(2 * median, centre.Population.MeanLnDiffusionCoefficient, 1e-12);
        Assert.Equal(3 * median, centre.Population.SdLnSurfaceChloride, 1e-12);
        Assert.Equal(4 * median, centre.Population.SdLnDiffusionCoefficient, 1e-12);
        Assert.Equal(median / 10, centre.Population.Correlation, 1e-12);
        Assert.Equal(5 * median, centre.Population.BackgroundKgPerM3, 1e-12);
        // Everything else at its middle.
        Assert.Equal(0, centre.Discrepancy, 1e-12);
        Assert.Equal([0.0], centre.MaterialScores.Select(s => Math.Round(s, 9)));
        Assert.Equal([0.5], centre.MaterialLifeUniforms.AsEnumerable());
        Assert.Equal(55, centre.Population.Cover.Quantile(0.5), 1e-6);
    }

    [Fact]
    public void Centre_FitWithoutDraws_ItsEstimates()
    {
        var population = Sampler(Plain).Centre().Population;

        Assert.Equal(Math.Log(6), population.MeanLnSurfaceChloride, 1e-12);
        Assert.Equal(Math.Log(35), population.MeanLnDiffusionCoefficient, 1e-12);
        Assert.Equal(0.3, population.SdLnSurfaceChloride);
        Assert.Equal(0.4, population.SdLnDiffusionCoefficient);
        Assert.Equal(-0.5, population.Correlation);
        Assert.Equal(0.1, population.BackgroundKgPerM3);
    }

    [Fact]
    public void CentreAndDraw_EstimatesThatNoDeckCanHave_AreHeldAtTheirEnds()
    {
        // Moment estimates may leave the range of what they estimate.
        var sampler = Sampler(
            Plain with
            {
                SdLnSurfaceChloride = new(-0.1),
                SdLnDiffusionCoefficient = new(-0.2),
                Correlation = new(-1.4),
                Background = new(-0.05),
            }
        );

        foreach (var draw in new[] { sampler.Centre(), sampler.Draw(3) })
        {
            Assert.Equal(0, draw.Population.SdLnSurfaceChloride);
            Assert.Equal(0, draw.Population.SdLnDiffusionCoefficient);
            Assert.Equal(-1, draw.Population.Correlation);
            Assert.Equal(0, draw.Population.BackgroundKgPerM3);
        }
    }

    [Fact]
    public void Draw_FitWithoutDraws_MovesByTheStandardErrors()
    {
        const int Count = 2000;
        var sampler = Sampler(
            Plain with
            {
                SurfaceChloride = new(6) { StandardError = 0.6 },
                DiffusionCoefficient = new(35) { StandardError = 7 },
                Background = new(0.5) { StandardError = 0.02 },
            }
        );
        var draws = Enumerable.Range(0, Count).Select(i => sampler.Draw(i).Population).ToArray();

        // Four standard errors of a mean and of a deviation.
        void Check(Func<DeckPopulation, double> value, double mean, double sd)
        {
            var values = draws.Select(value).ToArray();
            var found = values.Average();
            Assert.Equal(mean, found, 4 * sd / Math.Sqrt(Count));
            Assert.Equal(
                sd,
                Math.Sqrt(values.Average(v => (v - found) * (v - found))),
                4 * sd / Math.Sqrt(2 * Count)
            );
        }

        Check(p => p.MeanLnSurfaceChloride, Math.Log(6), 0.1);
        Check(p => p.MeanLnDiffusionCoefficient, Math.Log(35), 0.2);
        Check(p => p.BackgroundKgPerM3, 0.5, 0.02);
        // Without standard errors nothing moves.
        Assert.Equal(Math.Log(6), Sampler(Plain).Draw(5).Population.MeanLnSurfaceChloride, 1e-12);
    }

    [Theory]
    [InlineData(20, 3, 15)] // 20 draws from 101: every fifth about
    [InlineData(20, 19, 95)]
    [InlineData(20, 20, 20)] // more than were announced: on through the chain
    [InlineData(101, 7, 7)]
    [InlineData(200, 150, 49)] // more than there are: round again
    public void Draw_FewerOrMoreThanTheFitHas_SpreadOverTheChainOrRoundAgain(
        int draws,
        int index,
        int expected
    ) =>
        Assert.Equal(
            ExampleDecks.Fit.Draws[expected].MeanLnDiffusionCoefficient,
            Sampler(ExampleDecks.Fit, draws: draws)
                .Draw(index)
                .Population.MeanLnDiffusionCoefficient
        );

    [Fact]
    public void Draw_ModelsErrorAndFiniteArea_ShiftsAddAsVariances()
    {
        double Shift(double model, double area) =>
            new KnowledgeSampler(
                Deck with
                {
                    Surveys = new() { ModelDiscrepancySd = model },
                },
                ExampleDecks.Fit,
                new(0, 55, 10),
                Seed,
                20,
                area
            )
                .Draw(3)
                .Discrepancy;

        var alone = Shift(0.2, 0);

        Assert.NotEqual(0, alone);
        Assert.Equal(1.25 * alone, Shift(0.2, 0.15), 1e-12);
        Assert.Equal(0.75 * alone, Shift(0, 0.15), 1e-12);
        Assert.Equal(0, Shift(0, 0));
    }

    [Fact]
    public void Draw_CoverThresholdAndPropagation_AreTheDecksOwn()
    {
        var deck = Deck with
        {
            Threshold = Deck.Threshold with { Content = UncertainValue.Exactly(1.3) },
            Propagation = new() { Period = UncertainValue.Exactly(4), Source = "test" },
        };

        var population = Sampler(ExampleDecks.Fit, deck).Draw(2).Population;

        Assert.Equal(1.3, population.Threshold.Quantile(0.5), 1e-12);
        Assert.Equal(4, population.PropagationYr.Quantile(0.5), 1e-12);
        Assert.Null(population.PropagationOf);
        Assert.Null(population.Soffit);
    }

    [Fact]
    public void Draw_PropagationByARate_YearsHangOnTheCoverAndTheBar()
    {
        var deck = Deck with
        {
            Propagation = new()
            {
                Period = UncertainValue.Exactly(4),
                Model = PropagationModel.LiuWeyers1998,
                CorrosionRate = UncertainValue.Exactly(2),
                Source = "test",
            },
        };

        var population = Sampler(ExampleDecks.Fit, deck).Draw(2).Population;

        Assert.Equal(2, population.PropagationYr.Quantile(0.5), 1e-12);
        Assert.Equal(deck.Propagation.YearsAt(2, 60, 16), population.PropagationOf!(2, 60), 1e-12);
    }

    [Fact]
    public void Draw_SaltedUnderside_VariesFromDrawToDraw()
    {
        var sampler = Sampler(
            ExampleDecks.Fit,
            Deck with
            {
                Soffit = new()
                {
                    SurfaceChloride = new(4, 0.3, SpreadShape.Lognormal),
                    Source = "test",
                },
            }
        );

        var centre = sampler.Centre().Population.Soffit!;
        Assert.Equal(200, centre.SectionMm);
        // The median of a lognormal of mean 4.
        Assert.Equal(4 / Math.Sqrt(1.09), centre.SurfaceChloride, 1e-9);
        Assert.NotEqual(
            sampler.Draw(1).Population.Soffit!.SurfaceChloride,
            sampler.Draw(2).Population.Soffit!.SurfaceChloride
        );
    }

    [Fact]
    public void Draw_SeveralMaterials_EachWithNumbersOfItsOwnAndTheSameWhoeverAsks()
    {
        var deck = Deck with
        {
            Materials = [Deck.Materials[0], Deck.Materials[0] with { Name = "other" }],
        };
        var draw = Sampler(ExampleDecks.Fit, deck).Draw(4);
        double[] numbers = [.. draw.MaterialScores, .. draw.MaterialLifeUniforms];

        Assert.Equal(2, Sampler(ExampleDecks.Fit, deck).Centre().MaterialScores.Length);
        Assert.Equal(4, draw.Index);
        Assert.Equal(Seed, draw.Seed);
        Assert.Equal(4, numbers.Distinct().Count());
        Assert.All(draw.MaterialLifeUniforms, u => Assert.InRange(u, 0, 1));
        // A material added at the end moves nothing before it.
        var one = Sampler(ExampleDecks.Fit).Draw(4);
        Assert.Equal(one.MaterialScores[0], draw.MaterialScores[0]);
        Assert.Equal(one.MaterialLifeUniforms[0], draw.MaterialLifeUniforms[0]);
        Assert.Equal(one.Discrepancy, draw.Discrepancy);
        Assert.NotEqual(numbers[0], Sampler(ExampleDecks.Fit, deck).Draw(5).MaterialScores[0]);
    }

    // A fit with no draws: the cores' own estimates.
    private static DeckFit Plain =>
        ExampleDecks.Fit with
        {
            Draws = ImmutableArray<DeckHyperDraw>.Empty,
            SdLnDiffusionCoefficient = new(0.4),
            Correlation = new(-0.5),
        };

    private static KnowledgeSampler Sampler(DeckFit fit, Deck? deck = null, int draws = 20) =>
        new(deck ?? Deck, fit, new(0, 55, 10), Seed, draws);
}
