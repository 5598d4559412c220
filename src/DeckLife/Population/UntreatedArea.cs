using DeckLife.Numerics.Vectors;
using MathNet.Numerics;

namespace DeckLife.Population;

/// <summary>Initiation over the area of a deck that nothing is done to: the closed form, the threshold integrated exactly.</summary>
/// <remarks>
/// Equation: F(t) = mean over the points of P(Ct ≤ C0 + (Cs − C0) erfc(cover / (2 √s(t)))).
/// Source: Crank, The Mathematics of Diffusion, ch. 2 (half space, constant surface content).
/// Over a salted underside the slab that salt enters from both faces (<see cref="SoffitFace"/>) stands in place of the half space.
/// Valid for: constant surface contents, so that the content at the bar never falls. Not for use by several threads at once.
/// </remarks>
public sealed class UntreatedArea
{
    private readonly AreaPoints points;
    private readonly PointDistribution threshold;
    private readonly double background;
    private readonly ExposureClock clock;
    private readonly double[] coverOverRootD;
    private readonly double[] rise;
    private readonly double[] work;
    private readonly bool onePropagation;
    private readonly SoffitFace? soffit;
    private readonly double[] sectionOverCover = [];
    private readonly double[] own = [];
    private readonly double[] term = [];

    /// <summary>The area in one draw of how its points differ.</summary>
    /// <param name="population">How they differ.</param>
    /// <param name="points">The points, made from it.</param>
    /// <param name="clock">How diffusion adds up.</param>
    public static UntreatedArea Of(
        DeckPopulation population,
        AreaPoints points,
        ExposureClock clock
    )
    {
        ArgumentNullException.ThrowIfNull(population);
        return new(
            points,
            population.Threshold,
            population.BackgroundKgPerM3,
            clock,
            population.Soffit
        );
    }

    /// <summary>Puts the pieces together.</summary>
    /// <param name="points">The points.</param>
    /// <param name="threshold">Threshold over the deck [kg/m³], independent of the points' other properties.</param>
    /// <param name="backgroundKgPerM3">Background content C0 [kg/m³].</param>
    /// <param name="clock">How diffusion adds up.</param>
    /// <param name="soffit">The salted underside; absent: a half space.</param>
    public UntreatedArea(
        AreaPoints points,
        PointDistribution threshold,
        double backgroundKgPerM3,
        ExposureClock clock,
        SoffitFace? soffit = null
    )
    {
        ArgumentNullException.ThrowIfNull(points);
        ArgumentNullException.ThrowIfNull(threshold);
        ArgumentNullException.ThrowIfNull(clock);
        this.points = points;
        this.threshold = threshold;
        background = backgroundKgPerM3;
        this.clock = clock;
        work = new double[points.Count];
        rise = new double[points.Count];
        coverOverRootD = new double[points.Count];
        onePropagation = true;
        for (var i = 0; i < points.Count; i++)
        {
            coverOverRootD[i] = points.CoverMm[i] / (2 * Math.Sqrt(points.DiffusionMm2PerYr[i]));
            rise[i] = points.SurfaceChloride[i] - background;
            onePropagation &= points.PropagationYr[i] == points.PropagationYr[0];
        }

        if (soffit is not null)
        {
            this.soffit = soffit;
            own = new double[points.Count];
            term = new double[points.Count];
            sectionOverCover = new double[points.Count];
            for (var i = 0; i < points.Count; i++)
            {
                sectionOverCover[i] = Math.Max(soffit.SectionMm / points.CoverMm[i], 1);
            }
        }
    }

    /// <summary>Content at a depth below the original surface of one point [kg/m³].</summary>
    /// <param name="point">Index of the point.</param>
    /// <param name="depthMm">Depth [mm], not negative.</param>
    /// <param name="exposureYr">Exposure [yr].</param>
    public double ContentAtDepth(int point, double depthMm, double exposureYr)
    {
        var s = points.DiffusionMm2PerYr[point] * clock.EffectiveYears(exposureYr);
        return s <= 0 ? background
            : soffit is not null
                ? soffit.Content(
                    depthMm,
                    2 * Math.Sqrt(s),
                    background,
                    points.SurfaceChloride[point]
                )
            : background
                + (points.SurfaceChloride[point] - background)
                    * SpecialFunctions.Erfc(depthMm / (2 * Math.Sqrt(s)));
    }

    /// <summary>Contents at the bars of all points at one time [kg/m³].</summary>
    /// <param name="exposureYr">Exposure [yr].</param>
    /// <param name="contents">Receives one value a point.</param>
    public void ContentsAtBars(double exposureYr, Span<double> contents)
    {
        var years = clock.EffectiveYears(exposureYr);
        if (years <= 0)
        {
            contents.Fill(background);
            return;
        }

        var scale = 1 / Math.Sqrt(years);
        VectorLoops.Line(coverOverRootD.AsSpan(0, contents.Length), contents, 0, scale);

        ToContents(contents);
    }

    /// <summary>Contents at the bars of all points, each one propagation period before a time [kg/m³].</summary>
    /// <param name="exposureYr">Exposure [yr].</param>
    /// <param name="contents">Receives one value a point; −1 where the period reaches back before the first salt.</param>
    public void ContentsAtStartOfDamage(double exposureYr, Span<double> contents)
    {
        if (onePropagation)
        {
            var started = exposureYr - points.PropagationYr[0];
            if (started < 0)
            {
                contents.Fill(-1);
            }
            else
            {
                ContentsAtBars(started, contents);
            }

            return;
        }

        for (var i = 0; i < contents.Length; i++)
        {
            var years = clock.EffectiveYears(exposureYr - points.PropagationYr[i]);
            contents[i] = years > 0 ? coverOverRootD[i] / Math.Sqrt(years) : 30;
        }

        ToContents(contents);
        for (var i = 0; i < contents.Length; i++)
        {
            if (exposureYr < points.PropagationYr[i])
            {
                contents[i] = -1;
            }
        }
    }

    /// <summary>Share of the area where corrosion has initiated.</summary>
    /// <param name="exposureYr">Exposure [yr].</param>
    public double InitiatedFraction(double exposureYr)
    {
        ContentsAtBars(exposureYr, work);
        return MeanShare();
    }

    /// <summary>Share of the area damaged: initiated, and the point's propagation period past.</summary>
    /// <param name="exposureYr">Exposure [yr].</param>
    public double DamagedFraction(double exposureYr)
    {
        ContentsAtStartOfDamage(exposureYr, work);
        return MeanShare();
    }

    /// <summary>Share of the area where the threshold is never reached, however long the exposure.</summary>
    public double NeverFraction()
    {
        points.SurfaceChloride.CopyTo(work, 0);
        for (var i = 0; i < work.Length && soffit is not null; i++)
        {
            // In the end the content runs straight from face to face.
            work[i] += (soffit.SurfaceChloride - work[i]) / sectionOverCover[i];
        }

        return 1 - MeanShare();
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
        while (high - low > 1e-10 * Math.Max(1, high))
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

    private void ToContents(Span<double> arguments)
    {
        if (soffit is not null)
        {
            ToContentsOfSlab(arguments, soffit.SurfaceChloride - background);
            return;
        }

        VectorFunctions.Erfc(arguments, arguments);
        VectorLoops.Multiply(arguments, rise.AsSpan(0, arguments.Length), arguments);
        VectorLoops.Line(arguments, arguments, background, 1);
    }

    // SoffitFace.Content of all points at once; an argument is cover / 2√s.
    private void ToContentsOfSlab(Span<double> arguments, double riseOfSoffit)
    {
        var x = own.AsSpan(0, arguments.Length);
        arguments.CopyTo(x);
        arguments.Fill(background);
        foreach (var (sections, covers, sign, isTop) in SoffitFace.Images)
        {
            var terms = term.AsSpan(0, arguments.Length);
            for (var i = 0; i < terms.Length; i++)
            {
                terms[i] = (sections * sectionOverCover[i] + covers) * x[i];
            }

            VectorFunctions.Erfc(terms, terms);
            for (var i = 0; i < terms.Length; i++)
            {
                arguments[i] +=
                    sign
                    * (isTop ? points.SurfaceChloride[i] - background : riseOfSoffit)
                    * terms[i];
            }
        }
    }

    private double MeanShare()
    {
        threshold.Cumulative(work, work);
        return VectorLoops.Sum(work) / work.Length;
    }
}
