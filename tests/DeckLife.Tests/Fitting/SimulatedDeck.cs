using DeckLife.Numerics.MarkovChains;
using DeckLife.Numerics.Sampling;
using DeckLife.Profiles;
using DeckLife.Quantities;

namespace DeckLife.Tests.Fitting;

/// <summary>Invented decks with a known truth: cores drawn from a population, slices of 1/2 in with a lab's error.</summary>
internal sealed record SimulatedDeck
{
    public double MeanLnSurface { get; init; } = Math.Log(8);
    public double MeanLnDiffusion { get; init; } = Math.Log(30);
    public double SdLnSurface { get; init; } = 0.3;
    public double SdLnDiffusion { get; init; } = 0.4;
    public double Correlation { get; init; } = -0.2;
    public double Background { get; init; } = 0.15;
    public double Error { get; init; } = 0.35;
    public double RelativeError { get; init; }
    public int Cores { get; init; } = 8;
    public int Slices { get; init; } = 6;
    public double Years { get; init; } = 25;
    public double DetectionLimit { get; init; }

    /// <summary>ln D of the cores at the last call of <see cref="Draw"/> are returned beside them.</summary>
    public (CoreProfile[] Cores, double[] LnSurface, double[] LnDiffusion) Draw(
        ulong seed,
        ulong index = 0
    )
    {
        var random = new RandomStream(seed, "simulated deck", index);
        var profiles = new CoreProfile[Cores];
        var surface = new double[Cores];
        var diffusion = new double[Cores];
        for (var j = 0; j < Cores; j++)
        {
            var a = random.NextNormal();
            var b = random.NextNormal();
            surface[j] = MeanLnSurface + (SdLnSurface * a);
            diffusion[j] =
                MeanLnDiffusion
                + (
                    SdLnDiffusion
                    * ((Correlation * a) + (Math.Sqrt(1 - (Correlation * Correlation)) * b))
                );
            profiles[j] = Core($"C{j + 1}", Years, surface[j], diffusion[j], random);
        }

        return (profiles, surface, diffusion);
    }

    /// <summary>One core with the given truth.</summary>
    public CoreProfile Core(
        string name,
        double years,
        double lnSurface,
        double lnDiffusion,
        RandomStream random,
        bool onCrack = false
    )
    {
        var slices = new List<ChlorideSlice>();
        for (var i = 0; i < Slices; i++)
        {
            var top = 6.35 + (12.7 * i);
            var mean =
                Background
                + (
                    (Math.Exp(lnSurface) - Background)
                    * MeanShare(top, top + 12.7, Math.Exp(lnDiffusion) * years)
                );
            var content =
                mean
                + (
                    Math.Sqrt((Error * Error) + (RelativeError * RelativeError * mean * mean))
                    * random.NextNormal()
                );
            var censored = content < DetectionLimit;
            slices.Add(
                new ChlorideSlice
                {
                    Row = i + 2,
                    Top = Depth.FromMillimetres(top),
                    Bottom = Depth.FromMillimetres(top + 12.7),
                    Content = ChlorideContent.FromKilogramsPerCubicMetre(
                        censored ? DetectionLimit : Math.Max(0, content)
                    ),
                    IsNonDetect = censored,
                }
            );
        }

        return new CoreProfile
        {
            Core = name,
            ExposureAge = Age.FromYears(years),
            OnCrack = onCrack,
            Slices = [.. slices],
        };
    }

    // Independent of the library's closed form: Simpson's rule on erfc over the slice (12.7 mm in 64 panels: error below 1e-9).
    private static double MeanShare(double top, double bottom, double dt)
    {
        const int Panels = 64;
        var step = (bottom - top) / Panels;
        double sum = 0;
        for (var i = 0; i <= Panels; i++)
        {
            var weight =
                i is 0 or Panels ? 1
                : i % 2 == 1 ? 4
                : 2;
            sum +=
                weight
                * MathNet.Numerics.SpecialFunctions.Erfc((top + (i * step)) / (2 * Math.Sqrt(dt)));
        }

        return sum / (3 * Panels);
    }
}
