using DeckLife.Numerics.Kernels;

namespace DeckLife.Studies;

/// <summary>A section with an overlay, for many draws at once: from its placing on the layered problem, solved once for all outputs.</summary>
/// <remarks>
/// Starts from what removal leaves of the old profile. Initiation is the first crossing, so a bar that has started stays started.
/// Checked by: SectionModelTests.
/// </remarks>
internal sealed class SectionLayered(SectionSettings settings, SectionClosedForm closed)
{
    // Numerical choices: times at which contents are read, spaced as below; a threshold's crossing lies on a straight line between two of them. Against the
    // closed form (bars at 30 to 70 mm, D of 30 mm²/yr, 100 yr) that is within 0.04 yr; a quarter of it with twice as many.
    private const int Times = 48;
    private const int SolverBatch = 256;

    // One thread: a study is parallel over its pieces.
    private readonly BatchedOverlaySolver _solver = new(new() { Threads = 1 });

    /// <summary>Computes outputs after the placing; a time not within its horizon is positive infinity.</summary>
    /// <param name="draws">The draws.</param>
    /// <param name="placedYr">Age at the placing [yr].</param>
    /// <param name="outputs">Outputs at ages after the placing.</param>
    /// <param name="results">Receives one array an output.</param>
    public void Evaluate(
        SectionDraws draws,
        double placedYr,
        StudyOutput[] outputs,
        double[][] results
    )
    {
        var times = TimesFor(outputs.Select(o => o.AgeYr - placedYr));
        var last = outputs.Select(o => Array.IndexOf(times, o.AgeYr - placedYr)).ToArray();
        var atPlacing = new double[draws.Count];
        closed.Content(draws, placedYr, atPlacing);
        var before = new double[draws.Count];
        if (outputs.Any(o => o.IsTime))
        {
            closed.Time(draws, double.PositiveInfinity, before);
        }

        Solve(
            draws,
            placedYr,
            times,
            (first, contents) =>
            {
                var size = contents.Length / times.Length;
                for (var o = 0; o < outputs.Length; o++)
                {
                    for (var i = 0; i < size; i++)
                    {
                        var row = first + i;
                        results[o][row] = outputs[o].Kind switch
                        {
                            StudyOutputKind.ContentAtBar => contents[(last[o] * size) + i],
                            StudyOutputKind.InitiatedBy => Largest(
                                contents,
                                size,
                                i,
                                last[o],
                                atPlacing[row]
                            ) >= draws.At(StudyVariable.ChlorideThreshold, row)
                                ? 1
                                : 0,
                            _ => Crossing(
                                contents,
                                times.AsSpan(0, last[o] + 1),
                                size,
                                i,
                                draws.At(StudyVariable.ChlorideThreshold, row),
                                atPlacing[row],
                                before[row],
                                placedYr
                            ),
                        };
                    }
                }
            }
        );
    }

    /// <summary>The largest content at the bar up to an age after the placing.</summary>
    public void Largest(SectionDraws draws, double placedYr, double ageYr, double[] result)
    {
        var times = TimesFor([ageYr - placedYr]);
        closed.Content(draws, placedYr, result.AsSpan(0, draws.Count));
        Solve(
            draws,
            placedYr,
            times,
            (first, contents) =>
            {
                var size = contents.Length / times.Length;
                for (var i = 0; i < size; i++)
                {
                    result[first + i] = Largest(
                        contents,
                        size,
                        i,
                        times.Length - 1,
                        result[first + i]
                    );
                }
            }
        );
    }

    // Dense at the start, where contents change fastest, and every time that is asked.
    private static double[] TimesFor(IEnumerable<double> asked)
    {
        var times = new SortedSet<double>(asked);
        var end = times.Max;
        for (var k = 0; k < Times; k++)
        {
            var share = (double)k / Times;
            times.Add(end * share * share);
        }

        return [.. times];
    }

    private static double Largest(double[] contents, int stride, int i, int last, double before)
    {
        var largest = before;
        for (var k = 0; k <= last; k++)
        {
            largest = Math.Max(largest, contents[(k * stride) + i]);
        }

        return largest;
    }

    private static double Crossing(
        double[] contents,
        ReadOnlySpan<double> times,
        int stride,
        int i,
        double threshold,
        double atPlacing,
        double beforePlacing,
        double placedYr
    )
    {
        if (atPlacing >= threshold)
        {
            return beforePlacing;
        }

        for (var k = 0; k < times.Length; k++)
        {
            var now = contents[(k * stride) + i];
            if (now < threshold)
            {
                continue;
            }

            if (k == 0)
            {
                return placedYr;
            }

            var last = contents[((k - 1) * stride) + i];
            return placedYr
                + times[k - 1]
                + ((times[k] - times[k - 1]) * (threshold - last) / (now - last));
        }

        return double.PositiveInfinity;
    }

    private void Solve(
        SectionDraws draws,
        double placedYr,
        double[] times,
        Action<int, double[]> read
    )
    {
        var clock = new double[draws.Count];
        var factors = new double[draws.Count];
        closed.Factor(draws, factors);
        closed.Clock(draws, placedYr, clock);
        for (var first = 0; first < draws.Count; first += SolverBatch)
        {
            var size = Math.Min(SolverBatch, draws.Count - first);
            read(
                first,
                _solver.Solve(Samples(draws, placedYr, first, size, clock, factors), times).Content
            );
        }
    }

    private SectionSamples Samples(
        SectionDraws draws,
        double placedYr,
        int first,
        int size,
        double[] clock,
        double[] factors
    )
    {
        var residual = new ErfcProfileSamples(size);
        // The overlay is first salted at its reference age.
        var layer = new LayerSamples(size)
        {
            ReferenceAgeYr = settings.OverlayReferenceAgeYr,
            AgeAtStartYr = settings.OverlayReferenceAgeYr,
        };
        var old = new LayerSamples(size)
        {
            ReferenceAgeYr = settings.ReferenceAgeYr,
            AgeAtStartYr = placedYr,
            Residual = residual,
        };
        var samples = new SectionSamples(layer, old);
        for (var i = 0; i < size; i++)
        {
            var row = first + i;
            var removal = draws.At(StudyVariable.RemovalDepth, row);
            var m =
                settings.Ageing == SectionAgeing.None
                    ? 0
                    : draws.At(StudyVariable.AgeingExponent, row);
            layer.ThicknessMm[i] = draws.At(StudyVariable.OverlayThickness, row);
            layer.DiffusionMm2PerYr[i] =
                draws.At(StudyVariable.OverlayDiffusionCoefficient, row) * factors[row];
            layer.AgeingExponent[i] = settings.OverlayAgeingExponent;
            layer.Background[i] = settings.OverlayInitialChloride;
            old.ThicknessMm[i] = Math.Max(1, settings.SlabThicknessMm - removal);
            // The apparent law D (tref/t)^m has the instantaneous one (1 - m) D (tref/t)^m.
            old.DiffusionMm2PerYr[i] =
                draws.At(StudyVariable.DiffusionCoefficient, row)
                * factors[row]
                * (settings.Ageing == SectionAgeing.Apparent ? 1 - m : 1);
            old.AgeingExponent[i] = m;
            old.Background[i] = draws.At(StudyVariable.InitialChloride, row);
            residual.SurfaceContent[i] = draws.At(StudyVariable.SurfaceChloride, row);
            residual.SpreadMm2[i] = clock[row];
            residual.RemovedMm[i] = removal;
            samples.PointDepthMm[i] = Math.Clamp(
                draws.At(StudyVariable.Cover, row) - removal + layer.ThicknessMm[i],
                1,
                layer.ThicknessMm[i] + old.ThicknessMm[i]
            );
            samples.SurfaceContent[i] = draws.At(StudyVariable.SurfaceChloride, row);
        }

        return samples;
    }
}
