using DeckLife.Numerics.Vectors;

namespace DeckLife.Population;

/// <summary>Points that stand for the area of a deck, each for the same share of it; one array a property.</summary>
public sealed class AreaPoints
{
    /// <summary>Number of properties that vary from point to point: dimensions of the point set.</summary>
    public const int Dimensions = 5;

    /// <summary>Makes the points from their columns.</summary>
    /// <param name="coverMm">Cover [mm].</param>
    /// <param name="surfaceChloride">Surface content Cs [kg/m³].</param>
    /// <param name="diffusionMm2PerYr">Apparent diffusion coefficient at the survey [mm²/yr].</param>
    /// <param name="propagationYr">Time from initiation to damage [yr].</param>
    /// <param name="materialScore">Standard score of a new material's diffusion coefficient at the point.</param>
    /// <exception cref="ArgumentException">The columns differ in length, or are empty.</exception>
    public AreaPoints(
        double[] coverMm,
        double[] surfaceChloride,
        double[] diffusionMm2PerYr,
        double[] propagationYr,
        double[] materialScore
    )
    {
        ArgumentNullException.ThrowIfNull(coverMm);
        ArgumentNullException.ThrowIfNull(surfaceChloride);
        ArgumentNullException.ThrowIfNull(diffusionMm2PerYr);
        ArgumentNullException.ThrowIfNull(propagationYr);
        ArgumentNullException.ThrowIfNull(materialScore);
        if (
            coverMm.Length == 0
            || surfaceChloride.Length != coverMm.Length
            || diffusionMm2PerYr.Length != coverMm.Length
            || propagationYr.Length != coverMm.Length
            || materialScore.Length != coverMm.Length
        )
        {
            throw new ArgumentException(
                "The columns need one value a point, and at least one point."
            );
        }

        CoverMm = coverMm;
        SurfaceChloride = surfaceChloride;
        DiffusionMm2PerYr = diffusionMm2PerYr;
        PropagationYr = propagationYr;
        MaterialScore = materialScore;
    }

    /// <summary>Number of points.</summary>
    public int Count => CoverMm.Length;

    internal double[] CoverMm { get; }

    internal double[] SurfaceChloride { get; }

    internal double[] DiffusionMm2PerYr { get; }

    internal double[] PropagationYr { get; }

    internal double[] MaterialScore { get; }

    /// <summary>The first of the points, themselves a point set of low discrepancy where their number is a power of 2.</summary>
    /// <param name="count">How many.</param>
    internal AreaPoints First(int count) =>
        new(
            CoverMm[..count],
            SurfaceChloride[..count],
            DiffusionMm2PerYr[..count],
            PropagationYr[..count],
            MaterialScore[..count]
        );

    /// <summary>Puts points of the unit cube on a deck.</summary>
    /// <param name="population">How the points differ.</param>
    /// <param name="unitPoints">The unit points, row by row: <see cref="Dimensions"/> numbers a point, each inside (0, 1).</param>
    /// <exception cref="ArgumentException">The length is not a multiple of <see cref="Dimensions"/>.</exception>
    public static AreaPoints From(DeckPopulation population, ReadOnlySpan<double> unitPoints)
    {
        ArgumentNullException.ThrowIfNull(population);
        if (unitPoints.Length == 0 || unitPoints.Length % Dimensions != 0)
        {
            throw new ArgumentException(
                $"Each point needs {Dimensions} numbers.",
                nameof(unitPoints)
            );
        }

        var count = unitPoints.Length / Dimensions;
        var cover = new double[count];
        var surface = new double[count];
        var diffusion = new double[count];
        var propagation = new double[count];
        var material = new double[count];
        var rho = population.Correlation;
        var rest = Math.Sqrt(Math.Max(0, 1 - rho * rho));
        for (var i = 0; i < count; i++)
        {
            var u = unitPoints.Slice(i * Dimensions, Dimensions);
            cover[i] = u[0];
            surface[i] = u[1];
            diffusion[i] = u[2];
            propagation[i] = u[3];
            material[i] = u[4];
        }

        population.Cover.Quantiles(cover, cover);
        population.PropagationYr.Quantiles(propagation, propagation);
        for (var i = 0; i < count; i++)
        {
            cover[i] = Math.Max(cover[i], population.CoverFloorMm);
            propagation[i] = population.PropagationOf is { } years
                ? years(propagation[i], cover[i])
                : propagation[i];
        }

        VectorFunctions.NormalQuantile(surface, surface);
        VectorFunctions.NormalQuantile(diffusion, diffusion);
        VectorFunctions.NormalQuantile(material, material);
        for (var i = 0; i < count; i++)
        {
            var score = rho * surface[i] + rest * diffusion[i];
            surface[i] =
                population.MeanLnSurfaceChloride + population.SdLnSurfaceChloride * surface[i];
            diffusion[i] =
                population.MeanLnDiffusionCoefficient + population.SdLnDiffusionCoefficient * score;
        }

        VectorFunctions.Exp(surface, surface);
        VectorFunctions.Exp(diffusion, diffusion);
        for (var i = 0; i < count; i++)
        {
            surface[i] = Math.Max(surface[i], population.BackgroundKgPerM3);
        }

        return new(cover, surface, diffusion, propagation, material);
    }
}
