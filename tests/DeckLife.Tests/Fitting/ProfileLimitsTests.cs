using DeckLife.Fitting;
using DeckLife.Numerics.Diffusion;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

/// <summary>Profile-likelihood limits by their definition: the least sum of squares, one number held and all else free, found here on a grid.</summary>
public class ProfileLimitsTests
{
    private static readonly ProfileFitOptions Plain = new()
    {
        SkipSurface = 0,
        Influence = false,
        LimitsOverErrorKinds = false,
    };

    private static readonly double[][] Profiles =
    [
        [5.1, 3.7, 2.35, 1.5, 0.72, 0.48, 0.27],
        // At the background's bound.
        [5.2, 3.9, 2.75, 1.35, 0.4, 0.11, 0.02],
    ];

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Limits_OfCsAndC0_LeastSumOfSquaresIsAtTheCut(int profile)
    {
        var core = Core(Profiles[profile]);
        var fit = ProfileFitter.Fit(core, Plain);
        var least = LeastOver(core, null, null);
        // t quantile 0.975 at 4 degrees of freedom: 2.776445105 (standard tables).
        var cut = least * (1 + (2.776445105 * 2.776445105 / 4));

        foreach (var (limit, outwards) in Ends(fit.SurfaceChloride!))
        {
            Assert.Equal(1, LeastOver(core, limit, null) / cut, 2e-4);
            Assert.True(LeastOver(core, limit + (0.03 * outwards), null) > cut);
        }

        foreach (var (limit, outwards) in Ends(fit.Background!))
        {
            if (limit > 0)
            {
                Assert.Equal(1, LeastOver(core, null, limit) / cut, 2e-4);
                Assert.True(LeastOver(core, null, limit + (0.01 * outwards)) > cut);
            }
            else
            {
                Assert.True(LeastOver(core, null, 0) <= cut);
            }
        }

        Assert.Equal(profile == 1, fit.Background!.Lower95 is null);
        Assert.NotNull(fit.Background.Upper95);
    }

    [Fact]
    public void Limits_OfCsWithBackgroundHeld_LeastSumOfSquaresIsAtTheCut()
    {
        var core = Core(Profiles[0]);
        var fit = ProfileFitter.Fit(
            core,
            Plain with
            {
                Background = BackgroundTreatment.Fixed,
                FixedBackground = ChlorideContent.FromKilogramsPerCubicMetre(0.2),
            }
        );
        var least = fit.Slices.Sum(s => Math.Pow(s.Measured - s.Fitted, 2));
        // t quantile 0.975 at 5 degrees of freedom: 2.570581836.
        var cut = least * (1 + (2.570581836 * 2.570581836 / 5));

        foreach (var (limit, outwards) in Ends(fit.SurfaceChloride!))
        {
            Assert.Equal(1, Least(limit) / cut, 2e-4);
            Assert.True(Least(limit + (0.03 * outwards)) > cut);
        }

        double Least(double cs) => Grid().Min(x => Squares(Shares(core, x), core, cs, 0.2));
    }

    // Errors of a thousandth: the limits of D lie between two points of the search's grid, on either side of the best, and still at the cut.
    [Fact]
    public void Limits_BetweenTwoPointsOfTheGrid_StillAtTheCut()
    {
        double[] errors = [0.001, -0.0015, 0.0005, 0.001, -0.001, 0.0005, -0.0005];
        var sharp = Shares(Core(Profiles[0]), Math.Log(22));
        var core = Core([.. sharp.Zip(errors, (p, e) => 0.2 + (5.8 * p) + e)]);
        var d = ProfileFitter.Fit(core, Plain).DiffusionCoefficient!;
        double Sum(double x) => Free(Shares(core, Math.Log(x)), core);
        var cut = Sum(d.Value) * (1 + (2.776445105 * 2.776445105 / 4));

        Assert.True(Math.Log(d.Upper95!.Value / d.Lower95!.Value) < 0.03);
        Assert.True(d.Lower95 < d.Value && d.Value < d.Upper95);
        Assert.Equal(1, Sum(d.Lower95.Value) / cut, 1e-5);
        Assert.Equal(1, Sum(d.Upper95.Value) / cut, 1e-5);
    }

    // One degree of freedom and a profile near a straight line, which any large D gives: the upper limit is absent and says why.
    [Fact]
    public void Limits_NotBoundedWithinTheSearch_AbsentWithTheReason()
    {
        var core = Core([6.0, 5.6, 5.0, 4.6]);
        var fit = ProfileFitter.Fit(core, Plain);

        Assert.Equal(FitStatus.Limited, fit.Status);
        Assert.Null(fit.DiffusionCoefficient!.Upper95);
        Assert.Contains(
            "no upper limit within the search interval of D",
            fit.DiffusionCoefficient.MissingReason,
            StringComparison.Ordinal
        );
        var flag = fit.Flags.Single(f =>
            f.Text.StartsWith(
                "The upper 95 % limit of D lies outside the search",
                StringComparison.Ordinal
            )
        );
        Assert.Contains(flag.Text, fit.Reason, StringComparison.Ordinal);
    }

    // Stated ends of the search are the ends of the grid, and limits beyond them do not exist.
    [Fact]
    public void Limits_SearchIntervalStated_NoLimitBeyondIt()
    {
        var core = Core(Profiles[0]);
        var free = ProfileFitter.Fit(core, Plain).DiffusionCoefficient!;
        var low = 0.5 * (free.Lower95!.Value + free.Value);
        var high = 0.5 * (free.Upper95!.Value + free.Value);
        var fit = ProfileFitter.Fit(
            core,
            Plain with
            {
                SearchLow = DiffusionCoefficient.FromSquareMillimetresPerYear(low),
                SearchHigh = DiffusionCoefficient.FromSquareMillimetresPerYear(high),
            }
        );

        Assert.Equal(low, fit.SearchLow, 1e-9);
        Assert.Equal(high, fit.SearchHigh, 1e-9);
        Assert.Equal(free.Value, fit.DiffusionCoefficient!.Value, 1e-8);
        Assert.Null(fit.DiffusionCoefficient.Lower95);
        Assert.Null(fit.DiffusionCoefficient.Upper95);
        // The set of Cs and C0 goes on where the search ends.
        Assert.Null(fit.SurfaceChloride!.Lower95);
        Assert.Null(fit.SurfaceChloride.Upper95);
        Assert.Equal(
            "no lower limit within the search interval of D; no upper limit within the search interval of D",
            fit.DiffusionCoefficient.MissingReason
        );
    }

    // 0.2 of the shallowest and 20 times the deepest centre as 2 sqrt(D t), t = 25 yr: centres 5 and 77.5 mm.
    [Fact]
    public void SearchInterval_NotStated_FromTheDepthsAndTheAge()
    {
        var fit = ProfileFitter.Fit(Core(Profiles[0]), Plain);

        Assert.Equal(Math.Pow(0.2 * 5, 2) / 100, fit.SearchLow, 1e-12);
        Assert.Equal(Math.Pow(20 * 77.5, 2) / 100, fit.SearchHigh, 1e-6);
    }

    [Theory]
    [InlineData(50.0, 20.0)]
    [InlineData(50.0, 50.0)]
    [InlineData(1e6, null)]
    [InlineData(null, 1e-4)]
    [InlineData(0.0, null)]
    public void SearchInterval_Empty_RefusedWithBothEnds(double? low, double? high)
    {
        var fit = ProfileFitter.Fit(
            Core(Profiles[0]),
            Plain with
            {
                SearchLow =
                    low is null ? null
                    : low > 0 ? DiffusionCoefficient.FromSquareMillimetresPerYear(low.Value)
                    : default(DiffusionCoefficient),
                SearchHigh = high is { } h
                    ? DiffusionCoefficient.FromSquareMillimetresPerYear(h)
                    : null,
            }
        );

        Assert.Equal(FitStatus.Refused, fit.Status);
        Assert.Equal("DL2059", fit.Flags[^1].Code);
        Assert.Null(fit.DiffusionCoefficient);
    }

    private static IEnumerable<(double Limit, int Outwards)> Ends(Estimate estimate)
    {
        if (estimate.Lower95 is { } low)
        {
            yield return (low, -1);
        }

        yield return (estimate.Upper95!.Value, 1);
    }

    private static CoreProfile Core(double[] content) =>
        Cores.Slices(
            25,
            [.. new double[] { 0, 10, 20, 30, 40, 55, 70 }.Take(content.Length)],
            [.. new double[] { 10, 20, 30, 40, 55, 70, 85 }.Take(content.Length)],
            content
        );

    private static IEnumerable<double> Grid() =>
        Enumerable.Range(0, 4001).Select(i => Math.Log(2) + (Math.Log(200) * i / 4000.0));

    // Over ln D on a grid of 0.0013, fine enough for 1e-5 of the sum; the free one of Cs and C0 by a parabola clipped at its bound.
    private static double LeastOver(CoreProfile core, double? surface, double? background) =>
        Grid()
            .Min(x =>
            {
                var share = Shares(core, x);
                return surface is { } cs ? Clipped(c0 => Squares(share, core, cs, c0), 0, cs)
                    : background is { } c0 ? Clipped(s => Squares(share, core, s, c0), c0, 1e3)
                    : Math.Min(Free(share, core), Clipped(s => Squares(share, core, s, 0), 0, 1e3));
            });

    private static double Clipped(Func<double, double> parabola, double low, double high)
    {
        var (a, b, c) = (parabola(0), parabola(1), parabola(2));
        return parabola(Math.Clamp(0.5 - ((b - a) / (a + c - (2 * b))), low, high));
    }

    // Both free, by the normal equations of a straight line in the share; of no use where C0 comes out below 0.
    private static double Free(double[] share, CoreProfile core)
    {
        var y = core.Slices.Select(s => s.Content.KilogramsPerCubicMetre).ToArray();
        var (mp, my) = (share.Average(), y.Average());
        var slope =
            share.Zip(y, (p, v) => (p - mp) * (v - my)).Sum() / share.Sum(p => (p - mp) * (p - mp));
        var c0 = my - (slope * mp);
        return c0 < 0 ? double.PositiveInfinity : Squares(share, core, c0 + slope, c0);
    }

    private static double[] Shares(CoreProfile core, double x) =>
        [
            .. core.Slices.Select(s =>
                SliceMean.Value(
                    s.Top.Millimetres,
                    s.Bottom.Millimetres,
                    2 * Math.Sqrt(Math.Exp(x) * 25)
                )
            ),
        ];

    private static double Squares(double[] share, CoreProfile core, double cs, double c0)
    {
        double sum = 0;
        for (var i = 0; i < share.Length; i++)
        {
            var r = core.Slices[i].Content.KilogramsPerCubicMetre - c0 - ((cs - c0) * share[i]);
            sum += r * r;
        }

        return sum;
    }
}
