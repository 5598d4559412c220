using DeckLife.Transport;
using Xunit;

namespace DeckLife.Tests.Transport;

/// <summary>The values are in reference cases transport/humidity and transport/mix-relations; here shape and refusals.</summary>
public class MixRelationTests
{
    [Fact]
    public void HumidityFactor_RisesFromDryToSaturated()
    {
        var factors = Enumerable
            .Range(0, 101)
            .Select(k => SaettaEtAl1993.HumidityFactor(k / 100.0))
            .ToArray();
        Assert.True(factors.Zip(factors.Skip(1)).All(p => p.First < p.Second));
        Assert.Equal(1, factors[^1]);
        Assert.Equal(0.5, SaettaEtAl1993.HumidityFactor(SaettaEtAl1993.HalfHumidity), 1e-15);
    }

    [Theory]
    [InlineData(-0.01)]
    [InlineData(1.01)]
    [InlineData(double.NaN)]
    public void HumidityFactor_OutsideTheRange_Throws(double humidity) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SaettaEtAl1993.HumidityFactor(humidity));

    [Fact]
    public void MixRelations_WetterMix_MoreDiffusionLessAgeing()
    {
        Assert.True(
            FrederiksenEtAl1997.FirstYearCoefficient(0.35)
                < FrederiksenEtAl1997.FirstYearCoefficient(0.5)
        );
        Assert.Equal(0.4, FrederiksenEtAl1997.AgeingExponent(0.4), 1e-12);
        Assert.Equal(0.25, FrederiksenEtAl1997.AgeingExponent(0.5), 1e-12);
        Assert.Equal(1.4668, FrederiksenEtAl1997.FirstYearSurfaceContent(0.4), 1e-12);
        Assert.True(PapadakisEtAl1996.Coefficient(0.4, 3) < PapadakisEtAl1996.Coefficient(0.5, 3));
        Assert.True(PapadakisEtAl1996.Coefficient(0.5, 5) < PapadakisEtAl1996.Coefficient(0.5, 3));
    }

    [Fact]
    public void MixRelations_OutsideTheirRange_Throw()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            FrederiksenEtAl1997.FirstYearCoefficient(0.7)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            FrederiksenEtAl1997.AgeingExponent(0.4, 0)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => PapadakisEtAl1996.Coefficient(0.25, 3));
        Assert.Throws<ArgumentOutOfRangeException>(() => PapadakisEtAl1996.Coefficient(0.5, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            PapadakisEtAl1996.Coefficient(0.5, 3, double.NaN)
        );
    }
}
