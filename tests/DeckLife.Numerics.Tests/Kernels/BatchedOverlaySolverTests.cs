using DeckLife.Numerics.Kernels;
using DeckLife.Numerics.Vectors;
using Xunit;
using Special = MathNet.Numerics.SpecialFunctions;

namespace DeckLife.Numerics.Tests.Kernels;

public class BatchedOverlaySolverTests
{
    private static readonly double[] Times =
    [
        1 / 365.25,
        3 / 365.25,
        7 / 365.25,
        20 / 365.25,
        0.1,
        0.25,
        0.5,
        .. Enumerable.Range(1, 60).Select(i => (double)i),
    ];

    public static TheoryData<string> Kinds => [.. RandomSections.Kinds];

    public static TheoryData<LaneWidth> Widths => [.. VectorWidth.Available];

    // 10 000 random sections in all: the error against the same equations on a mesh 4 times as fine, with 4 times the steps, lies within
    // the estimate printed, and within 1e-3 of the largest content from one day on. (The fine solution is itself held against another
    // method and against closed forms below.)
    [Theory]
    [MemberData(nameof(Kinds))]
    public void Solve_RandomSections_ErrorWithinEstimateAndTolerance(string kind)
    {
        var samples = RandomSections.Draw(kind, 1667, 7);
        var found = new BatchedOverlaySolver().Solve(samples, Times);
        var reference = new BatchedOverlaySolver(new SectionSolverOptions { FirstLevel = 3 }).Solve(
            samples,
            Times
        );
        for (var i = 0; i < samples.Count; i++)
        {
            var error = 0.0;
            for (var k = 0; k < Times.Length; k++)
            {
                error = Math.Max(
                    error,
                    Math.Abs(found.ContentAt(k)[i] - reference.ContentAt(k)[i])
                );
            }

            Assert.True(
                error <= found.ErrorEstimate[i] + reference.ErrorEstimate[i],
                FormattableString.Invariant(
                    $"{kind} {i}: error {error:E2}, estimate {found.ErrorEstimate[i]:E2}"
                )
            );
            Assert.True(
                error <= 1e-3 * RandomSections.Largest(samples, i),
                FormattableString.Invariant($"{kind} {i}: error {error:E2}")
            );
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Solve_CrossingTimes_WithinTheirEstimate(string kind)
    {
        var samples = RandomSections.Draw(kind, 200, 8);
        var found = new BatchedOverlaySolver().Solve(samples, Times);
        var reference = new BatchedOverlaySolver(new SectionSolverOptions { FirstLevel = 4 }).Solve(
            samples,
            Times
        );
        for (var i = 0; i < samples.Count; i++)
        {
            if (
                found.Crossing[i] == CrossingStatus.Reached
                && reference.Crossing[i] == CrossingStatus.Reached
            )
            {
                Assert.InRange(
                    Math.Abs(found.CrossingYr[i] - reference.CrossingYr[i]),
                    0,
                    1e-6 + (2 * (found.CrossingErrorYr[i] + reference.CrossingErrorYr[i]))
                );
            }
            else if (found.Crossing[i] != reference.Crossing[i])
            {
                // The two may differ only where the content passes the threshold by less than the error.
                var largest = reference.RunningMaximumAt(Times.Length - 1)[i];
                Assert.Equal(samples.Threshold![i], largest, found.ErrorEstimate[i]);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Widths))]
    public void Solve_AnyWidth_SameToRounding(LaneWidth width)
    {
        foreach (var kind in RandomSections.Kinds)
        {
            var samples = RandomSections.Draw(kind, 200, 3);
            var scalar = new BatchedOverlaySolver(
                new SectionSolverOptions { Width = LaneWidth.Scalar }
            ).Solve(samples, Times);
            var found = new BatchedOverlaySolver(new SectionSolverOptions { Width = width }).Solve(
                samples,
                Times
            );
            for (var i = 0; i < found.Content.Length; i++)
            {
                // Rounding of some 10^4 operations in a stable recurrence; where cells are thin, mass is rounded beside a
                // stiffness up to 10^5 times as large, and the two paths write their rows differently.
                Assert.Equal(scalar.Content[i], found.Content[i], 1e-11);
                Assert.Equal(scalar.RunningMaximum[i], found.RunningMaximum[i], 1e-11);
            }

            Assert.Equal(scalar.Level, found.Level);
            Assert.Equal(scalar.Crossing, found.Crossing);
        }
    }

    [Fact]
    public void Solve_BothVectorWidths_SameBits()
    {
        if (VectorWidth.InUse < LaneWidth.Eight)
        {
            return; // skipped: this machine has no second vector width
        }

        var samples = RandomSections.Draw("near the interface", 333, 3);
        var wide = new BatchedOverlaySolver(
            new SectionSolverOptions { Width = LaneWidth.Eight }
        ).Solve(samples, Times);
        var narrow = new BatchedOverlaySolver(
            new SectionSolverOptions { Width = LaneWidth.Four }
        ).Solve(samples, Times);
        Assert.Equal(Bits(wide.Content), Bits(narrow.Content));
        Assert.Equal(Bits(wide.CrossingYr), Bits(narrow.CrossingYr));
        Assert.Equal(Bits(wide.ErrorEstimate), Bits(narrow.ErrorEstimate));
    }

    [Theory]
    [InlineData(2)]
    [InlineData(8)]
    public void Solve_AnyThreads_SameBytes(int threads)
    {
        var samples = RandomSections.Draw("growing", 2500, 5);
        var alone = new BatchedOverlaySolver(new SectionSolverOptions { Threads = 1 }).Solve(
            samples,
            Times
        );
        var found = new BatchedOverlaySolver(new SectionSolverOptions { Threads = threads }).Solve(
            samples,
            Times
        );
        Assert.Equal(Bits(alone.Content), Bits(found.Content));
        Assert.Equal(Bits(alone.RunningMaximum), Bits(found.RunningMaximum));
        Assert.Equal(Bits(alone.CrossingYr), Bits(found.CrossingYr));
        Assert.Equal(Bits(alone.CrossingErrorYr), Bits(found.CrossingErrorYr));
        Assert.Equal(Bits(alone.ErrorEstimate), Bits(found.ErrorEstimate));
    }

    // A sample solved alone gives the bits that it gives among others.
    [Fact]
    public void Solve_OneOfMany_SameBitsAlone()
    {
        var samples = RandomSections.Draw("near the interface", 64, 5);
        var all = new BatchedOverlaySolver().Solve(samples, Times);
        for (var i = 0; i < 64; i += 7)
        {
            var one = new SectionSamples(Only(samples.Layers[0], i), Only(samples.Layers[1], i))
            {
                Threshold = [samples.Threshold![i]],
            };
            one.PointDepthMm[0] = samples.PointDepthMm[i];
            one.SurfaceContent[0] = samples.SurfaceContent[i];
            var found = new BatchedOverlaySolver().Solve(one, Times);
            for (var k = 0; k < Times.Length; k++)
            {
                Assert.Equal(all.ContentAt(k)[i], found.Content[k]);
            }
        }
    }

    // Closed form: half space with an age-dependent D, C = C0 + (Cs - C0) erfc(x / (2 sqrt(s))) (Crank 1975, equations 2.45 and 7.4);
    // the layer is so thick that its sealed bottom is not felt.
    [Theory]
    [InlineData(0.0)]
    [InlineData(0.35)]
    [InlineData(0.6)]
    public void Solve_UniformHalfSpace_IsTheErrorFunction(double ageing)
    {
        var layer = new LayerSamples(3)
        {
            AgeAtStartYr = 60 / 365.25,
            ReferenceAgeYr = 90 / 365.25,
            ConstantAfterYr = 12,
        };
        var samples = new SectionSamples(layer);
        for (var i = 0; i < 3; i++)
        {
            layer.ThicknessMm[i] = 600;
            layer.DiffusionMm2PerYr[i] = 30 * (i + 1);
            layer.AgeingExponent[i] = ageing;
            layer.Background[i] = 0.1;
            samples.PointDepthMm[i] = 50;
            samples.SurfaceContent[i] = 6;
        }

        double[] times = [0, 1, 5, 20, 40, 75];
        var found = new BatchedOverlaySolver(new SectionSolverOptions { Tolerance = 1e-5 }).Solve(
            samples,
            times
        );
        for (var i = 0; i < 3; i++)
        {
            for (var k = 0; k < times.Length; k++)
            {
                var q = 1 - ageing;
                var a0 = 60 / 365.25;
                var a = a0 + times[k];
                var factor = 30 * (i + 1) * Math.Pow(90 / 365.25, ageing);
                var s =
                    factor * (Math.Pow(Math.Min(a, 12), q) - Math.Pow(a0, q)) / q
                    + (factor * Math.Pow(12, -ageing) * Math.Max(0, a - 12));
                var exact = s > 0 ? 0.1 + (5.9 * Special.Erfc(50 / (2 * Math.Sqrt(s)))) : 0.1;
                Assert.Equal(exact, found.ContentAt(k)[i], 6e-5 * 6);
            }
        }
    }

    // Ages of each sample's own: every sample gives what a run with that age for all gives, before and after an event, at any width.
    [Theory]
    [MemberData(nameof(Widths))]
    public void Solve_OwnAges_SameAsEachAgeForAll(LaneWidth width)
    {
        double[] ages = [0, 7 / 365.25, 0.5, 3, 24.5, 40];
        var solver = new BatchedOverlaySolver(new SectionSolverOptions { Width = width });
        SectionSamples Sections(Action<LayerSamples> set)
        {
            var drawn = RandomSections.Draw("growing", 48, 31);
            set(drawn.Layers[1]);
            return drawn;
        }

        SectionEvent[] events = [new(15) { RemovedMm = [.. Enumerable.Repeat(5.0, 48)] }];
        var own = solver.Solve(
            Sections(layer =>
                layer.OwnAgesAtStartYr = [
                    .. Enumerable.Range(0, 48).Select(i => ages[i % ages.Length]),
                ]
            ),
            Times,
            events
        );
        for (var a = 0; a < ages.Length; a++)
        {
            var shared = solver.Solve(
                Sections(layer => layer.AgeAtStartYr = ages[a]),
                Times,
                events
            );
            for (var i = a; i < 48; i += ages.Length)
            {
                for (var k = 0; k < Times.Length; k++)
                {
                    Assert.Equal(shared.ContentAt(k)[i], own.ContentAt(k)[i], 1e-10);
                }
            }
        }
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(double.NaN)]
    public void Solve_BadOwnAge_NamesTheSample(double value)
    {
        var samples = RandomSections.Draw("one layer", 5, 1);
        samples.Layers[0].OwnAgesAtStartYr = [1, 1, value, 1, 1];
        var thrown = Assert.Throws<ArgumentException>(() =>
            new BatchedOverlaySolver().Solve(samples, Times)
        );
        Assert.Contains("sample 2", thrown.Message, StringComparison.Ordinal);
    }

    // Two half spaces in contact, no ageing, surface out of reach: with the jump C2 at the interface, the lower side is
    // C = Ci + (C2 - Ci) erf(x / (2 sqrt(D2 t))), Ci = C2 sqrt(D2) / (sqrt(D1) + sqrt(D2)) (Crank 1975, section 3.2 and equation 3.13).
    [Theory]
    [InlineData(5.0, 1.0, 0.0)]
    [InlineData(0.2, 1.0, 0.0)]
    [InlineData(5.0, 1.0, 1.0)]
    [InlineData(0.2, 1.0, 1.0)]
    [InlineData(3.0, 3.0, 4.0)]
    public void Solve_TwoHalfSpacesInContact_IsTheClosedForm(double upper, double lower, double gap)
    {
        var first = new LayerSamples(1);
        var second = new LayerSamples(1);
        first.ThicknessMm[0] = 100;
        second.ThicknessMm[0] = 200;
        first.DiffusionMm2PerYr[0] = upper * RandomSections.Unit;
        second.DiffusionMm2PerYr[0] = lower * RandomSections.Unit;
        second.Background[0] = 1;
        var samples = new SectionSamples(first, second);
        samples.PointDepthMm[0] = 100 + gap;
        double[] times = [1 / 365.25, 0.1, 1, 3];
        var found = new BatchedOverlaySolver(new SectionSolverOptions { Tolerance = 1e-4 }).Solve(
            samples,
            times
        );
        var interfaceContent = Math.Sqrt(lower) / (Math.Sqrt(upper) + Math.Sqrt(lower));
        for (var k = 0; k < times.Length; k++)
        {
            var z = gap / (2 * Math.Sqrt(lower * RandomSections.Unit * times[k]));
            var exact = interfaceContent + ((1 - interfaceContent) * Special.Erf(z));
            Assert.True(
                Math.Abs(exact - found.Content[k]) <= found.ErrorEstimate[0],
                FormattableString.Invariant(
                    $"{times[k]} yr: {found.Content[k]}, exact {exact}, estimate {found.ErrorEstimate[0]:E1}, level {found.Level[0]}"
                )
            );
            Assert.True(
                found.ErrorEstimate[0] < 5e-3,
                FormattableString.Invariant($"estimate {found.ErrorEstimate[0]}")
            );
        }
    }

    // Nothing enters and nothing leaves a sealed slab: after a very long time the content is the mean.
    [Fact]
    public void Solve_SealedSlab_EndsAtTheMean()
    {
        var first = new LayerSamples(1);
        var second = new LayerSamples(1);
        first.ThicknessMm[0] = 30;
        second.ThicknessMm[0] = 90;
        first.DiffusionMm2PerYr[0] = 300;
        second.DiffusionMm2PerYr[0] = 500;
        first.Background[0] = 0.4;
        second.Background[0] = 2;
        var samples = new SectionSamples(first, second) { Surface = SurfaceShape.Sealed };
        samples.PointDepthMm[0] = 60;
        var found = new BatchedOverlaySolver().Solve(samples, [500]);
        Assert.Equal(((0.4 * 30) + (2 * 90)) / 120, found.Content[0], 1e-3);
    }

    // An event that does nothing changes nothing beyond the estimate.
    [Fact]
    public void Solve_EventThatDoesNothing_KeepsTheHistory()
    {
        var samples = RandomSections.Draw("under an overlay", 100, 11);
        samples.Threshold = null;
        var plain = new BatchedOverlaySolver().Solve(samples, Times);
        var split = new BatchedOverlaySolver().Solve(samples, Times, [new SectionEvent(12.5)]);
        for (var i = 0; i < 100; i++)
        {
            for (var k = 0; k < Times.Length; k++)
            {
                Assert.Equal(
                    plain.ContentAt(k)[i],
                    split.ContentAt(k)[i],
                    plain.ErrorEstimate[i] + split.ErrorEstimate[i]
                );
            }
        }
    }

    // A first exposure of 20 yr, then 25 mm off and 50 mm on: the event gives what a start from the closed-form residual profile gives.
    [Fact]
    public void Solve_RemovalAndOverlay_SameAsStartFromTheResidualProfile()
    {
        const int count = 40;
        var deck = new LayerSamples(count);
        var overlay = new LayerSamples(count) { AgeAtStartYr = 7 / 365.25 };
        var left = new LayerSamples(count) { Residual = new ErfcProfileSamples(count) };
        var before = new SectionSamples(deck);
        var after = new SectionSamples(overlay, left);
        var removed = new double[count];
        for (var i = 0; i < count; i++)
        {
            deck.ThicknessMm[i] = 400;
            deck.DiffusionMm2PerYr[i] = 20 + i;
            deck.Background[i] = 0.05;
            before.PointDepthMm[i] = 40 + (0.5 * i);
            before.SurfaceContent[i] = 5;
            removed[i] = 25;
            overlay.ThicknessMm[i] = 50;
            overlay.DiffusionMm2PerYr[i] = 10;
            overlay.AgeingExponent[i] = 0.4;
            left.ThicknessMm[i] = 375;
            left.DiffusionMm2PerYr[i] = 20 + i;
            left.Background[i] = 0.05;
            left.Residual!.SurfaceContent[i] = 5;
            left.Residual.SpreadMm2[i] = 20 * (20 + i);
            left.Residual.RemovedMm[i] = 25;
            after.PointDepthMm[i] = before.PointDepthMm[i] + 25;
            after.SurfaceContent[i] = 5;
        }

        double[] later = [0.1, 1, 5, 15, 30];
        var whole = new BatchedOverlaySolver().Solve(
            before,
            [20, .. later.Select(t => 20 + t)],
            [new SectionEvent(20) { RemovedMm = removed, Placed = overlay }]
        );
        var second = new BatchedOverlaySolver().Solve(after, later);
        for (var i = 0; i < count; i++)
        {
            for (var k = 0; k < later.Length; k++)
            {
                Assert.Equal(
                    second.ContentAt(k)[i],
                    whole.ContentAt(k + 1)[i],
                    whole.ErrorEstimate[i] + second.ErrorEstimate[i]
                );
            }
        }
    }

    [Fact]
    public void Solve_NodalProfile_SameAsTheProfileItSamples()
    {
        var samples = RandomSections.Draw("under an overlay", 50, 12);
        samples.Threshold = null;
        var plain = new BatchedOverlaySolver().Solve(samples, Times);
        var substrate = samples.Layers[1];
        var depths = Enumerable.Range(0, 251).Select(j => (double)j).ToArray();
        var nodal = new NodalProfileSamples(50, depths);
        for (var i = 0; i < 50; i++)
        {
            for (var j = 0; j < depths.Length; j++)
            {
                var z =
                    (depths[j] + substrate.Residual!.RemovedMm[i])
                    / (2 * Math.Sqrt(substrate.Residual.SpreadMm2[i]));
                nodal.Content[(i * depths.Length) + j] =
                    0.02 + ((substrate.Residual.SurfaceContent[i] - 0.02) * Special.Erfc(z));
            }
        }

        substrate.Nodal = nodal;
        var found = new BatchedOverlaySolver().Solve(samples, Times);
        for (var i = 0; i < found.Content.Length; i++)
        {
            Assert.Equal(plain.Content[i], found.Content[i], 1e-6);
        }
    }

    [Fact]
    public void Solve_RunningMaximum_NeverFallsAndCoversTheContent()
    {
        var samples = RandomSections.Draw("sealed", 200, 13);
        var found = new BatchedOverlaySolver().Solve(samples, Times);
        var fell = false;
        for (var i = 0; i < 200; i++)
        {
            for (var k = 1; k < Times.Length; k++)
            {
                Assert.True(found.RunningMaximumAt(k)[i] >= found.RunningMaximumAt(k - 1)[i]);
                Assert.True(found.RunningMaximumAt(k)[i] >= found.ContentAt(k)[i]);
                fell |= found.ContentAt(k)[i] < 0.9 * found.RunningMaximumAt(k)[i];
            }
        }

        Assert.True(fell, "some contents must peak and fall, else the test shows nothing");
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(-1.0)]
    [InlineData(double.NaN)]
    public void Solve_BadDiffusionCoefficient_NamesTheSample(double value)
    {
        var samples = RandomSections.Draw("one layer", 5, 1);
        samples.Layers[0].DiffusionMm2PerYr[3] = value;
        var thrown = Assert.Throws<ArgumentException>(() =>
            new BatchedOverlaySolver().Solve(samples, [1, 2])
        );
        Assert.Contains("sample 3", thrown.Message, StringComparison.Ordinal);
        Assert.Contains("diffusion coefficient", thrown.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Solve_ManyChunks_AllocatesOnlyTheResult()
    {
        var samples = RandomSections.Draw("under an overlay", 4096, 14);
        var solver = new BatchedOverlaySolver(new SectionSolverOptions { Threads = 1 });
        solver.Solve(samples, Times);
        var before = GC.GetAllocatedBytesForCurrentThread();
        solver.Solve(samples, Times);
        var bytes = GC.GetAllocatedBytesForCurrentThread() - before;
        var result =
            (2L * Times.Length * 8 * samples.Count) + (samples.Count * (8 + 8 + 8 + 4 + 1));

        // What is left is plans, one a group and level, and the check's copies: the same for any number of chunks.
        Assert.InRange(bytes - result, 0, 600_000);
    }

    private static LayerSamples Only(LayerSamples layer, int i)
    {
        var one = new LayerSamples(1)
        {
            AgeAtStartYr = layer.AgeAtStartYr,
            ReferenceAgeYr = layer.ReferenceAgeYr,
            ConstantAfterYr = layer.ConstantAfterYr,
        };
        one.ThicknessMm[0] = layer.ThicknessMm[i];
        one.DiffusionMm2PerYr[0] = layer.DiffusionMm2PerYr[i];
        one.AgeingExponent[0] = layer.AgeingExponent[i];
        one.Background[0] = layer.Background[i];
        if (layer.Residual is { } residual)
        {
            one.Residual = new ErfcProfileSamples(1);
            one.Residual.SurfaceContent[0] = residual.SurfaceContent[i];
            one.Residual.SpreadMm2[0] = residual.SpreadMm2[i];
            one.Residual.RemovedMm[0] = residual.RemovedMm[i];
        }

        return one;
    }

    private static IEnumerable<long> Bits(double[] values) =>
        values.Select(BitConverter.DoubleToInt64Bits);
}
