using DeckLife.Quantities;
using DeckLife.Rehabilitation;
using Xunit;

namespace DeckLife.Tests.Rehabilitation;

public class StrategyTests
{
    [Fact]
    public void Equals_ListsBuiltApart_ByTheirContents()
    {
        var one = Overlay("one", 3);

        Assert.Equal(one, Overlay("one", 3));
        Assert.Equal(one.GetHashCode(), Overlay("one", 3).GetHashCode());
        Assert.NotEqual(one, Overlay("other", 3));
        Assert.NotEqual(one, Overlay("one", 4));
        Assert.NotEqual(one, one with { Interventions = [] });
        Assert.False(one.Equals(null));
    }

    private static Strategy Overlay(string name, double at) =>
        new()
        {
            Name = name,
            Interventions =
            [
                new() { At = Age.FromYears(at), Overlay = new("dense", Depth.FromMillimetres(40)) },
            ],
        };
}
