using MathNet.Numerics;

namespace DeckLife.Population;

/// <summary>Initiation over the area of a deck that nothing is done to: the closed form, the threshold integrated exactly.</summary>
/// <remarks>
/// Equation: F(t) = mean over the points of P(Ct ≤ C0 + (Cs − C0) erfc(cover / (2 √s(t)))).
/// Source: Crank, The Mathematics of Diffusion, ch. 2 (half space, constant surface content).
/// Valid for: a constant surface content, so that the content at the bar never falls.
/// </remarks>
public sealed class UntreatedArea
{
    private readonly AreaPoints points;
    private readonly PointDistribution threshold;
    private readonly double background;
    private readonly ExposureClock clock;

    /// <summary>Puts the pieces together.</summary>
    /// <param name="points">The points.</param>
    /// <param name="threshold">Threshold over the deck [kg/m³], independent of the points' other properties.</param>
    /// <param name="backgroundKgPerM3">Background content C0 [kg/m³].</param>
    /// <param name="clock">How diffusion adds up.</param>
    public UntreatedArea(
        AreaPoints points,
        PointDistribution threshold,
        double backgroundKgPerM3,
        ExposureClock clock
    )
    {
        ArgumentNullException.ThrowIfNull(points);
        ArgumentNullException.ThrowIfNull(threshold);
        ArgumentNullException.ThrowIfNull(clock);
        this.points = points;
        this.threshold = threshold;
        background = backgroundKgPerM3;
        this.clock = clock;
    }

    /// <summary>Content at the bar of one point [kg/m³].</summary>
    /// <param name="point">Index of the point.</param>
    /// <param name="exposureYr">Exposure [yr].</param>
    public double ContentAtBar(int point, double exposureYr) =>
        ContentAtDepth(point, points.CoverMm[point], exposureYr);

    /// <summary>Content at a depth below the original surface of one point [kg/m³].</summary>
    /// <param name="point">Index of the point.</param>
    /// <param name="depthMm">Depth [mm], not negative.</param>
    /// <param name="exposureYr">Exposure [yr].</param>
    public double ContentAtDepth(int point, double depthMm, double exposureYr)
    {
        var s = points.DiffusionMm2PerYr[point] * clock.EffectiveYears(exposureYr);
        return s <= 0
            ? background
            : background
                + (points.SurfaceChloride[point] - background)
                    * SpecialFunctions.Erfc(depthMm / (2 * Math.Sqrt(s)));
    }

    /// <summary>Share of the area where corrosion has initiated.</summary>
    /// <param name="exposureYr">Exposure [yr].</param>
    public double InitiatedFraction(double exposureYr)
    {
        var sum = 0.0;
        for (var i = 0; i < points.Count; i++)
        {
            sum += threshold.Cumulative(ContentAtBar(i, exposureYr));
        }

        return sum / points.Count;
    }

    /// <summary>Share of the area damaged: initiated, and the point's propagation period past.</summary>
    /// <param name="exposureYr">Exposure [yr].</param>
    public double DamagedFraction(double exposureYr)
    {
        var sum = 0.0;
        for (var i = 0; i < points.Count; i++)
        {
            var started = exposureYr - points.PropagationYr[i];
            sum += started < 0 ? 0 : threshold.Cumulative(ContentAtBar(i, started));
        }

        return sum / points.Count;
    }

    /// <summary>Share of the area where the threshold is never reached, however long the exposure.</summary>
    public double NeverFraction()
    {
        var sum = 0.0;
        for (var i = 0; i < points.Count; i++)
        {
            sum += threshold.Cumulative(points.SurfaceChloride[i]);
        }

        return 1 - sum / points.Count;
    }

    /// <summary>Exposure at which a share of the area has initiated [yr].</summary>
    /// <param name="fraction">The share, between 0 and 1.</param>
    /// <param name="horizonYr">How far to look [yr].</param>
    /// <returns>The exposure, or nothing where the horizon comes first.</returns>
    public double? TimeToInitiated(double fraction, double horizonYr)
    {
        if (InitiatedFraction(0) >= fraction)
        {
            return 0;
        }

        if (InitiatedFraction(horizonYr) < fraction)
        {
            return null;
        }

        double low = 0,
            high = horizonYr;
        for (var i = 0; i < 200 && high - low > 1e-10 * Math.Max(1, high); i++)
        {
            var middle = 0.5 * (low + high);
            if (InitiatedFraction(middle) < fraction)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return high;
    }
}
