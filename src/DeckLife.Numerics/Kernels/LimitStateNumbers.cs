namespace DeckLife.Numerics.Kernels;

/// <summary>The numbers that a limit state's kernels need, at one time.</summary>
internal readonly struct LimitStateNumbers
{
    public LimitStateNumbers(LimitStateModel model, double timeYr)
    {
        DepthMean = model.DepthMeanMm;
        DepthSd = model.DepthStandardDeviationMm;
        LeastDepth = model.LeastDepthMm;
        DiffusionMean = model.DiffusionLogMean;
        DiffusionSd = model.DiffusionLogStandardDeviation;
        AgeingMean = model.AgeingMean;
        AgeingSd = model.AgeingStandardDeviation;
        LeastAgeing = model.LeastAgeing;
        LargestAgeing = model.LargestAgeing;
        DividingShare = model.IsAgeingInstantaneous ? 1 : 0;
        SurfaceSd = model.SurfaceLogStandardDeviation;
        ThresholdSd = model.ThresholdLogStandardDeviation;
        LogMeanThresholdOverSurface = model.ThresholdLogMean - model.SurfaceLogMean;
        InverseSpread = 1 / Math.Sqrt((SurfaceSd * SurfaceSd) + (ThresholdSd * ThresholdSd));
        Offset = -LogMeanThresholdOverSurface * InverseSpread;
        LogReferenceAge = Math.Log(model.ReferenceAgeYr);
        var age = model.AgeAtStartYr + timeYr;
        LogAge = Math.Log(Math.Min(age, model.ConstantAfterYr));
        AgeBeyond = age > model.ConstantAfterYr ? (age / model.ConstantAfterYr) - 1 : 0;
        HasStart = model.AgeAtStartYr > 0;
        LogAgeAtStart = HasStart
            ? Math.Log(Math.Min(model.AgeAtStartYr, model.ConstantAfterYr))
            : 0;
        BeyondAtStart =
            model.AgeAtStartYr > model.ConstantAfterYr
                ? (model.AgeAtStartYr / model.ConstantAfterYr) - 1
                : 0;
        AgeBeyond -= BeyondAtStart;
    }

    public double DepthMean { get; }

    public double DepthSd { get; }

    public double LeastDepth { get; }

    public double DiffusionMean { get; }

    public double DiffusionSd { get; }

    public double AgeingMean { get; }

    public double AgeingSd { get; }

    public double LeastAgeing { get; }

    public double LargestAgeing { get; }

    // D aref^m is divided by 1 - this times m.
    public double DividingShare { get; }

    public double SurfaceSd { get; }

    public double ThresholdSd { get; }

    public double LogMeanThresholdOverSurface { get; }

    public double InverseSpread { get; }

    public double Offset { get; }

    public double LogReferenceAge { get; }

    public double LogAge { get; }

    // Age beyond the last ageing, over the age at it; the start's own taken off, so that the two powers may be subtracted.
    public double AgeBeyond { get; }

    public bool HasStart { get; }

    public double LogAgeAtStart { get; }

    public double BeyondAtStart { get; }
}
