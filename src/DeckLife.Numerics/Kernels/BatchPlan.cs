namespace DeckLife.Numerics.Kernels;

/// <summary>All that the samples of a group share: mesh, steps, logarithms of ages, and the weights that read histories at the times asked.</summary>
internal sealed class BatchPlan
{
    /// <summary>Estimates count from this time after the start of a phase on [yr]: one day.</summary>
    private const double FirstCountedYr = 1 / 365.25;

    public BatchPlan(
        SectionPhase phase,
        double[] times,
        int[] present,
        SegmentRole[] roles,
        int[] segmentLayers,
        int pointSegment,
        int level,
        double grading
    )
    {
        Present = present;
        Fine = new SectionPlan(
            [.. roles.Select(r => SegmentLayout.Cells(r, level))],
            segmentLayers,
            pointSegment
        );
        PointLiesAbove = segmentLayers[pointSegment] < segmentLayers[^1];
        Coarse = Fine.With(cells => cells / 2);
        var isEven = present.All(m => phase.Layers[m].Season == phase.Layers[present[0]].Season);
        Steps = new StepPlan(
            phase.DurationYr,
            Math.Max(SegmentLayout.Steps(level), isEven ? 0 : UnlikeSteps(phase, grading, level)),
            grading,
            phase.Shape,
            phase.ShapeStartYr,
            isEven ? phase.Seasons[present[0]] : null
        );
        var count = Steps.Steps;
        LogAges = new double[present.Length][];
        AgesBeyond = new double[present.Length][];
        for (var m = 0; m < present.Length; m++)
        {
            var layer = phase.Layers[present[m]];
            LogAges[m] = new double[count + 1];
            AgesBeyond[m] = new double[count + 1];
            for (var k = 0; k <= count; k++)
            {
                var age = phase.AgesYr[present[m]] + Steps.TimesYr[k];
                LogAges[m][k] = LogOrLowest(Math.Min(age, layer.ConstantAfterYr));
                AgesBeyond[m][k] = Math.Max(0, age - layer.ConstantAfterYr);
            }
        }

        SeasonRatios = [.. present.Select(m => phase.Seasons[m]?.Ratios(Steps.TimesYr))];

        // The difference of the two solutions is known at every second step: read it at the others by cubics.
        OddStencils = new int[count / 2];
        OddWeights = new double[4 * (count / 2)];
        for (var j = 0; j < count / 2; j++)
        {
            var index = (2 * j) + 1;
            var low = index <= Steps.KinkStep ? 0 : Steps.KinkStep / 2;
            var high = index <= Steps.KinkStep ? Steps.KinkStep / 2 : count / 2;
            OddStencils[j] = Math.Clamp(j - 1, low, high - 3);
            StepPlan.CubicWeights(j + 0.5 - OddStencils[j], OddWeights.AsSpan(4 * j, 4));
        }

        FirstCounted = 1;
        while (FirstCounted < count / 2 && Steps.TimesYr[2 * FirstCounted] < FirstCountedYr)
        {
            FirstCounted++;
        }

        TimeStencils = new int[phase.TimeCount];
        TimeWeights = new double[4 * phase.TimeCount];
        StepsBefore = new int[phase.TimeCount];
        for (var j = 0; j < phase.TimeCount; j++)
        {
            var time = times[phase.FirstTime + j] - phase.StartYr;
            var index = Math.Min(Steps.IndexOf(time), count);
            TimeStencils[j] = Steps.StencilAt(index);
            StepPlan.CubicWeights(index - TimeStencils[j], TimeWeights.AsSpan(4 * j, 4));
            StepsBefore[j] = (int)Math.Floor(index);
        }
    }

    /// <summary>Numbers of the phase's layers that these samples have.</summary>
    public int[] Present { get; }

    public SectionPlan Fine { get; }

    /// <summary>Whether the point lies in a layer with another one under it.</summary>
    public bool PointLiesAbove { get; }

    public SectionPlan Coarse { get; }

    public StepPlan Steps { get; }

    public double[][] LogAges { get; }

    public double[][] AgesBeyond { get; }

    /// <summary>Clock with seasons over clock without, for each present layer [steps + 1 × exponents]; absent: no seasons.</summary>
    public double[]?[] SeasonRatios { get; }

    public int[] OddStencils { get; }

    public double[] OddWeights { get; }

    public int FirstCounted { get; }

    public int[] TimeStencils { get; }

    public double[] TimeWeights { get; }

    public int[] StepsBefore { get; }

    // Layers that feel the seasons unlike run unevenly against one another within a year, and content at their interface with them: steps of at
    // most two months resolve that; else no step has to follow the year. The last step of a graded plan is some p T/K.
    private static int UnlikeSteps(SectionPhase phase, double grading, int level)
    {
        const double longestYr = 1.0 / 6;
        return (4 << Math.Min(level, 1))
            * (int)Math.Ceiling(grading * phase.DurationYr / (4 * longestYr));
    }

    /// <summary>ln of an age; for age 0 so low that its power is 0.</summary>
    public static double LogOrLowest(double age) => age > 0 ? Math.Log(age) : -1e6;
}
