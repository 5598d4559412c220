using DeckLife.Fitting;
using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.Sampling;
using DeckLife.Profiles;
using DeckLife.Quantities;
using Xunit;

namespace DeckLife.Tests.Fitting;

public class OverlaidProfileFitterTests
{
    private static readonly Depth Overlay = Depth.FromMillimetres(32);

    [Fact]
    public void Fit_NoiseFree_TruthRecovered()
    {
        var fit = OverlaidProfileFitter.Fit(Core(0), Overlay);

        Assert.NotEqual(FitStatus.Refused, fit.Status);
        Assert.Equal(10, fit.SurfaceChloride!.Value, 1e-5);
        Assert.Equal(8, fit.OverlayDiffusion!.Value, 1e-4);
        Assert.Equal(40, fit.DeckDiffusion!.Value, 1e-2);
        Assert.Equal(0.2, fit.Background!.Value, 1e-5);
    }

    [Fact]
    public void Fit_Noise_LimitsAroundTheTruthAndTheAssumptionSaid()
    {
        var fit = OverlaidProfileFitter.Fit(Core(0.05), Overlay);

        Assert.InRange(
            8,
            fit.OverlayDiffusion!.Lower95!.Value,
            fit.OverlayDiffusion.Upper95!.Value
        );
        Assert.True(fit.DeckDiffusion!.Lower95 is null || fit.DeckDiffusion.Lower95 < 40);
        Assert.True(fit.DeckDiffusion.Upper95 is null || fit.DeckDiffusion.Upper95 > 40);
        Assert.Contains(fit.Flags, f => f.Code == "DL2030");
    }

    // One medium is two layers of equal D: the same answer as the fit of one layer.
    [Fact]
    public void Fit_OneMedium_BothLayersAlike()
    {
        var edges = new double[] { 0, 8, 16, 24, 32, 45, 58, 71, 90 };
        var length = 2 * Math.Sqrt(20.0 * 25);
        var core = Cores.Slices(
            25,
            edges[..^1],
            edges[1..],
            [.. edges[..^1].Zip(edges[1..], (a, b) => 0.1 + (5.9 * SliceMean.Value(a, b, length)))]
        );

        var fit = OverlaidProfileFitter.Fit(core, Overlay);

        Assert.Equal(20, fit.OverlayDiffusion!.Value, 1e-4);
        Assert.Equal(20, fit.DeckDiffusion!.Value, 1e-3);
    }

    [Fact]
    public void Fit_TooFewSlicesOrNonDetects_RefusedWithReason()
    {
        var core = Core(0);
        var few = core with { Slices = [.. core.Slices.Take(5)] };

        Assert.Equal("DL2060", Assert.Single(OverlaidProfileFitter.Fit(few, Overlay).Flags).Code);
        Assert.Equal(
            "DL2061",
            Assert
                .Single(
                    OverlaidProfileFitter
                        .Fit(core.With(s => s with { IsNonDetect = s.Row == 9 }), Overlay)
                        .Flags
                )
                .Code
        );
    }

    // 30 yr of salt before the overlay, 6 mm milled off: contents by the finite-volume solver from that profile on, no closed form shared.
    [Fact]
    public void Fit_SaltLeftUnderTheOverlay_TruthRecovered()
    {
        var core = Salted();
        var old = new OldDeckSalt(Age.FromYears(30), Depth.FromMillimetres(6));

        var fit = OverlaidProfileFitter.Fit(core, Overlay, null, old);

        Assert.NotEqual(FitStatus.Refused, fit.Status);
        Assert.InRange(fit.SurfaceChloride!.Value, 9.9, 10.1);
        Assert.InRange(fit.OverlayDiffusion!.Value, 4.9, 5.1);
        Assert.InRange(fit.DeckDiffusion!.Value, 24.5, 25.5);
        Assert.InRange(fit.OldSurfaceChloride!.Value, 7.85, 8.15);
        Assert.InRange(fit.Background!.Value, 0.18, 0.22);
        Assert.Contains(fit.Flags, f => f.Code == "DL2032");
        Assert.DoesNotContain(fit.Flags, f => f.Code == "DL2030");
        Assert.Equal(core.Slices.Length, fit.Slices.Length);
        Assert.All(fit.Slices, s => Assert.Equal(s.Measured, s.Fitted, 0.02));
    }

    // That the old salt matters: taken as clean, the same core fits far worse.
    [Fact]
    public void Fit_SaltLeftButTakenAsClean_ResidualsManyTimesAsLarge()
    {
        var clean = OverlaidProfileFitter.Fit(Salted(), Overlay);
        var salted = OverlaidProfileFitter.Fit(
            Salted(),
            Overlay,
            null,
            new OldDeckSalt(Age.FromYears(30), Depth.FromMillimetres(6))
        );

        Assert.Contains(clean.Flags, f => f.Code is "DL2030" or "DL2062");
        Assert.True(
            clean.Status == FitStatus.Refused
                || clean.ResidualStandardDeviation > 20 * salted.ResidualStandardDeviation
        );
    }

    [Fact]
    public void Fit_NoSaltBeforeTheOverlay_OldSurfaceContentIsTheBackground()
    {
        var old = new OldDeckSalt(Age.FromYears(20), Depth.FromMillimetres(0));

        var fit = OverlaidProfileFitter.Fit(Core(0), Overlay, null, old);

        Assert.Equal(8, fit.OverlayDiffusion!.Value, 1e-2);
        Assert.Equal(fit.Background!.Value, fit.OldSurfaceChloride!.Value, 1e-2);
    }

    // Overlay 32 mm, D 5, 20 yr, Cs 10; deck D 25, old surface content 8, background 0.2 kg/m³.
    private static CoreProfile Salted()
    {
        var edges = new double[] { 0, 6, 12, 18, 25, 32, 42, 54, 66, 80, 95, 115 };
        var depths = Enumerable.Range(0, 230).Select(i => (0.5 * i) + 0.25).ToArray();
        var solution = LayeredSolver.Solve(
            new LayeredProblem
            {
                Layers =
                [
                    new DiffusionLayer(32, 5, 0.2),
                    new DiffusionLayer(
                        600,
                        t => 25 * t,
                        y => 0.2 + (7.8 * HalfSpace.ConstantSurface(y + 6, 25 * 30))
                    ),
                ],
                Surface = BoundaryCondition.Constant(10),
            },
            [.. depths.Select(x => new LayeredQuery(20, x))],
            new LayeredOptions { RelativeTolerance = 2e-5 }
        );
        return Cores.Slices(
            20,
            edges[..^1],
            edges[1..],
            [
                .. edges[..^1]
                    .Zip(
                        edges[1..],
                        (a, b) =>
                            depths
                                .Zip(solution.Contents)
                                .Where(p => p.First > a && p.First < b)
                                .Average(p => p.Second)
                    ),
            ]
        );
    }

    // 32 mm overlay of D = 8 on a deck of D = 40 mm²/yr, Cs 10, background 0.2 kg/m³, 50 yr; means of the exact two-media profile by a
    // midpoint rule of 200 points, fine enough for 1e-5.
    private static CoreProfile Core(double noise)
    {
        var media = new TwoMedia(32, 5);
        var random = new RandomStream(4, "overlaid");
        var edges = new double[] { 0, 6, 12, 18, 25, 32, 42, 54, 66, 80, 95 };
        return Cores.Slices(
            50,
            edges[..^1],
            edges[1..],
            [
                .. edges[..^1]
                    .Zip(
                        edges[1..],
                        (a, b) =>
                            0.2
                            + (
                                9.8
                                * Enumerable
                                    .Range(0, 200)
                                    .Average(k =>
                                        media.ConstantSurface(a + ((b - a) * (k + 0.5) / 200), 400)
                                    )
                            )
                            + (noise * random.NextNormal())
                    ),
            ]
        );
    }
}
