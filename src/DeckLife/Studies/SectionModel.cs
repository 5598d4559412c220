using System.Buffers;
using System.Numerics;
using DeckLife.Numerics.Kernels;

namespace DeckLife.Studies;

/// <summary>The section of a study, computed for many draws at once.</summary>
/// <remarks>
/// Equation: content at the bar C0 + (Cs - C0) erfc((x - Δx)/(2√s)), s(t) = k D a(t) with k = exp(b(1/Tref - 1/T)) and a(t) = t, tref^m t^(1-m)/(1-m)
/// (instantaneous law) or tref^m t^(1-m) (apparent law). With an overlay the layered problem is solved from its placing on, starting from
/// what is left of the old profile; initiation is the first crossing, so a bar that has started stays started.
/// Source: Crank; fib Bulletin 34 (2006) for Δx, k and the apparent law. Checked by: SectionModelTests, study/* of the reference checks.
/// </remarks>
public sealed class SectionModel
{
    private const int SolverSteps = 48;
    private const int SolverBatch = 256;

    // One thread: a study is parallel over its pieces.
    private readonly BatchedOverlaySolver _solver = new(new() { Threads = 1 });
    private readonly SectionSettings _settings;
    private readonly SectionClosedForm _closed;
    private readonly StudyOutput[] _outputs;
    private readonly int[] _column = new int[SectionVariableInfo.All.Count];
    private readonly double[] _fixed = new double[SectionVariableInfo.All.Count];

    /// <summary>Makes the model of a study.</summary>
    /// <param name="study">The study.</param>
    public SectionModel(StudyDefinition study)
    {
        ArgumentNullException.ThrowIfNull(study);
        _settings = study.Section;
        _closed = new(study.Section);
        _outputs = [.. study.Outputs];
        Array.Fill(_column, -1);
        _fixed[(int)SectionVariable.Temperature] = study.Section.ReferenceTemperatureC;
        foreach (var input in study.Inputs)
        {
            _fixed[(int)input.Variable] = input.Fixed;
        }

        var drawn = study.Drawn;
        for (var i = 0; i < drawn.Length; i++)
        {
            _column[(int)drawn[i].Variable] = i;
        }
    }

    /// <summary>Number of outputs.</summary>
    public int Outputs => _outputs.Length;

    /// <summary>Computes all outputs of many draws.</summary>
    /// <param name="count">Number of draws.</param>
    /// <param name="columns">The drawn quantities in the study's order, canonical units; one array each.</param>
    /// <param name="outputs">Receives one array an output; a time not within its horizon is positive infinity.</param>
    public void Evaluate(int count, double[][] columns, double[][] outputs)
    {
        ArgumentNullException.ThrowIfNull(columns);
        ArgumentNullException.ThrowIfNull(outputs);
        var draws = new SectionDraws(count, columns, _column, _fixed);
        for (var o = 0; o < _outputs.Length; o++)
        {
            var result = outputs[o].AsSpan(0, count);
            var age = _outputs[o].AgeYr;
            if (_settings.OverlayAgeYr is { } placed && age > placed)
            {
                Layered(draws, placed, _outputs[o], result);
                continue;
            }

            switch (_outputs[o].Kind)
            {
                case StudyOutputKind.ContentAtBar:
                    _closed.Content(draws, age, result);
                    break;
                case StudyOutputKind.TimeToInitiation:
                    _closed.Time(draws, age, result);
                    break;
                default:
                    _closed.Content(draws, age, result);
                    Compare(draws, result);
                    break;
            }
        }
    }

    /// <summary>The margin of an output of kind InitiatedBy: threshold less the largest content at the bar so far [kg/m³]; initiated at 0 and below.</summary>
    /// <param name="output">Number of the output.</param>
    /// <param name="count">Number of draws.</param>
    /// <param name="columns">The drawn quantities.</param>
    /// <param name="margins">Receives the margins.</param>
    public void Margin(int output, int count, double[][] columns, double[] margins)
    {
        var draws = new SectionDraws(count, columns, _column, _fixed);
        var age = _outputs[output].AgeYr;
        if (_settings.OverlayAgeYr is { } placed && age > placed)
        {
            Layered(
                draws,
                placed,
                new(StudyOutputKind.ContentAtBar, age),
                margins.AsSpan(0, count),
                largest: true
            );
        }
        else
        {
            _closed.Content(draws, age, margins.AsSpan(0, count));
        }

        for (var i = 0; i < count; i++)
        {
            margins[i] = draws.At(SectionVariable.ChlorideThreshold, i) - margins[i];
        }
    }

    private static void Compare(SectionDraws draws, Span<double> contents)
    {
        var room = ArrayPool<double>.Shared.Rent(contents.Length);
        var threshold = draws.Column(SectionVariable.ChlorideThreshold, room);
        var at = 0;
        for (; at <= contents.Length - Vector<double>.Count; at += Vector<double>.Count)
        {
            var isReached = Vector.GreaterThanOrEqual(
                new Vector<double>(contents[at..]),
                new Vector<double>(threshold[at..])
            );
            Vector
                .ConditionalSelect(isReached, Vector<double>.One, Vector<double>.Zero)
                .CopyTo(contents[at..]);
        }

        for (; at < contents.Length; at++)
        {
            contents[at] = contents[at] >= threshold[at] ? 1 : 0;
        }

        ArrayPool<double>.Shared.Return(room);
    }

    private void Layered(
        SectionDraws draws,
        double placedYr,
        StudyOutput output,
        Span<double> result,
        bool largest = false
    )
    {
        for (var first = 0; first < result.Length; first += SolverBatch)
        {
            var size = Math.Min(SolverBatch, result.Length - first);
            LayeredBatch(draws, first, placedYr, output, result.Slice(first, size), largest);
        }
    }

    private void LayeredBatch(
        SectionDraws draws,
        int first,
        double placedYr,
        StudyOutput output,
        Span<double> result,
        bool largest
    )
    {
        var times = new double[SolverSteps + 1];
        for (var k = 0; k < times.Length; k++)
        {
            var share = (double)k / SolverSteps;
            times[k] = (output.AgeYr - placedYr) * share * share;
        }

        var residual = new ErfcProfileSamples(result.Length);
        // The overlay is first salted at its reference age.
        var layer = new LayerSamples(result.Length)
        {
            ReferenceAgeYr = _settings.OverlayReferenceAgeYr,
            AgeAtStartYr = _settings.OverlayReferenceAgeYr,
        };
        var old = new LayerSamples(result.Length)
        {
            ReferenceAgeYr = _settings.ReferenceAgeYr,
            AgeAtStartYr = placedYr,
            Residual = residual,
        };
        var samples = new SectionSamples(layer, old);
        var clock = new double[draws.Count];
        var factors = new double[draws.Count];
        _closed.Factor(draws, factors);
        _closed.Clock(draws, placedYr, clock);
        for (var i = 0; i < result.Length; i++)
        {
            var row = first + i;
            var factor = factors[row];
            var removal = draws.At(SectionVariable.RemovalDepth, row);
            var m =
                _settings.Ageing == SectionAgeing.None
                    ? 0
                    : draws.At(SectionVariable.AgeingExponent, row);
            layer.ThicknessMm[i] = draws.At(SectionVariable.OverlayThickness, row);
            layer.DiffusionMm2PerYr[i] =
                draws.At(SectionVariable.OverlayDiffusionCoefficient, row) * factor;
            layer.AgeingExponent[i] = _settings.OverlayAgeingExponent;
            layer.Background[i] = _settings.OverlayInitialChloride;
            old.ThicknessMm[i] = Math.Max(1, _settings.SlabThicknessMm - removal);
            // The apparent law D (tref/t)^m has the instantaneous one (1 - m) D (tref/t)^m.
            old.DiffusionMm2PerYr[i] =
                draws.At(SectionVariable.DiffusionCoefficient, row)
                * factor
                * (_settings.Ageing == SectionAgeing.Apparent ? 1 - m : 1);
            old.AgeingExponent[i] = m;
            old.Background[i] = draws.At(SectionVariable.InitialChloride, row);
            residual.SurfaceContent[i] = draws.At(SectionVariable.SurfaceChloride, row);
            residual.SpreadMm2[i] = clock[row];
            residual.RemovedMm[i] = removal;
            samples.PointDepthMm[i] = Math.Clamp(
                draws.At(SectionVariable.Cover, row) - removal + layer.ThicknessMm[i],
                1,
                layer.ThicknessMm[i] + old.ThicknessMm[i]
            );
            samples.SurfaceContent[i] = draws.At(SectionVariable.SurfaceChloride, row);
        }

        var contents = _solver.Solve(samples, times).Content;
        var atPlacing = new double[draws.Count];
        _closed.Content(draws, placedYr, atPlacing);
        var beforePlacing = new double[draws.Count];
        if (output.Kind == StudyOutputKind.TimeToInitiation)
        {
            _closed.Time(draws, double.PositiveInfinity, beforePlacing);
        }

        for (var i = 0; i < result.Length; i++)
        {
            result[i] = largest
                ? Largest(contents, result.Length, i, atPlacing[first + i])
                : Read(
                    draws,
                    first + i,
                    contents,
                    times,
                    result.Length,
                    i,
                    placedYr,
                    output,
                    atPlacing,
                    beforePlacing
                );
        }
    }

    private static double Largest(double[] contents, int stride, int i, double before)
    {
        var largest = before;
        for (var at = i; at < contents.Length; at += stride)
        {
            largest = Math.Max(largest, contents[at]);
        }

        return largest;
    }

    private static double Read(
        SectionDraws draws,
        int row,
        double[] contents,
        double[] times,
        int stride,
        int i,
        double placedYr,
        StudyOutput output,
        double[] atPlacing,
        double[] beforePlacing
    )
    {
        if (output.Kind == StudyOutputKind.ContentAtBar)
        {
            return contents[^(stride - i)];
        }

        var threshold = draws.At(SectionVariable.ChlorideThreshold, row);
        if (atPlacing[row] >= threshold)
        {
            return output.Kind == StudyOutputKind.InitiatedBy ? 1 : beforePlacing[row];
        }

        for (var k = 0; k < times.Length; k++)
        {
            var now = contents[(k * stride) + i];
            if (now >= threshold)
            {
                if (output.Kind == StudyOutputKind.InitiatedBy)
                {
                    return 1;
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
        }

        return output.Kind == StudyOutputKind.InitiatedBy ? 0 : double.PositiveInfinity;
    }
}
