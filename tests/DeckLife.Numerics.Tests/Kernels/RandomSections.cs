using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Numerics.Tests.Kernels;

/// <summary>Random sections of the kinds that occur, drawn wider than they occur; each layer ages at its own pace, so nothing separates.</summary>
internal static class RandomSections
{
    /// <summary>1e-12 m²/s in mm²/yr.</summary>
    public const double Unit = 31.5576;

    /// <summary>The kinds: point under an overlay, near its interface, in it; no overlay; growing surface content; sealed.</summary>
    public static readonly string[] Kinds =
    [
        "under an overlay",
        "near the interface",
        "in the overlay",
        "one layer",
        "growing",
        "sealed",
    ];

    public static SectionSamples Draw(string kind, int count, ulong seed)
    {
        var stream = new RandomStream(seed, kind);
        double Between(double a, double b) => a + ((b - a) * stream.NextUniform());
        double LogBetween(double a, double b) => Math.Exp(Between(Math.Log(a), Math.Log(b)));
        var overlay = new LayerSamples(count) { AgeAtStartYr = 7 / 365.25, ConstantAfterYr = 25 };
        var substrate = new LayerSamples(count)
        {
            AgeAtStartYr = 30,
            ConstantAfterYr = 50,
            Residual = new ErfcProfileSamples(count),
        };
        var samples =
            kind == "one layer"
                ? new SectionSamples(substrate)
                : new SectionSamples(overlay, substrate);
        samples.Threshold = new double[count];
        samples.Surface =
            kind == "growing" ? SurfaceShape.LinearThenHeld(12, 0.2)
            : kind == "sealed" ? SurfaceShape.Sealed
            : SurfaceShape.Constant;
        for (var i = 0; i < count; i++)
        {
            var h = Between(25, 65);
            var gap =
                kind is "near the interface" or "growing" or "sealed" ? Between(1, 70)
                : kind == "in the overlay" ? h * Between(0.02, 0.5)
                : Between(10, 60);
            overlay.ThicknessMm[i] = h;
            overlay.DiffusionMm2PerYr[i] = LogBetween(0.5, 15) * Unit;
            overlay.AgeingExponent[i] = Between(0.1, 0.65);
            substrate.ThicknessMm[i] = Math.Max(Between(120, 200), gap + 40);
            substrate.DiffusionMm2PerYr[i] = LogBetween(2, 15) * Unit;
            substrate.AgeingExponent[i] = Between(0.05, 0.6);
            substrate.Background[i] = 0.02;
            substrate.Residual!.SurfaceContent[i] = LogBetween(0.3, 1.5);
            substrate.Residual.SpreadMm2[i] = LogBetween(300, 2000);
            substrate.Residual.RemovedMm[i] = Between(5, 40);
            samples.SurfaceContent[i] = LogBetween(0.4, 2);
            samples.PointDepthMm[i] =
                kind == "one layer" ? gap
                : kind == "in the overlay" ? h - gap
                : h + gap;
            samples.Threshold[i] = 0.25;
        }

        return samples;
    }

    /// <summary>The content that errors are measured by.</summary>
    public static double Largest(SectionSamples samples, int i)
    {
        var residual = samples.Layers[^1].Residual!.SurfaceContent[i];
        return samples.Surface.IsSealed ? residual : Math.Max(samples.SurfaceContent[i], residual);
    }
}
