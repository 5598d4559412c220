using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>Solves chunks of samples on one thread; keeps its memory from chunk to chunk, but no result.</summary>
internal sealed unsafe class SectionWorkspace
{
    private const int MostLayers = 8;

    // A layer thinner than this counts as not there [mm].
    private const double ThinnestMm = 1e-3;

    // Results of so many batches are held side by side and then sorted into the histories a whole time at once, within the first-level cache.
    private const int HeldBatches = 8;

    private readonly LaneWidth _width;
    private readonly int _lanes;
    private readonly Dictionary<(int Phase, int Key, int Level), BatchPlan> _plans = [];
    private (int Phase, int Key, int Level) _lastPlan = (-1, -1, -1);
    private readonly AlignedArray _cells = new();
    private readonly AlignedArray _coarseCells = new();
    private readonly AlignedArray _clocks = new();
    private readonly AlignedArray _coarseClocks = new();
    private readonly AlignedArray _content = new();
    private readonly AlignedArray _coarseContent = new();
    private readonly AlignedArray _jumps = new();
    private readonly AlignedArray _coarseJumps = new();
    private readonly AlignedArray _history = new();
    private readonly AlignedArray _coarseHistory = new();
    private readonly AlignedArray _scratch = new();
    private readonly AlignedArray _rows = new();
    private readonly AlignedArray _lane = new();
    private readonly AlignedArray _held = new();
    private readonly AlignedArray _seasons = new();
    private readonly ProfileTable[] _tables = [new(MostLayers), new(MostLayers)];

    private double[] _thickness = [];
    private double[] _oldTop = [];
    private double[] _point = [];
    private double[] _maximum = [];
    private double[] _maximumNext = [];
    private double[] _estimate = [];
    private double[] _estimateNext = [];
    private double[] _lengths = [];
    private ulong[] _order = [];
    private readonly int[] _heldSamples = new int[HeldBatches * 16];
    private readonly int[] _heldSlots = new int[HeldBatches * 16];
    private int _heldCount;
    private int _heldEnd;
    private int[] _redo = [];
    private int _redoCount;
    private double[] _times = [];
    private int _chunk;

    public SectionWorkspace(LaneWidth width)
    {
        _width = width;
        _lanes = width switch
        {
            LaneWidth.Eight => LayeredCore512.Batch,
            LaneWidth.Four => LayeredCore256.Batch,
            _ => LayeredCoreScalar.Batch,
        };
    }

    /// <summary>Forgets the plans of an earlier call.</summary>
    public void Begin()
    {
        _heldCount = 0;
        _heldEnd = 0;
        _plans.Clear();
        _lastPlan = (-1, -1, -1);
    }

    /// <summary>Solves one chunk through all phases.</summary>
    public void Solve(
        SectionSamples samples,
        SectionPhase[] phases,
        double[] times,
        SectionSolverOptions options,
        int first,
        int count,
        SectionHistories target
    )
    {
        EnsureChunk(count);
        _times = times;
        for (var i = 0; i < count; i++)
        {
            _point[i] = samples.PointDepthMm[first + i];
            _maximum[i] = double.NegativeInfinity;
            _estimate[i] = 0;
            target.Crossing[first + i] = samples.Threshold is null
                ? CrossingStatus.NotAsked
                : CrossingStatus.NotWithin;
            target.CrossingYr[first + i] = times[^1];
            target.CrossingErrorYr[first + i] = 0;
        }

        for (var p = 0; p < phases.Length; p++)
        {
            BeginPhase(phases[p], p, first, count);
            for (var i = 0; i < count; i++)
            {
                _redo[i] = i;
            }

            _redoCount = count;
            for (
                var level = options.FirstLevel;
                level <= options.LastLevel && _redoCount > 0;
                level++
            )
            {
                SolveLevel(samples, phases, p, times, options, first, level, target);
            }

            (_maximum, _maximumNext) = (_maximumNext, _maximum);
            (_estimate, _estimateNext) = (_estimateNext, _estimate);
        }

        for (var i = 0; i < count; i++)
        {
            target.ErrorEstimate[first + i] = _estimate[i];
        }
    }

    private void EnsureChunk(int count)
    {
        if (_chunk >= count)
        {
            return;
        }

        _chunk = count;
        _thickness = new double[count * MostLayers];
        _oldTop = new double[count];
        _point = new double[count];
        _maximum = new double[count];
        _maximumNext = new double[count];
        _estimate = new double[count];
        _estimateNext = new double[count];
        _lengths = new double[count * SectionPlan.LargestSegments];
        _order = new ulong[count];
        _redo = new int[count];
    }

    // Takes off and places: thicknesses, the point's depth, and where the old top lies under (or above) the new one.
    private void BeginPhase(SectionPhase phase, int number, int first, int count)
    {
        for (var i = 0; i < count; i++)
        {
            var thickness = _thickness.AsSpan(i * MostLayers, MostLayers);
            if (number == 0)
            {
                for (var m = 0; m < phase.Layers.Length; m++)
                {
                    thickness[m] = phase.Layers[m].ThicknessMm[first + i];
                }

                continue;
            }

            var removed = phase.RemovedMm is { } depths ? depths[first + i] : 0;
            var left = removed;
            for (var m = 0; m < phase.Layers.Length - (phase.HasPlaced ? 1 : 0) && left > 0; m++)
            {
                var off = Math.Min(left, thickness[m]);
                thickness[m] -= off;
                left -= off;
            }

            var placed = 0.0;
            if (phase.HasPlaced)
            {
                for (var m = phase.Layers.Length - 1; m >= 1; m--)
                {
                    thickness[m] = thickness[m - 1];
                }

                placed = phase.Layers[0].ThicknessMm[first + i];
                thickness[0] = placed;
            }

            _oldTop[i] = placed - removed;
            _point[i] += placed - removed;
        }
    }

    private void SolveLevel(
        SectionSamples samples,
        SectionPhase[] phases,
        int number,
        double[] times,
        SectionSolverOptions options,
        int first,
        int level,
        SectionHistories target
    )
    {
        var phase = phases[number];
        var waiting = _redoCount;
        var count = 0;
        _redoCount = 0;
        for (var i = 0; i < waiting; i++)
        {
            var sample = _redo[i];
            if (level == 0 && options.LastLevel > 0 && LiesAbove(phase, sample))
            {
                _redo[_redoCount++] = sample; // the coarsest level is too coarse to judge itself there
            }
            else
            {
                _order[count++] =
                    ((ulong)Classify(phase, number, first, sample, level) << 32) | (uint)sample;
            }
        }

        Array.Sort(_order, 0, count);
        var room = new Room(samples, phases, number, times, options, first, level, target);
        Span<int> lanes = stackalloc int[16];
        for (var from = 0; from < count; )
        {
            var key = (int)(_order[from] >> 32);
            var to = from;
            while (to < count && to < from + _lanes && (int)(_order[to] >> 32) == key)
            {
                lanes[to - from] = (int)(uint)_order[to];
                to++;
            }

            SolveBatch(room, key, lanes[..(to - from)]);
            if (_heldEnd == HeldBatches * _lanes)
            {
                Release(room);
            }

            from = to;
        }

        Release(room);
    }

    // Whether the point lies in a layer with another one under it.
    private bool LiesAbove(SectionPhase phase, int sample)
    {
        var rest = 0.0;
        for (var m = phase.Layers.Length - 1; m >= 0; m--)
        {
            if (rest > 0)
            {
                break;
            }

            rest = _thickness[(sample * MostLayers) + m];
        }

        return _point[sample] <= Total(sample, phase.Layers.Length) - rest;
    }

    private double Total(int sample, int layers)
    {
        var sum = 0.0;
        for (var m = 0; m < layers; m++)
        {
            sum += _thickness[(sample * MostLayers) + m];
        }

        return sum;
    }

    // The group of a sample: which layers it has, where the point lies, and how strongly its steps are graded.
    private int Classify(SectionPhase phase, int number, int first, int sample, int level)
    {
        Span<double> thickness = stackalloc double[MostLayers];
        Span<double> roots = stackalloc double[MostLayers];
        Span<int> present = stackalloc int[MostLayers];
        var n = 0;
        var mask = 0;
        for (var m = 0; m < phase.Layers.Length; m++)
        {
            var h = _thickness[(sample * MostLayers) + m];
            if (h > ThinnestMm)
            {
                mask |= 1 << m;
                thickness[n] = h;
                present[n] = m;
                var early = phase.Layers[m];
                roots[n] = Math.Sqrt(
                    early.DiffusionMm2PerYr[first + sample]
                        * phase.SeasonAtStart(m)
                        * Math.Exp(
                            early.AgeingExponent[first + sample]
                                * phase.LogRatio(
                                    m,
                                    first + sample,
                                    SectionPhase.EarlyYr,
                                    phase.EarlyLogRatios[m]
                                )
                        )
                );
                n++;
            }
        }

        var point = _point[sample];
        var layer = 0;
        var top = 0.0;
        while (layer < n - 1 && point > top + thickness[layer])
        {
            top += thickness[layer];
            layer++;
        }

        Span<SegmentRole> roles = stackalloc SegmentRole[SectionPlan.LargestSegments];
        Span<int> layers = stackalloc int[SectionPlan.LargestSegments];
        var segments = SegmentLayout.Divide(
            thickness[..n],
            layer,
            point,
            roots,
            _lengths.AsSpan(sample * SectionPlan.LargestSegments, SectionPlan.LargestSegments),
            roles,
            layers,
            out var pointSegment
        );

        // A change at distance d is felt when the clock has run to about d²/16; eight steps shall lie before that.
        var distance = Math.Max(point - top, SegmentLayout.LeastGapMm);
        if (layer < n - 1)
        {
            distance = Math.Min(
                distance,
                Math.Max(top + thickness[layer] - point, SegmentLayout.LeastGapMm)
            );
        }

        var felt = distance * distance / 16;
        var own = phase.Layers[present[layer]];
        var diffusion = own.DiffusionMm2PerYr[first + sample] * phase.SeasonAtStart(present[layer]);
        var ageing = own.AgeingExponent[first + sample];
        var gradings = SegmentLayout.Gradings;
        var grading = 0;
        for (; grading < gradings.Length - 1; grading++)
        {
            var (time, ratios) = phase.EighthSteps[(level * gradings.Length) + grading];
            var ratio = phase.LogRatio(
                present[layer],
                first + sample,
                time,
                ratios[present[layer]]
            );
            if (diffusion * time * Math.Exp(ageing * ratio) <= felt)
            {
                break;
            }
        }

        var isTight = SegmentLayout.IsTight(
            layer > 0,
            layer < n - 1,
            point - top,
            top + thickness[layer] - point
        );
        var key = (mask << 9) | (layer << 5) | (isTight ? 16 : 0) | grading;
        // Neighbours are mostly of one group: the table is asked only where the group changes.
        if ((number, key, level) == _lastPlan)
        {
            return key;
        }

        _lastPlan = (number, key, level);
        if (!_plans.ContainsKey(_lastPlan))
        {
            _plans.Add(
                (number, key, level),
                new BatchPlan(
                    phase,
                    _times,
                    present[..n].ToArray(),
                    roles[..segments].ToArray(),
                    layers[..segments].ToArray(),
                    pointSegment,
                    level,
                    gradings[grading]
                )
            );
        }

        return key;
    }

    private void SolveBatch(in Room room, int key, ReadOnlySpan<int> lanes)
    {
        var plan = _plans[(room.Number, key, room.Level)];
        var phase = room.Phases[room.Number];
        var steps = plan.Steps.Steps;
        Clocks(room, plan, lanes);
        Cells(plan, lanes);
        var surface = _lane.Ensure(12 * _lanes);
        var largest = surface + _lanes;
        for (var l = 0; l < _lanes; l++)
        {
            surface[l] = phase.SurfaceContent[room.First + lanes[Math.Min(l, lanes.Length - 1)]];
            largest[l] = phase.Shape.IsSealed ? 0 : surface[l];
        }

        Contents(room, plan, lanes, largest);

        var history = _history.Ensure((steps + 1) * _lanes);
        var coarse = _coarseHistory.Ensure(((steps / 2) + 1) * _lanes);
        // Row 0 is the state before the first step.
        var content = _content.Pointer;
        Copy(content + (plan.Fine.PointNode * _lanes), history);
        Copy(history, coarse);
        var scratchLength =
            ((3 * (plan.Fine.Nodes + 1)) + (6 * SectionPlan.LargestSegments) + 1) * _lanes
            + (steps * (plan.Fine.MaterialCount + 3))
            + (8 * (plan.Fine.Nodes + 1));
        Advance(
            plan.Fine,
            _cells.Pointer,
            _clocks.Pointer,
            steps,
            plan.Steps.Factors,
            surface,
            phase.Shape.IsSealed,
            content,
            _jumps.Pointer,
            history + _lanes,
            scratchLength
        );
        Advance(
            plan.Coarse,
            _coarseCells.Pointer,
            _coarseClocks.Pointer,
            steps / 2,
            plan.Steps.CoarseFactors,
            surface,
            phase.Shape.IsSealed,
            _coarseContent.Pointer,
            _coarseJumps.Pointer,
            coarse + _lanes,
            scratchLength
        );

        // Both errors are of second order in the same grading: the difference tells a third of itself.
        var difference = largest + _lanes;
        new Span<double>(difference, _lanes).Clear();
        for (var j = 0; j <= steps / 2; j++)
        {
            LaneLoops.Subtract(
                history + (2 * j * _lanes),
                coarse + (j * _lanes),
                coarse + (j * _lanes),
                _lanes
            );
            if (j >= plan.FirstCounted)
            {
                LaneLoops.LargestMagnitude(coarse + (j * _lanes), difference, _lanes);
            }
        }

        var reading = difference + _lanes;
        for (var j = 0; j < steps / 2; j++)
        {
            LaneLoops.WeightedRows(
                coarse + (plan.OddStencils[j] * _lanes),
                plan.OddWeights.AsSpan(4 * j, 4),
                reading,
                _lanes
            );
            LaneLoops.Along(
                history + (((2 * j) + 1) * _lanes),
                1.0 / 3,
                reading,
                history + (((2 * j) + 1) * _lanes),
                _lanes
            );
            LaneLoops.Along(
                history + (((2 * j) + 2) * _lanes),
                1.0 / 3,
                coarse + ((j + 1) * _lanes),
                history + (((2 * j) + 2) * _lanes),
                _lanes
            );
        }

        Finish(room, plan, lanes, largest, difference, history);
    }

    private void Finish(
        in Room room,
        BatchPlan plan,
        ReadOnlySpan<int> lanes,
        double* largest,
        double* difference,
        double* history
    )
    {
        var phase = room.Phases[room.Number];
        var target = room.Target;
        var maximum = difference + (2 * _lanes);
        for (var l = 0; l < _lanes; l++)
        {
            maximum[l] = _maximum[lanes[Math.Min(l, lanes.Length - 1)]];
        }

        LaneLoops.Largest(history, maximum, _lanes);
        var width = HeldBatches * _lanes;
        var held = _held.Ensure(2 * (EndTime(phase) - FirstTime(room)) * width) + _heldEnd;
        for (var l = 0; l < lanes.Length; l++)
        {
            _heldSamples[_heldCount] = lanes[l];
            _heldSlots[_heldCount] = _heldEnd + l;
            _heldCount++;
        }

        _heldEnd += _lanes;
        for (var j = FirstTime(room); j < phase.FirstTime; j++)
        {
            Copy(history, held);
            Copy(maximum, held + width);
            held += 2 * width;
        }

        var step = 1;
        for (var j = 0; j < phase.TimeCount; j++)
        {
            for (; step <= plan.StepsBefore[j]; step++)
            {
                LaneLoops.Largest(history + (step * _lanes), maximum, _lanes);
            }

            LaneLoops.WeightedRows(
                history + (plan.TimeStencils[j] * _lanes),
                plan.TimeWeights.AsSpan(4 * j, 4),
                held,
                maximum,
                held + width,
                _lanes
            );
            held += 2 * width;
        }

        for (; step <= plan.Steps.Steps; step++)
        {
            LaneLoops.Largest(history + (step * _lanes), maximum, _lanes);
        }

        var threshold = room.Samples.Threshold;
        for (var l = 0; l < lanes.Length; l++)
        {
            var sample = lanes[l];
            var estimate = (ExpectedShare * difference[l]) + (InterpolationShare * largest[l]);
            _estimateNext[sample] =
                _estimate[sample] + difference[l] + (InterpolationShare * largest[l]);
            _maximumNext[sample] = maximum[l];
            target.Level[room.First + sample] = (byte)
                Math.Max(room.Level, room.Number == 0 ? 0 : target.Level[room.First + sample]);
            if (
                estimate > room.Options.Tolerance * largest[l]
                && room.Level < room.Options.LastLevel
            )
            {
                _redo[_redoCount++] = sample;
                continue;
            }

            if (threshold is not null)
            {
                Cross(room, plan, sample, history + l, threshold[room.First + sample]);
            }

            if (room.Number < room.Phases.Length - 1)
            {
                Keep(room, plan, sample, l);
            }
        }
    }

    /// <summary>
    /// Share of the difference of the two solutions that is held against the tolerance: one and a half times what second order says.
    /// The estimate printed is the whole difference, and half as much again where the point lies above another layer.
    /// </summary>
    private const double ExpectedShare = 0.5;

    /// <summary>What reading between steps may add, as a share of the largest content.</summary>
    private const double InterpolationShare = 2e-5;

    // Number of the first time that the phase's batches write: the times up to the start belong to the first phase.
    private static int FirstTime(in Room room) =>
        room.Number == 0 ? 0 : room.Phases[room.Number].FirstTime;

    private static int EndTime(SectionPhase phase) => phase.FirstTime + phase.TimeCount;

    // Sorts the results held into the histories.
    private void Release(in Room room)
    {
        var width = HeldBatches * _lanes;
        var from = _held.Pointer;
        var end = EndTime(room.Phases[room.Number]);
        // Solve has checked that the sample numbers lie within the rows.
        fixed (
            int* samples = _heldSamples,
                slots = _heldSlots
        )
        {
            for (var time = FirstTime(room); time < end; time++)
            {
                var row = (time * room.Target.Count) + room.First;
                fixed (
                    double* content = &room.Target.Content[row],
                        running = &room.Target.RunningMaximum[row]
                )
                {
                    for (var k = 0; k < _heldCount; k++)
                    {
                        content[samples[k]] = from[slots[k]];
                        running[samples[k]] = from[width + slots[k]];
                    }
                }

                from += 2 * width;
            }
        }

        _heldCount = 0;
        _heldEnd = 0;
    }

    private void Cross(in Room room, BatchPlan plan, int sample, double* history, double threshold)
    {
        var target = room.Target;
        var at = room.First + sample;
        if (target.Crossing[at] != CrossingStatus.NotWithin)
        {
            return;
        }

        var phase = room.Phases[room.Number];
        if (history[0] >= threshold)
        {
            target.Crossing[at] =
                room.Number == 0 ? CrossingStatus.AtStart : CrossingStatus.Reached;
            target.CrossingYr[at] = phase.StartYr;
            return;
        }

        for (var k = 1; k <= plan.Steps.Steps; k++)
        {
            if (history[k * _lanes] < threshold)
            {
                continue;
            }

            // The cubic that the content is read by elsewhere, between two steps: bisection in the index cannot fail.
            var first = plan.Steps.StencilAt(k - 0.5);
            double low = k - 1;
            double high = k;
            Span<double> weights = stackalloc double[4];
            for (var i = 0; i < 48; i++)
            {
                var middle = 0.5 * (low + high);
                StepPlan.CubicWeights(middle - first, weights);
                var value = 0.0;
                for (var w = 0; w < 4; w++)
                {
                    value += weights[w] * history[(first + w) * _lanes];
                }

                if (value >= threshold)
                {
                    high = middle;
                }
                else
                {
                    low = middle;
                }
            }

            var whole = room.Times[^1];
            var slope =
                (history[k * _lanes] - history[(k - 1) * _lanes])
                / (plan.Steps.TimesYr[k] - plan.Steps.TimesYr[k - 1]);
            target.Crossing[at] = CrossingStatus.Reached;
            target.CrossingYr[at] = phase.StartYr + plan.Steps.TimeAt(0.5 * (low + high));
            target.CrossingErrorYr[at] =
                slope * whole > _estimateNext[sample] ? _estimateNext[sample] / slope : whole;
            return;
        }
    }

    // Writes the state at the end of the phase for the next one.
    private void Keep(in Room room, BatchPlan plan, int sample, int lane)
    {
        var table = _tables[(room.Number + 1) & 1];
        table.Ensure(
            _chunk,
            (
                SegmentLayout.Cells(SegmentRole.Cover, room.Options.LastLevel)
                * SectionPlan.LargestSegments
            ) + 1
        );
        table.Row(sample, out var depths, out var contents, out var ends);
        var fine = plan.Fine;
        var node = 0;
        var depth = 0.0;
        depths[0] = 0;
        contents[0] = _content.Pointer[lane];
        ends.Clear();
        for (var s = 0; s < fine.Cells.Length; s++)
        {
            var layer = plan.Present[fine.Materials[s]];
            if (s == 0 || fine.Materials[s] != fine.Materials[s - 1])
            {
                ends[layer] = node;
            }

            var cell = _cells.Pointer[(s * _lanes) + lane];
            for (var j = 1; j <= fine.Cells[s]; j++)
            {
                node++;
                depths[node] = depth + (j * cell);
                contents[node] = _content.Pointer[(node * _lanes) + lane];
            }

            depth += fine.Cells[s] * cell;
            ends[layer + 1] = node;
        }
    }

    private void Cells(BatchPlan plan, ReadOnlySpan<int> lanes)
    {
        var segments = plan.Fine.Cells.Length;
        var cells = _cells.Ensure(segments * _lanes);
        var coarse = _coarseCells.Ensure(segments * _lanes);
        for (var s = 0; s < segments; s++)
        {
            var share = 1.0 / plan.Fine.Cells[s];
            for (var l = 0; l < _lanes; l++)
            {
                var length = _lengths[
                    (lanes[Math.Min(l, lanes.Length - 1)] * SectionPlan.LargestSegments) + s
                ];
                cells[(s * _lanes) + l] = length * share;
                coarse[(s * _lanes) + l] = 2 * length * share;
            }
        }
    }

    // γ times the increments of each material's clock, by the closed form of the ageing law.
    private void Clocks(in Room room, BatchPlan plan, ReadOnlySpan<int> lanes)
    {
        var phase = room.Phases[room.Number];
        var steps = plan.Steps.Steps;
        var materials = plan.Present.Length;
        var clocks = _clocks.Ensure(steps * materials * _lanes);
        var coarse = _coarseClocks.Ensure((steps / 2) * materials * _lanes);
        var rows = _rows.Ensure((steps + 1) * _lanes);
        var lane = _lane.Ensure(12 * _lanes);
        var exponent = lane;
        var factor = lane + _lanes;
        var slope = factor + _lanes;
        for (var m = 0; m < materials; m++)
        {
            var layer = phase.Layers[plan.Present[m]];
            var logReference = Math.Log(layer.ReferenceAgeYr);
            for (var l = 0; l < _lanes; l++)
            {
                var sample = room.First + lanes[Math.Min(l, lanes.Length - 1)];
                var ageing = layer.AgeingExponent[sample];
                exponent[l] = 1 - ageing;
                factor[l] = ageing * logReference;
                slope[l] = layer.DiffusionMm2PerYr[sample];
            }

            var own = lane + (6 * _lanes);
            if (layer.OwnAgesAtStartYr is { } ages)
            {
                for (var l = 0; l < _lanes; l++)
                {
                    own[l] =
                        ages[room.First + lanes[Math.Min(l, lanes.Length - 1)]]
                        + phase.ElapsedYr[plan.Present[m]];
                }

                OwnPowers(own, exponent, plan.Steps.TimesYr, layer.ConstantAfterYr, rows);
            }
            else
            {
                var logAges = plan.LogAges[m];
                for (var k = 0; k <= steps; k++)
                {
                    LaneLoops.Scale(exponent, logAges[k], rows + (k * _lanes), _lanes);
                }

                VectorFunctions.Apply(0, Lanes(rows, steps + 1), Lanes(rows, steps + 1), _width);
            }

            VectorFunctions.Apply(0, Lanes(factor, 1), Lanes(factor, 1), _width);
            for (var l = 0; l < _lanes; l++)
            {
                factor[l] *= slope[l] * SteppingConstants.Gamma;
                slope[l] = exponent[l]; // of the clock beyond the last ageing, over the power there and its age
                factor[l] /= exponent[l];
            }

            var beyond = plan.AgesBeyond[m];
            if (layer.OwnAgesAtStartYr is null && beyond[steps] > 0)
            {
                // s continues as a straight line: power (1 + (1 - m) (age - cap)/cap).
                for (var k = 0; k <= steps; k++)
                {
                    if (beyond[k] > 0)
                    {
                        LaneLoops.Scale(
                            slope,
                            beyond[k] / layer.ConstantAfterYr,
                            lane + (4 * _lanes),
                            _lanes
                        );
                        LaneLoops.Multiply(
                            rows + (k * _lanes),
                            lane + (4 * _lanes),
                            lane + (5 * _lanes),
                            _lanes
                        );
                        LaneLoops.Add(
                            rows + (k * _lanes),
                            lane + (5 * _lanes),
                            rows + (k * _lanes),
                            _lanes
                        );
                    }
                }
            }

            if (plan.SeasonRatios[m] is { } ratios)
            {
                Seasons(ratios, exponent, rows, steps, lane + (4 * _lanes));
            }

            for (var k = 0; k < steps; k++)
            {
                var to = clocks + (((k * materials) + m) * _lanes);
                LaneLoops.Subtract(rows + ((k + 1) * _lanes), rows + (k * _lanes), to, _lanes);
                LaneLoops.Multiply(factor, to, to, _lanes);
                if (k % 2 == 1)
                {
                    LaneLoops.Add(
                        to - (materials * _lanes),
                        to,
                        coarse + ((((k / 2) * materials) + m) * _lanes),
                        _lanes
                    );
                }
            }
        }
    }

    // Powers of the age that count the seasons: from the start on, times the ratio read at each lane's exponent.
    private void Seasons(double[] ratios, double* exponent, double* rows, int steps, double* ratio)
    {
        var weights = _seasons.Ensure(SeasonalClock.Exponents * _lanes);
        for (var l = 0; l < _lanes; l++)
        {
            SeasonalClock.Weigh(
                1 - exponent[l],
                new Span<double>(weights + l, ((SeasonalClock.Exponents - 1) * _lanes) + 1),
                _lanes
            );
        }

        for (var k = 1; k <= steps; k++)
        {
            var at = k * SeasonalClock.Exponents;
            LaneLoops.Scale(weights, ratios[at], ratio, _lanes);
            for (var j = 1; j < SeasonalClock.Exponents; j++)
            {
                LaneLoops.Along(ratio, ratios[at + j], weights + (j * _lanes), ratio, _lanes);
            }

            var row = rows + (k * _lanes);
            LaneLoops.Subtract(row, rows, row, _lanes);
            LaneLoops.AddProduct(rows, row, ratio, row, _lanes);
        }
    }

    // age^(1 - m) at the steps for ages of each lane's own, continued as a straight line beyond the age after which D is constant.
    private void OwnPowers(
        double* ages,
        double* exponent,
        double[] timesYr,
        double constantAfterYr,
        double* rows
    )
    {
        for (var k = 0; k < timesYr.Length; k++)
        {
            LaneLoops.SumWithin(
                ages,
                timesYr[k],
                1e-300,
                constantAfterYr,
                rows + (k * _lanes),
                _lanes
            );
        }

        var all = Lanes(rows, timesYr.Length);
        VectorFunctions.Apply(1, all, all, _width);
        for (var k = 0; k < timesYr.Length; k++)
        {
            LaneLoops.Multiply(rows + (k * _lanes), exponent, rows + (k * _lanes), _lanes);
        }

        VectorFunctions.Apply(0, all, all, _width);
        for (var l = 0; l < _lanes; l++)
        {
            if (ages[l] + timesYr[0] == 0)
            {
                rows[l] = 0;
            }
        }

        if (double.IsInfinity(constantAfterYr))
        {
            return;
        }

        var beyond = ages + _lanes;
        for (var k = 0; k < timesYr.Length; k++)
        {
            LaneLoops.SumWithin(
                ages,
                timesYr[k] - constantAfterYr,
                0,
                double.PositiveInfinity,
                beyond,
                _lanes
            );
            LaneLoops.Scale(beyond, 1 / constantAfterYr, beyond, _lanes);
            LaneLoops.Multiply(beyond, exponent, beyond, _lanes);
            LaneLoops.AddProduct(
                rows + (k * _lanes),
                rows + (k * _lanes),
                beyond,
                rows + (k * _lanes),
                _lanes
            );
        }
    }

    // Left limits at the nodes, jumps at the interfaces, for both meshes; raises the largest contents.
    private void Contents(in Room room, BatchPlan plan, ReadOnlySpan<int> lanes, double* largest)
    {
        var fine = plan.Fine;
        var segments = fine.Cells.Length;
        var content = _content.Ensure((fine.Nodes + 1) * _lanes);
        var coarse = _coarseContent.Ensure((plan.Coarse.Nodes + 1) * _lanes);
        var jumps = _jumps.Ensure(segments * _lanes);
        var coarseJumps = _coarseJumps.Ensure(segments * _lanes);
        new Span<double>(jumps, segments * _lanes).Clear();
        var node = 0;
        for (var s = 0; s < segments; )
        {
            var to = s;
            var cells = 0;
            while (to < segments && fine.Materials[to] == fine.Materials[s])
            {
                cells += fine.Cells[to];
                to++;
            }

            var rows = _rows.Ensure((cells + 1) * _lanes);
            LayerContents(room, plan, lanes, s, to, rows);
            for (var j = 0; j <= cells; j++)
            {
                LaneLoops.Largest(rows + (j * _lanes), largest, _lanes);
            }

            if (s == 0)
            {
                Copy(rows, content);
            }
            else
            {
                LaneLoops.Subtract(
                    rows,
                    content + (node * _lanes),
                    jumps + ((s - 1) * _lanes),
                    _lanes
                );
            }

            new ReadOnlySpan<double>(rows + _lanes, cells * _lanes).CopyTo(
                new Span<double>(content + ((node + 1) * _lanes), cells * _lanes)
            );
            node += cells;
            s = to;
        }

        for (var i = 0; i <= plan.Coarse.Nodes; i++)
        {
            Copy(content + (2 * i * _lanes), coarse + (i * _lanes));
        }

        new ReadOnlySpan<double>(jumps, segments * _lanes).CopyTo(
            new Span<double>(coarseJumps, segments * _lanes)
        );
    }

    private void LayerContents(
        in Room room,
        BatchPlan plan,
        ReadOnlySpan<int> lanes,
        int from,
        int to,
        double* rows
    )
    {
        var phase = room.Phases[room.Number];
        var number = plan.Present[plan.Fine.Materials[from]];
        var layer = phase.Layers[number];
        var isOld = room.Number > 0 && !(phase.HasPlaced && number == 0);
        var lane = _lane.Pointer + (2 * _lanes);
        if (isOld || layer.Nodal is not null)
        {
            for (var l = 0; l < _lanes; l++)
            {
                ReadContents(
                    room,
                    plan,
                    lanes[Math.Min(l, lanes.Length - 1)],
                    l,
                    from,
                    to,
                    isOld,
                    rows
                );
            }

            return;
        }

        var background = lane;
        var rise = lane + _lanes;
        var start = rise + _lanes;
        var root = start + _lanes;
        var step = root + _lanes;
        var cells = 0;
        for (var s = from; s < to; s++)
        {
            cells += plan.Fine.Cells[s];
        }

        for (var l = 0; l < _lanes; l++)
        {
            var sample = room.First + lanes[Math.Min(l, lanes.Length - 1)];
            background[l] = layer.Background[sample];
            if (layer.Residual is { } residual)
            {
                root[l] = 0.5 / Math.Sqrt(residual.SpreadMm2[sample]);
                start[l] = residual.RemovedMm[sample] * root[l];
                rise[l] = residual.SurfaceContent[sample] - background[l];
            }
        }

        if (layer.Residual is null)
        {
            for (var j = 0; j <= cells; j++)
            {
                Copy(background, rows + (j * _lanes));
            }

            return;
        }

        Copy(start, rows);
        var at = rows;
        for (var s = from; s < to; s++)
        {
            LaneLoops.Multiply(_cells.Pointer + (s * _lanes), root, step, _lanes);
            for (var j = 1; j <= plan.Fine.Cells[s]; j++)
            {
                LaneLoops.Along(at, j, step, at + (j * _lanes), _lanes);
            }

            at += plan.Fine.Cells[s] * _lanes;
        }

        VectorFunctions.Apply(2, Lanes(rows, cells + 1), Lanes(rows, cells + 1), _width);
        for (var j = 0; j <= cells; j++)
        {
            LaneLoops.AddProduct(
                background,
                rise,
                rows + (j * _lanes),
                rows + (j * _lanes),
                _lanes
            );
        }
    }

    private void ReadContents(
        in Room room,
        BatchPlan plan,
        int sample,
        int lane,
        int from,
        int to,
        bool isOld,
        double* rows
    )
    {
        var phase = room.Phases[room.Number];
        var number = plan.Present[plan.Fine.Materials[from]];
        var layer = phase.Layers[number];
        var top = 0.0;
        for (var s = 0; s < from; s++)
        {
            top += plan.Fine.Cells[s] * _cells.Pointer[(s * _lanes) + lane];
        }

        var hint = 0;
        var depth = 0.0;
        var row = 0;
        for (var s = from; s < to; s++)
        {
            var cell = _cells.Pointer[(s * _lanes) + lane];
            for (var j = s == from ? 0 : 1; j <= plan.Fine.Cells[s]; j++)
            {
                var below = depth + (j * cell);
                double value;
                if (isOld)
                {
                    var old = number - (phase.HasPlaced ? 1 : 0);
                    value = _tables[room.Number & 1]
                        .At(sample, old, top + below - _oldTop[sample], ref hint);
                }
                else
                {
                    var nodal = layer.Nodal!;
                    var depths = nodal.DepthsMm.Span;
                    value = ProfileTable.Cubic(
                        depths,
                        nodal.Content.AsSpan((room.First + sample) * depths.Length, depths.Length),
                        below,
                        ref hint
                    );
                }

                rows[(row * _lanes) + lane] = value;
                row++;
            }

            depth += plan.Fine.Cells[s] * cell;
        }
    }

    private void Advance(
        SectionPlan plan,
        double* cells,
        double* clocks,
        int steps,
        double[] factors,
        double* surface,
        bool isSealed,
        double* content,
        double* jumps,
        double* history,
        int scratchLength
    )
    {
        var scratch = _scratch.Ensure(scratchLength);
        fixed (double* factor = factors)
        {
            switch (_width)
            {
                case LaneWidth.Eight:
                    LayeredCore512.Advance(
                        plan,
                        cells,
                        clocks,
                        steps,
                        factor,
                        surface,
                        isSealed,
                        content,
                        jumps,
                        history,
                        scratch
                    );
                    break;
                case LaneWidth.Four:
                    LayeredCore256.Advance(
                        plan,
                        cells,
                        clocks,
                        steps,
                        factor,
                        surface,
                        isSealed,
                        content,
                        jumps,
                        history,
                        scratch
                    );
                    break;
                default:
                    LayeredCoreScalar.AdvanceBatch(
                        plan,
                        cells,
                        clocks,
                        steps,
                        factor,
                        surface,
                        isSealed,
                        content,
                        jumps,
                        history,
                        scratch
                    );
                    break;
            }
        }
    }

    private Span<double> Lanes(double* first, int rows) => new(first, rows * _lanes);

    private void Copy(double* from, double* to) =>
        new ReadOnlySpan<double>(from, _lanes).CopyTo(new Span<double>(to, _lanes));

    private readonly record struct Room(
        SectionSamples Samples,
        SectionPhase[] Phases,
        int Number,
        double[] Times,
        SectionSolverOptions Options,
        int First,
        int Level,
        SectionHistories Target
    );
}
