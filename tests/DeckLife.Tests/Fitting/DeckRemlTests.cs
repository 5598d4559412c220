using DeckLife.Fitting;
using Xunit;

namespace DeckLife.Tests.Fitting;

public class DeckRemlTests
{
    private static readonly DeckFitOptions Quick = new() { Sweeps = 2000, Draws = 2000 };

    [Fact]
    public void Fit_EightCores_RemlStandsBesideThePosteriorAndAgrees()
    {
        var (cores, _, _) = new SimulatedDeck { Error = 0.1, Background = 0.4 }.Draw(41);
        var fit = DeckFitter.Fit(cores, Quick);
        var reml = fit.Reml!;
        Assert.Equal(7, reml.DegreesOfFreedom);
        // Well-measured cores: both see the same medians, but for the priors' pull of a fraction of a standard error.
        Assert.True(
            Math.Abs(reml.DiffusionCoefficient.Value - fit.DiffusionCoefficient.Value)
                < 0.7 * fit.DiffusionCoefficient.StandardError
        );
        Assert.True(reml.SurfaceChloride.Lower95 < reml.SurfaceChloride.Value);
        Assert.Equal(0.1, reml.LabErrorSdKgPerM3, 0.05);
    }

    [Fact]
    public void FirstStage_NoiseFreeCores_FindsThem()
    {
        var (cores, surface, diffusion) = new SimulatedDeck { Error = 0 }.Draw(42);
        var stage = DeckReml.FirstStage(
            new DeckModel
            {
                Slices = new DeckSlices(cores, SliceWeights.Constant),
                Priors = new DeckPriors(),
                ReferenceYears = 25,
            }
        );
        // The simulated means are good to 1e-9; the fit's own rounding is below that.
        for (var j = 0; j < cores.Length; j++)
        {
            Assert.Equal(surface[j], stage.LnSurface[j], 1e-6);
            Assert.Equal(diffusion[j], stage.LnDiffusion[j], 1e-6);
        }

        Assert.Equal(0.15, stage.Background, 1e-6);
    }

    [Fact]
    public void Fit_BackgroundAtItsBound_RemlStillStands()
    {
        var (cores, _, _) = new SimulatedDeck { Background = 0, Error = 0.2 }.Draw(43);
        var fit = DeckFitter.Fit(cores, Quick);
        Assert.True(fit.Reml!.BackgroundKgPerM3 >= 0);
        Assert.True(fit.Reml.DiffusionCoefficient.StandardError > 0);
    }

    [Fact]
    public void Fit_NonDetects_RemlStandsAndErrorsInProportion_SaysWhyNot()
    {
        var deck = new SimulatedDeck { Error = 0.1, DetectionLimit = 0.6 };
        var (cores, _, _) = deck.Draw(44);
        Assert.Contains(cores, c => c.Slices.Any(s => s.IsNonDetect));
        Assert.NotNull(DeckFitter.Fit(cores, Quick).Reml);
        var relative = DeckFitter.Fit(cores, Quick with { Weights = SliceWeights.Relative });
        Assert.Null(relative.Reml);
        Assert.Contains(relative.Flags, f => f.Code == "DL2210");
    }

    [Fact]
    public void Fit_CoresAllAlike_RemlAtItsEdgeIsSaid()
    {
        var (cores, _, _) = new SimulatedDeck
        {
            SdLnSurface = 0,
            SdLnDiffusion = 0,
            Error = 0.3,
        }.Draw(45);
        var fit = DeckFitter.Fit(cores, Quick);
        Assert.True(fit.Reml!.IsSingular);
        Assert.Contains(fit.Flags, f => f.Code == "DL2209");
    }
}
