namespace DeckLife.Fitting;

/// <summary>Weighted sum of squares: all contents measured, normal errors.</summary>
internal sealed class LeastSquaresObjective : ProfileObjective
{
    /// <summary>Makes the objective.</summary>
    public LeastSquaresObjective(ProfileData data)
        : base(data) { }

    /// <inheritdoc/>
    public override double Threshold(ProfilePoint best, LimitCut cut)
    {
        var perDegree = best.Objective / Math.Max(1, Data.DegreesOfFreedom);
        var student = perDegree * cut.Student * cut.Student;
        // Known errors: the normal cut, widened where the residuals exceed them.
        return best.Objective
            + (Data.ScaleIsKnown && perDegree <= 1 ? cut.Normal * cut.Normal : student);
    }

    /// <inheritdoc/>
    public override double ThresholdAfter(ProfilePoint best, double fall) =>
        best.Objective * Math.Exp(fall / Math.Max(1, Data.DegreesOfFreedom));

    /// <inheritdoc/>
    public override double Deviance(ProfilePoint best) =>
        Math.Max(1, Data.DegreesOfFreedom) * Math.Log(Math.Max(best.Objective, double.Epsilon));

    /// <inheritdoc/>
    protected override ProfilePoint Solve(double lnDiffusion)
    {
        var (excess, background) = Data.FixedBackground is { } held
            ? (FitExcess(held), held)
            : FitBoth();
        var sum = 0.0;
        var slope = 0.0;
        for (var i = 0; i < Data.Count; i++)
        {
            var residual = Data.Content[i] - background - (excess * Share[i]);
            sum += Data.Weight[i] * residual * residual;
            slope -= 2 * Data.Weight[i] * residual * excess * ShareSlope[i];
        }

        var scale = Data.ScaleIsKnown ? 1 : Math.Sqrt(sum / Math.Max(1, Data.DegreesOfFreedom));
        return new ProfilePoint(lnDiffusion, sum, slope, excess, background, scale);
    }

    /// <inheritdoc/>
    protected override double? EndOf(
        ProfileParameter which,
        bool upper,
        double threshold,
        ProfilePoint best
    )
    {
        if (best.Objective > threshold)
        {
            return null;
        }

        if (Data.FixedBackground is { } held)
        {
            // One linear unknown: the sum of squares is a parabola in Cs.
            var curvature = 0.0;
            for (var i = 0; i < Data.Count; i++)
            {
                curvature += Data.Weight[i] * Share[i] * Share[i];
            }

            var reach = Math.Sqrt((threshold - best.Objective) / curvature);
            return Math.Max(held, upper ? best.Surface + reach : best.Surface - reach);
        }

        return which == ProfileParameter.Surface
            ? EndOfSurface(upper, threshold)
            : EndOfBackground(upper, threshold);
    }

    private double FitExcess(double background)
    {
        var above = 0.0;
        var below = 0.0;
        for (var i = 0; i < Data.Count; i++)
        {
            above += Data.Weight[i] * Share[i] * (Data.Content[i] - background);
            below += Data.Weight[i] * Share[i] * Share[i];
        }

        return below > 0 ? Math.Max(0, above / below) : 0;
    }

    // Least squares in (Cs - C0, C0) with both at least 0. Centred sums: no cancellation when the shares are nearly equal.
    private (double Excess, double Background) FitBoth()
    {
        var (meanShare, meanContent) = Means();
        var shareShare = 0.0;
        var shareContent = 0.0;
        for (var i = 0; i < Data.Count; i++)
        {
            var centred = Share[i] - meanShare;
            shareShare += Data.Weight[i] * centred * centred;
            shareContent += Data.Weight[i] * centred * (Data.Content[i] - meanContent);
        }

        var excess = shareShare > 0 ? shareContent / shareShare : 0;
        if (excess <= 0)
        {
            return (0, Math.Max(0, meanContent));
        }

        var background = meanContent - (excess * meanShare);
        return background >= 0 ? (excess, background) : (FitExcess(0), 0);
    }

    private (double Share, double Content) Means()
    {
        var weight = 0.0;
        var share = 0.0;
        var content = 0.0;
        for (var i = 0; i < Data.Count; i++)
        {
            weight += Data.Weight[i];
            share += Data.Weight[i] * Share[i];
            content += Data.Weight[i] * Data.Content[i];
        }

        return (share / weight, content / weight);
    }

    // mean = Cs share + C0 (1 - share): free C0 first; where that C0 is negative, the parabola with C0 = 0.
    private double EndOfSurface(bool upper, double threshold)
    {
        var (value, other) = EndOfPair(upper, threshold, i => Share[i], i => 1 - Share[i]);
        return other < 0 ? EndOfOne(upper, threshold, i => Share[i]) : Math.Max(0, value);
    }

    private double EndOfBackground(bool upper, double threshold)
    {
        var (value, excess) = EndOfPair(upper, threshold, _ => 1, i => Share[i]);
        if (excess < 0)
        {
            value = EndOfOne(upper, threshold, _ => 1);
        }

        return Math.Max(0, value);
    }

    // The end of the first coefficient of a two-column linear model, the second following, and that second at the end.
    private (double Value, double Other) EndOfPair(
        bool upper,
        double threshold,
        Func<int, double> first,
        Func<int, double> second
    )
    {
        double aa = 0;
        double ab = 0;
        double bb = 0;
        double ay = 0;
        double by = 0;
        for (var i = 0; i < Data.Count; i++)
        {
            var (w, a, b, y) = (Data.Weight[i], first(i), second(i), Data.Content[i]);
            aa += w * a * a;
            ab += w * a * b;
            bb += w * b * b;
            ay += w * a * y;
            by += w * b * y;
        }

        var information = aa - (ab * ab / bb);
        if (!(information > 1e-15 * aa))
        {
            return (upper ? double.PositiveInfinity : 0, 0);
        }

        var centre = (ay - (ab * by / bb)) / information;
        var least = 0.0;
        for (var i = 0; i < Data.Count; i++)
        {
            var r = Data.Content[i] - (centre * first(i)) - ((by - (ab * centre)) / bb * second(i));
            least += Data.Weight[i] * r * r;
        }

        var reach = Math.Sqrt(Math.Max(0, threshold - least) / information);
        var value = upper ? centre + reach : centre - reach;
        return (value, (by - (ab * value)) / bb);
    }

    private double EndOfOne(bool upper, double threshold, Func<int, double> column)
    {
        double aa = 0;
        double ay = 0;
        for (var i = 0; i < Data.Count; i++)
        {
            aa += Data.Weight[i] * column(i) * column(i);
            ay += Data.Weight[i] * column(i) * Data.Content[i];
        }

        var centre = ay / aa;
        var least = 0.0;
        for (var i = 0; i < Data.Count; i++)
        {
            var r = Data.Content[i] - (centre * column(i));
            least += Data.Weight[i] * r * r;
        }

        var reach = Math.Sqrt(Math.Max(0, threshold - least) / aa);
        return upper ? centre + reach : centre - reach;
    }
}
