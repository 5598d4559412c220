using DeckLife.Population;
using Xunit;

namespace DeckLife.Tests.Population;

public class KnowledgeDrawTests
{
    [Fact]
    public void LifeUniform_CentralDraw_IsTheMiddleForAll()
    {
        var centre = Draw(-1);

        Assert.Equal(0.5, centre.LifeUniform("dense", 0, 0));
        Assert.Equal(0.5, centre.LifeUniform("dense", 0, 2));
        Assert.Equal(0.5, centre.LifeUniform("skin", -1, 0));
    }

    [Fact]
    public void LifeUniform_MaterialPlacedFirst_IsItsOwnNumberOfTheDraw()
    {
        Assert.Equal(0.3, Draw(4).LifeUniform("dense", 0, 0));
        Assert.Equal(0.3, Draw(0).LifeUniform("dense", 0, 0));
        Assert.Equal(0.7, Draw(4).LifeUniform("other", 1, 0));
    }

    [Fact]
    public void LifeUniform_PlacedAgain_AnotherNumberEachTimeButTheSameInEveryStrategy()
    {
        var draw = Draw(4);
        double[] lives =
        [
            draw.LifeUniform("dense", 0, 0),
            draw.LifeUniform("dense", 0, 1),
            draw.LifeUniform("dense", 0, 2),
            draw.LifeUniform("skin", -1, 0),
            draw.LifeUniform("skin", -1, 1),
            Draw(5).LifeUniform("skin", -1, 0),
            (draw with { Seed = 12 }).LifeUniform("skin", -1, 0),
        ];

        Assert.Equal(lives.Length, lives.Distinct().Count());
        Assert.All(lives, u => Assert.InRange(u, 0, 1));
        Assert.Equal(lives[2], Draw(4).LifeUniform("dense", 0, 2));
        Assert.Equal(lives[4], Draw(4).LifeUniform("skin", -1, 1));
    }

    private static KnowledgeDraw Draw(int index) =>
        new(
            index,
            new()
            {
                Cover = PointDistribution.NormalAboveZero(55, 8),
                MeanLnSurfaceChloride = 1,
                SdLnSurfaceChloride = 0.3,
                MeanLnDiffusionCoefficient = 3,
                SdLnDiffusionCoefficient = 0.5,
                Threshold = PointDistribution.LognormalWithMean(1, 0.3),
                PropagationYr = PointDistribution.LognormalWithMean(5, 0.4),
            },
            0,
            [0, 0],
            [0.3, 0.7]
        )
        {
            Seed = 11,
        };
}
