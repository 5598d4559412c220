using DeckLife.Numerics.Kernels;
using DeckLife.Population;

namespace DeckLife.Projection;

/// <summary>Solves sections by the batched kernels: vectors across sections, each with its own error estimate.</summary>
internal sealed class BatchedSectionSolver : ISectionSolver
{
    private const int FinestLevel = 4;

    // A tenth of the tolerance, on the next finer meshes from the first: several times the time.
    private const double FineTolerance = 4e-4;
    private const int FineLevel = 1;

    // One thread: a projection is parallel over its draws. The tolerance is of one point's content, as a share of its largest; over an area the
    // errors average out, far below the scatter of the points themselves. Measured on seven kinds of work: shares of the area with half of 4e-3 lie
    // within 8e-4 of those with 1e-4.
    private readonly BatchedOverlaySolver solver;

    /// <summary>A solver.</summary>
    /// <param name="tolerance">Error of one point's content at which it is solved again, finer, as a share of its largest.</param>
    /// <param name="firstLevel">The level of the meshes to begin with.</param>
    /// <param name="lastLevel">The finest level.</param>
    public BatchedSectionSolver(
        double tolerance = 4e-3,
        int firstLevel = 0,
        int lastLevel = FinestLevel
    ) =>
        solver = new(
            new()
            {
                Threads = 1,
                Tolerance = tolerance,
                FirstLevel = firstLevel,
                LastLevel = lastLevel,
            }
        );

    /// <summary>A solver for the nodes of tables, which serve many points each; what only the first days after a change would ask for is not refined without end.</summary>
    public static BatchedSectionSolver OfNodes() => new(1e-3, lastLevel: 2);

    /// <inheritdoc/>
    public ISectionSolver Finer => new BatchedSectionSolver(FineTolerance, FineLevel);

    /// <inheritdoc/>
    public void Solve(SectionBatch batch, double[] contents)
    {
        if (!(batch.TimesYr[^1] > 0))
        {
            // An intervention at the horizon itself: nothing happens after it.
            for (var i = 0; i < contents.Length; i++)
            {
                contents[i] = 0;
            }

            return;
        }

        var layer = Layer(batch.Count, batch.LayerAgeing);
        var residual = new ErfcProfileSamples(batch.Count);
        var old = new LayerSamples(batch.Count)
        {
            ReferenceAgeYr = batch.OldAgeing.ReferenceAgeYr,
            AgeAtStartYr = batch.OldAgeing.AgeAtStartYr,
            ConstantAfterYr = batch.OldAgeing.ConstantAfterYr,
            Residual = residual,
        };
        for (var i = 0; i < batch.Count; i++)
        {
            layer.ThicknessMm[i] = batch.LayerThicknessMm[i];
            layer.DiffusionMm2PerYr[i] = batch.LayerDiffusion[i];
            layer.AgeingExponent[i] = batch.LayerAgeing.Exponent;
            layer.Background[i] = batch.LayerInitial;
            old.ThicknessMm[i] = batch.OldThicknessMm[i];
            old.DiffusionMm2PerYr[i] = batch.OldDiffusion[i] * batch.OldInstantaneousRatio;
            old.AgeingExponent[i] = batch.OldAgeing.Exponent;
            old.Background[i] = batch.Background;
            residual.SurfaceContent[i] = batch.OldSurfaceChloride[i];
            residual.SpreadMm2[i] = batch.ProfileSpreadMm[i] * batch.ProfileSpreadMm[i] / 4;
            residual.RemovedMm[i] = batch.RemovedMm[i];
        }

        var surface = batch.IsSealed ? SurfaceShape.Sealed : SurfaceShape.Constant;
        var samples = batch.SoffitChloride is { } soffit
            ? new SectionSamples(layer, old, Reservoir(batch, old, soffit)) { Surface = surface }
            : new SectionSamples(layer, old) { Surface = surface };
        for (var i = 0; i < batch.Count; i++)
        {
            samples.PointDepthMm[i] = batch.BarDepthMm[i];
            samples.SurfaceContent[i] = batch.SurfaceChloride[i];
        }

        SectionEvent[] events = [.. batch.Events.Select(e => Event(batch.Count, e))];
        solver.Solve(samples, batch.TimesYr, events).Content.CopyTo(contents, 0);
    }

    // The solver seals its bottom. A salted underside is held by a layer beneath that gives salt as fast as it is asked for: the interface between two half
    // spaces stands at (Cb √Dr + C √D)/(√Dr + √D), so that a coefficient 10^6 times the concrete's leaves a thousandth of the difference, and 50 m of it
    // are not used up in a century.
    private static LayerSamples Reservoir(SectionBatch batch, LayerSamples old, double soffit)
    {
        const double Faster = 1e6;
        const double MostMm2PerYr = 9e7;
        const double ThicknessMm = 5e4;
        const int Intervals = 96;
        var reservoir = new LayerSamples(batch.Count);
        double[] depths =
        [
            .. Enumerable
                .Range(0, Intervals + 1)
                .Select(k => batch.OldThicknessMm.Take(batch.Count).Max() * k / Intervals),
        ];
        var left = new NodalProfileSamples(batch.Count, depths);
        for (var i = 0; i < batch.Count; i++)
        {
            reservoir.ThicknessMm[i] = ThicknessMm;
            reservoir.DiffusionMm2PerYr[i] = Math.Min(
                Faster * old.DiffusionMm2PerYr[i],
                MostMm2PerYr
            );
            reservoir.Background[i] = soffit;
            var section = batch.OldThicknessMm[i] + batch.RemovedMm[i];
            var slab = new SoffitFace(section, soffit);
            for (var k = 0; k <= Intervals; k++)
            {
                left.Content[i * (Intervals + 1) + k] = slab.Content(
                    Math.Min(depths[k] + batch.RemovedMm[i], section),
                    batch.ProfileSpreadMm[i],
                    batch.Background,
                    batch.OldSurfaceChloride[i]
                );
            }
        }

        old.Residual = null;
        old.Nodal = left;
        return reservoir;
    }

    private static LayerSamples Layer(int count, AgeingLaw ageing) =>
        new(count)
        {
            ReferenceAgeYr = ageing.ReferenceAgeYr,
            AgeAtStartYr = ageing.AgeAtStartYr,
            ConstantAfterYr = ageing.ConstantAfterYr,
        };

    private static SectionEvent Event(int count, SectionBatchEvent change)
    {
        LayerSamples? placed = null;
        if (change.LayerThicknessMm is { } thickness)
        {
            placed = Layer(count, change.LayerAgeing);
            thickness.CopyTo(placed.ThicknessMm, 0);
            change.LayerDiffusion!.CopyTo(placed.DiffusionMm2PerYr, 0);
            Array.Fill(placed.AgeingExponent, change.LayerAgeing.Exponent);
            Array.Fill(placed.Background, change.LayerInitial);
        }

        return new(change.AtYr)
        {
            RemovedMm = change.RemovedMm,
            Placed = placed,
            SurfaceContent = change.SurfaceChloride,
            Surface = change.IsSealed switch
            {
                true => SurfaceShape.Sealed,
                false => SurfaceShape.Constant,
                null => null,
            },
        };
    }
}
