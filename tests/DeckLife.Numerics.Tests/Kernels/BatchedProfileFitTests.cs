using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;
using Xunit;
using Special = MathNet.Numerics.SpecialFunctions;

namespace DeckLife.Numerics.Tests.Kernels;

public class BatchedProfileFitTests
{
    private static readonly double[] Tops = [0, 5, 10, 15, 20, 30, 40, 50];
    private static readonly double[] Bottoms = [5, 10, 15, 20, 30, 40, 50, 65];

    public static TheoryData<LaneWidth> Widths => [.. VectorWidth.Available];

    // Slice means by a 2000-point midpoint rule: no formula shared with the code under test.
    private static double[] Profile(double surface, double background, double spread)
    {
        var values = new double[Tops.Length];
        for (var j = 0; j < Tops.Length; j++)
        {
            for (var i = 0; i < 2000; i++)
            {
                var x = Tops[j] + ((Bottoms[j] - Tops[j]) * (i + 0.5) / 2000);
                values[j] += Special.Erfc(x / (2 * Math.Sqrt(spread))) / 2000;
            }

            values[j] = background + ((surface - background) * values[j]);
        }

        return values;
    }

    private static double[] Noisy(int count, ulong seed, double background)
    {
        var stream = new RandomStream(seed, "profiles");
        var contents = new double[count * Tops.Length];
        for (var i = 0; i < count; i++)
        {
            var spread = stream.NextLognormal(Math.Log(400), 0.5);
            var surface = stream.NextLognormal(Math.Log(6), 0.3);
            for (var j = 0; j < Tops.Length; j++)
            {
                var z = 0.5 * (Tops[j] + Bottoms[j]) / (2 * Math.Sqrt(spread));
                contents[(i * Tops.Length) + j] =
                    background
                    + (surface * Special.Erfc(z) * (1 + (0.05 * stream.NextNormal())))
                    + (0.03 * stream.NextNormal());
            }
        }

        return contents;
    }

    [Theory]
    [MemberData(nameof(Widths))]
    public void Fit_ExactProfiles_GivesTheParametersBack(LaneWidth width)
    {
        var contents = new List<double>();
        (double Cs, double C0, double S)[] truth =
        [
            (8, 0.1, 300),
            (3, 0, 80),
            (12, 0.5, 900),
            (5, 0.2, 150),
            (6, 1, 500),
        ];
        foreach (var (surface, background, spread) in truth)
        {
            contents.AddRange(Profile(surface, background, spread));
        }

        var fits = new BatchedProfileFit(Tops, Bottoms, width: width).Fit(contents.ToArray());
        for (var i = 0; i < truth.Length; i++)
        {
            Assert.Equal(BatchedFitStatus.Converged, fits.Status[i]);
            // The midpoint rule's own error is some 1e-8.
            Assert.Equal(truth[i].Cs, fits.SurfaceContent[i], 1e-6);
            Assert.Equal(truth[i].C0, fits.Background[i], 1e-6);
            Assert.InRange(fits.SpreadMm2[i] / truth[i].S, 1 - 1e-6, 1 + 1e-6);
        }
    }

    [Theory]
    [InlineData(0.0, true)]
    [InlineData(0.3, true)]
    [InlineData(0.3, false)]
    public void Fit_AnyWidth_SameToNineDigits(double background, bool isFitted)
    {
        var contents = Noisy(2003, 5, background);
        var given = Enumerable.Repeat(background, 2003).ToArray();
        BatchedFits Run(LaneWidth width)
        {
            var fit = new BatchedProfileFit(Tops, Bottoms, width: width);
            return isFitted ? fit.Fit(contents) : fit.Fit(contents, given);
        }

        var scalar = Run(LaneWidth.Scalar);
        foreach (var width in VectorWidth.Available)
        {
            var found = Run(width);
            Assert.Equal(scalar.Status, found.Status);
            for (var i = 0; i < scalar.Count; i++)
            {
                if (scalar.Status[i] != BatchedFitStatus.Converged)
                {
                    continue;
                }

                Assert.InRange(found.SpreadMm2[i] / scalar.SpreadMm2[i], 1 - 1e-9, 1 + 1e-9);
                Assert.InRange(
                    found.SurfaceContent[i] / scalar.SurfaceContent[i],
                    1 - 1e-9,
                    1 + 1e-9
                );
                Assert.Equal(scalar.Background[i], found.Background[i], 1e-9);
                Assert.Equal(scalar.ResidualSumOfSquares[i], found.ResidualSumOfSquares[i], 1e-9);
            }
        }

        Assert.True(scalar.Status.Count(s => s == BatchedFitStatus.Converged) > 1950);
    }

    // At a limit of D t the best fit for that D t has risen by t²/(n - p): refitted linearly here, by normal equations of its own.
    [Theory]
    [MemberData(nameof(Widths))]
    public void FitWithLimits_NoisyProfiles_SumOfSquaresHasRisenByTheCut(LaneWidth width)
    {
        const double student = 2.4469; // 97.5 % at 6 degrees of freedom
        const int count = 203;
        var contents = Noisy(count, 8, 0);
        var zero = new double[count];
        var fit = new BatchedProfileFit(Tops, Bottoms, width: width);
        var fits = fit.FitWithLimits(contents, zero, student);
        var plain = fit.Fit(contents, zero);
        Assert.Equal(plain.SpreadMm2, fits.SpreadMm2);
        Assert.Empty(plain.SpreadLowMm2);
        var both = 0;
        for (var i = 0; i < count; i++)
        {
            if (fits.Status[i] != BatchedFitStatus.Converged)
            {
                Assert.Equal(0, fits.SpreadLowMm2[i]);
                Assert.Equal(double.PositiveInfinity, fits.SpreadHighMm2[i]);
                continue;
            }

            double Rise(double spread)
            {
                var length = 2 * Math.Sqrt(spread);
                double Integral(double x) =>
                    (x * Special.Erfc(x / length))
                    - (length / Math.Sqrt(Math.PI) * Math.Exp(-x * x / (length * length)));
                var share = new double[Tops.Length];
                var (over, under) = (0.0, 0.0);
                for (var j = 0; j < Tops.Length; j++)
                {
                    share[j] = (Integral(Bottoms[j]) - Integral(Tops[j])) / (Bottoms[j] - Tops[j]);
                    over += share[j] * contents[(i * Tops.Length) + j];
                    under += share[j] * share[j];
                }

                var sum = 0.0;
                for (var j = 0; j < Tops.Length; j++)
                {
                    var residual = contents[(i * Tops.Length) + j] - (over / under * share[j]);
                    sum += residual * residual;
                }

                return ((sum / fits.ResidualSumOfSquares[i]) - 1) * 6 / (student * student);
            }

            Assert.InRange(fits.SpreadLowMm2[i], 0, fits.SpreadMm2[i]);
            Assert.InRange(fits.SpreadHighMm2[i], fits.SpreadMm2[i], double.PositiveInfinity);
            if (fits.SpreadLowMm2[i] > 0 && double.IsFinite(fits.SpreadHighMm2[i]))
            {
                Assert.Equal(1, Rise(fits.SpreadLowMm2[i]), 1e-7);
                Assert.Equal(1, Rise(fits.SpreadHighMm2[i]), 1e-7);
                both++;
            }
        }

        Assert.True(both > 190);
        Assert.Throws<ArgumentOutOfRangeException>(() => fit.FitWithLimits(contents, zero, 0));
        Assert.Throws<InvalidOperationException>(() =>
            new BatchedProfileFit([0, 5, 10], [5, 10, 15]).FitWithLimits(new double[3], 2)
        );
    }

    // At the minimum no neighbour is better, the background bound included: checked by trying.
    [Fact]
    public void Fit_NoisyProfiles_NoNeighbourIsBetter()
    {
        var contents = Noisy(300, 6, 0);
        var fits = new BatchedProfileFit(Tops, Bottoms).Fit(contents);
        var atBound = 0;
        for (var i = 0; i < 300; i++)
        {
            if (fits.Status[i] != BatchedFitStatus.Converged)
            {
                continue;
            }

            double Sum(double surface, double background, double spread)
            {
                var sum = 0.0;
                var length = 2 * Math.Sqrt(spread);
                for (var j = 0; j < Tops.Length; j++)
                {
                    double Integral(double x) =>
                        (x * Special.Erfc(x / length))
                        - (length / Math.Sqrt(Math.PI) * Math.Exp(-x * x / (length * length)));
                    var mean = (Integral(Bottoms[j]) - Integral(Tops[j])) / (Bottoms[j] - Tops[j]);
                    var residual =
                        contents[(i * Tops.Length) + j]
                        - background
                        - ((surface - background) * mean);
                    sum += residual * residual;
                }

                return sum;
            }

            var (cs, c0, s) = (fits.SurfaceContent[i], fits.Background[i], fits.SpreadMm2[i]);
            var least = Sum(cs, c0, s);
            Assert.Equal(least, fits.ResidualSumOfSquares[i], 1e-10);
            foreach (
                var (a, b, c) in new[]
                {
                    (1, 0, 0),
                    (-1, 0, 0),
                    (0, 1, 0),
                    (0, -1, 0),
                    (0, 0, 1),
                    (0, 0, -1),
                    (1, 1, -1),
                    (-1, -1, 1),
                }
            )
            {
                var neighbour = c0 + (1e-4 * b);
                if (neighbour >= 0)
                {
                    Assert.True(
                        Sum(cs * (1 + (1e-4 * a)), neighbour, s * (1 + (1e-4 * c))) >= least - 1e-12
                    );
                }
            }

            atBound += c0 == 0 ? 1 : 0;
        }

        Assert.InRange(atBound, 50, 250);
    }

    // The limits of Cs and C0, held against the fit of one core in BatchedFitComparisonTests, are the same at any width, and hold the estimates.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void FitWithLimits_OfAll_SameAtAnyWidthAroundTheEstimates(bool isFitted)
    {
        var contents = new double[200 * Tops.Length];
        var stream = new RandomStream(12, "limits of all");
        for (var i = 0; i < 200; i++)
        {
            var spread = stream.NextLognormal(Math.Log(400), 0.4);
            for (var j = 0; j < Tops.Length; j++)
            {
                var z = 0.5 * (Tops[j] + Bottoms[j]) / (2 * Math.Sqrt(spread));
                contents[(i * Tops.Length) + j] =
                    0.3
                    + (7 * MathNet.Numerics.SpecialFunctions.Erfc(z))
                    + (0.15 * stream.NextNormal());
            }
        }

        BatchedFits Fit(LaneWidth width)
        {
            var solver = new BatchedProfileFit(Tops, Bottoms, width: width);
            return isFitted
                ? solver.FitWithLimits(contents, 2.4, ofAll: true)
                : solver.FitWithLimits(contents, new double[200], 2.4, ofAll: true);
        }

        var scalar = Fit(LaneWidth.Scalar);
        foreach (var width in VectorWidth.Available)
        {
            var found = Fit(width);
            for (var i = 0; i < 200; i++)
            {
                if (found.Status[i] != BatchedFitStatus.Converged)
                {
                    continue;
                }

                Assert.Equal(scalar.SurfaceContentLow[i], found.SurfaceContentLow[i], 1e-6);
                Assert.Equal(scalar.BackgroundLow[i], found.BackgroundLow[i], 1e-6);
                if (double.IsFinite(scalar.SurfaceContentHigh[i]))
                {
                    Assert.Equal(scalar.SurfaceContentHigh[i], found.SurfaceContentHigh[i], 1e-6);
                    Assert.Equal(scalar.BackgroundHigh[i], found.BackgroundHigh[i], 1e-6);
                }

                Assert.InRange(
                    found.SurfaceContent[i],
                    found.SurfaceContentLow[i],
                    found.SurfaceContentHigh[i]
                );
                Assert.InRange(
                    found.Background[i],
                    found.BackgroundLow[i],
                    found.BackgroundHigh[i]
                );
            }
        }
    }

    [Fact]
    public void Fit_RisingProfile_IsNoFit()
    {
        var rising = Enumerable.Range(0, 8).Select(j => 1 + (0.5 * j)).ToArray();
        var fits = new BatchedProfileFit(Tops, Bottoms).Fit(rising);
        Assert.NotEqual(BatchedFitStatus.Converged, fits.Status[0]);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(8)]
    public void Fit_AnyThreads_SameBytes(int threads)
    {
        var contents = Noisy(1500, 7, 0.1);
        var fit = new BatchedProfileFit(Tops, Bottoms);
        Assert.Equal(fit.Fit(contents).SpreadMm2, fit.Fit(contents, threads).SpreadMm2);
    }

    [Fact]
    public void Fit_Points_SameAsThinSlices()
    {
        double[] centres = [5, 15, 25, 35, 50];
        var contents = centres
            .Select(x => 0.1 + (6 * Special.Erfc(x / (2 * Math.Sqrt(350)))))
            .ToArray();
        var fits = new BatchedProfileFit(centres, centres).Fit(contents);
        Assert.InRange(fits.SpreadMm2[0], 350 * (1 - 1e-9), 350 * (1 + 1e-9));
    }
}
