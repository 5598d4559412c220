using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Sampling;

namespace DeckLife.Benchmarks;

/// <summary>The work that DeckLife and its peers are timed on; drawn from named streams, so that every run has the same.</summary>
internal static class BenchmarkCases
{
    /// <summary>1e-12 m²/s in mm²/yr.</summary>
    public const double Unit = 31.5576;

    /// <summary>Tops of the slices of a profile [mm].</summary>
    public static readonly double[] Tops = [0, 5, 10, 15, 20, 30, 40, 50];

    /// <summary>Bottoms of the slices of a profile [mm].</summary>
    public static readonly double[] Bottoms = [5, 10, 15, 20, 30, 40, 50, 65];

    /// <summary>Yearly times, 1 to 60 yr.</summary>
    public static double[] Years { get; } = [.. Enumerable.Range(1, 60).Select(i => (double)i)];

    /// <summary>The closed-form limit state with five random variables.</summary>
    public static LimitStateModel LimitState { get; } =
        new(65, 8, Math.Log(4 * Unit), 0.3, 0.5, 0.08, Math.Log(0.5), 0.35, Math.Log(0.09), 0.25)
        {
            LeastAgeing = 0.05,
            LargestAgeing = 0.9,
        };

    /// <summary>Random overlays on aged substrates with residual chloride: every parameter its own, nothing separates.</summary>
    /// <param name="count">Number of samples.</param>
    public static SectionSamples Sections(int count)
    {
        var stream = new RandomStream(2026, "benchmark sections");
        double Between(double a, double b) => a + ((b - a) * stream.NextUniform());
        double LogBetween(double a, double b) => Math.Exp(Between(Math.Log(a), Math.Log(b)));
        var overlay = new LayerSamples(count) { AgeAtStartYr = 7 / 365.25 };
        var substrate = new LayerSamples(count)
        {
            AgeAtStartYr = 30,
            Residual = new ErfcProfileSamples(count),
        };
        var samples = new SectionSamples(overlay, substrate);
        for (var i = 0; i < count; i++)
        {
            overlay.ThicknessMm[i] = Between(25, 60);
            overlay.DiffusionMm2PerYr[i] = LogBetween(0.5, 12) * Unit;
            overlay.AgeingExponent[i] = Between(0.2, 0.65);
            substrate.ThicknessMm[i] = Between(140, 190);
            substrate.DiffusionMm2PerYr[i] = LogBetween(3, 15) * Unit;
            substrate.AgeingExponent[i] = Between(0.05, 0.5);
            substrate.Residual!.SurfaceContent[i] = LogBetween(0.4, 1.2);
            substrate.Residual.SpreadMm2[i] = LogBetween(400, 1600);
            substrate.Residual.RemovedMm[i] = Between(5, 35);
            samples.SurfaceContent[i] = LogBetween(0.5, 1.6);
            samples.PointDepthMm[i] = overlay.ThicknessMm[i] + Between(12, 55);
        }

        return samples;
    }

    /// <summary>Layers of 30 mm on one of 160 mm, the point 25 mm within the last.</summary>
    /// <param name="layers">Number of layers.</param>
    /// <param name="count">Number of samples.</param>
    public static SectionSamples Stack(int layers, int count)
    {
        var stack = new LayerSamples[layers];
        for (var m = 0; m < layers; m++)
        {
            stack[m] = new LayerSamples(count) { AgeAtStartYr = 1 };
            for (var i = 0; i < count; i++)
            {
                stack[m].ThicknessMm[i] = m == layers - 1 ? 160 : 30;
                stack[m].DiffusionMm2PerYr[i] = 20 + (m * 10) + (i % 7);
                stack[m].AgeingExponent[i] = 0.2;
            }
        }

        var samples = new SectionSamples(stack);
        for (var i = 0; i < count; i++)
        {
            samples.PointDepthMm[i] = (30 * (layers - 1)) + 25;
            samples.SurfaceContent[i] = 1;
        }

        return samples;
    }

    /// <summary>One of them alone.</summary>
    public static SectionSamples Only(SectionSamples all, int i)
    {
        LayerSamples Layer(LayerSamples from)
        {
            var one = new LayerSamples(1) { AgeAtStartYr = from.AgeAtStartYr };
            one.ThicknessMm[0] = from.ThicknessMm[i];
            one.DiffusionMm2PerYr[0] = from.DiffusionMm2PerYr[i];
            one.AgeingExponent[0] = from.AgeingExponent[i];
            if (from.Residual is { } residual)
            {
                one.Residual = new ErfcProfileSamples(1);
                one.Residual.SurfaceContent[0] = residual.SurfaceContent[i];
                one.Residual.SpreadMm2[0] = residual.SpreadMm2[i];
                one.Residual.RemovedMm[0] = residual.RemovedMm[i];
            }

            return one;
        }

        var samples = new SectionSamples(Layer(all.Layers[0]), Layer(all.Layers[1]));
        samples.SurfaceContent[0] = all.SurfaceContent[i];
        samples.PointDepthMm[0] = all.PointDepthMm[i];
        return samples;
    }

    /// <summary>Noisy profiles, shape [profiles × 8].</summary>
    /// <param name="count">Number of profiles.</param>
    public static double[] Profiles(int count)
    {
        var stream = new RandomStream(2026, "benchmark profiles");
        var contents = new double[count * Tops.Length];
        for (var i = 0; i < count; i++)
        {
            var spread = stream.NextLognormal(Math.Log(400), 0.5);
            var surface = stream.NextLognormal(Math.Log(0.5), 0.3);
            for (var j = 0; j < Tops.Length; j++)
            {
                contents[(i * Tops.Length) + j] =
                    (
                        surface
                        * SliceMean(Tops[j], Bottoms[j], spread)
                        * (1 + (0.05 * stream.NextNormal()))
                    ) + (0.005 * stream.NextNormal());
            }
        }

        return contents;
    }

    /// <summary>Mean of erfc(x / (2 sqrt(spread))) over a slice.</summary>
    public static double SliceMean(double top, double bottom, double spread)
    {
        var length = 2 * Math.Sqrt(spread);
        double Integral(double x) =>
            (x * MathNet.Numerics.SpecialFunctions.Erfc(x / length))
            - (length / Math.Sqrt(Math.PI) * Math.Exp(-x * x / (length * length)));
        return (Integral(bottom) - Integral(top)) / (bottom - top);
    }
}
