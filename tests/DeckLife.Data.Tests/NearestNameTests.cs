using Xunit;

namespace DeckLife.Data.Tests;

public class NearestNameTests
{
    // By hand: one insertion, deletion, substitution, exchange of neighbours; kitten to sitting is the textbooks' three.
    [Theory]
    [InlineData("", "", 0)]
    [InlineData("", "abc", 3)]
    [InlineData("abc", "", 3)]
    [InlineData("depth", "depth", 0)]
    [InlineData("depth", "depths", 1)]
    [InlineData("depth", "dpth", 1)]
    [InlineData("depth", "debth", 1)]
    [InlineData("depth", "detph", 1)]
    [InlineData("edpth", "depth", 1)]
    [InlineData("kitten", "sitting", 3)]
    [InlineData("ab", "ba", 1)]
    [InlineData("abc", "ca", 3)]
    public void Distance_OfTwoNames_FewestChanges(string a, string b, int distance)
    {
        Assert.Equal(distance, NearestName.Distance(a, b));
        Assert.Equal(distance, NearestName.Distance(b, a));
    }

    // Names far apart in length, or too long for a key, are not compared: hostile input must not cost time.
    [Theory]
    [InlineData(12, 0, 12)]
    [InlineData(13, 0, int.MaxValue)]
    [InlineData(80, 80, 0)]
    [InlineData(81, 80, int.MaxValue)]
    [InlineData(80, 81, int.MaxValue)]
    public void Distance_OfLongNames_NotCompared(int first, int second, int distance) =>
        Assert.Equal(
            distance,
            NearestName.Distance(new string('a', first), new string('a', second))
        );

    // Within two changes, or a third of a long name.
    [Theory]
    [InlineData("hrizon", "horizon")]
    [InlineData("HORIZON", "horizon")]
    [InlineData("hor", null)]
    [InlineData("horizxxn", "horizon")]
    [InlineData("damagelim", "damageLimit")]
    [InlineData("damage", null)]
    [InlineData("damgeLimitxy", "damageLimit")]
    [InlineData("zzzz", null)]
    public void Of_MisspeltName_NearestOrNone(string name, string? nearest) =>
        Assert.Equal(nearest, NearestName.Of(name, ["horizon", "damageLimit"]));

    [Fact]
    public void Of_NothingKnown_None() => Assert.Null(NearestName.Of("a", []));
}
