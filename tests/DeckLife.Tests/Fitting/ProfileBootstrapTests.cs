using DeckLife.Fitting;
using Xunit;

namespace DeckLife.Tests.Fitting;

public class ProfileBootstrapTests
{
    private static readonly ProfileFitOptions Bootstrap = new()
    {
        SkipSurface = 1,
        Influence = false,
        Limits = LimitMethod.Bootstrap,
        BootstrapReplicates = 600,
        Seed = 7,
    };

    // Two ways to the same limits, the background inside its bound: they differ by a few per cent of their width plus Monte Carlo error.
    [Fact]
    public void Limits_SevenPoints_NearThoseOfTheProfileLikelihood()
    {
        var bootstrap = ProfileFitter.Fit(Cores.PointsOne(), Bootstrap);
        var profile = ProfileFitter.Fit(
            Cores.PointsOne(),
            Bootstrap with
            {
                Limits = LimitMethod.ProfileLikelihood,
                LimitsOverErrorKinds = false,
            }
        );

        var width =
            profile.DiffusionCoefficient!.Upper95!.Value
            - profile.DiffusionCoefficient.Lower95!.Value;
        Assert.Equal(
            profile.DiffusionCoefficient.Lower95.Value,
            bootstrap.DiffusionCoefficient!.Lower95!.Value,
            0.15 * width
        );
        Assert.Equal(
            profile.DiffusionCoefficient.Upper95.Value,
            bootstrap.DiffusionCoefficient.Upper95!.Value,
            0.15 * width
        );
        Assert.Contains(bootstrap.Flags, f => f.Code == "DL2023");
        Assert.Contains(
            "600 replicates",
            bootstrap.DiffusionCoefficient.LimitMethod,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Limits_SameSeed_SameNumbersAnotherSeedOthers()
    {
        var one = ProfileFitter.Fit(Cores.PointsOne(), Bootstrap).DiffusionCoefficient;

        Assert.Equal(one, ProfileFitter.Fit(Cores.PointsOne(), Bootstrap).DiffusionCoefficient);
        Assert.NotEqual(
            one!.Upper95,
            ProfileFitter
                .Fit(Cores.PointsOne(), Bootstrap with { Seed = 8 })
                .DiffusionCoefficient!.Upper95
        );
    }

    [Fact]
    public void Limits_BackgroundAtItsBound_ProfileLikelihoodAndSaid()
    {
        var fit = ProfileFitter.Fit(Cores.PointsOne(), Bootstrap with { SkipSurface = 0 });

        Assert.True(fit.Background!.IsAtBound);
        Assert.Contains(
            "bootstrap does not hold at a bound",
            fit.DiffusionCoefficient!.LimitMethod,
            StringComparison.Ordinal
        );
    }
}
