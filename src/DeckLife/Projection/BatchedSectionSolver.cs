using DeckLife.Numerics.Kernels;

namespace DeckLife.Projection;

/// <summary>Solves sections by the batched kernels: vectors across sections, each with its own error estimate.</summary>
internal sealed class BatchedSectionSolver : ISectionSolver
{
    // Of one point's content; over an area the errors average out, far below the scatter of the points themselves.
    private const double PointTolerance = 4e-3;

    private readonly BatchedOverlaySolver solver;

    /// <summary>Makes the solver.</summary>
    public BatchedSectionSolver()
        : this(new() { Tolerance = PointTolerance }) { }

    private BatchedSectionSolver(SectionSolverOptions options) =>
        // One thread: a projection is parallel over its draws.
        solver = new(options with { Threads = 1 });

    /// <summary>A solver for the nodes of tables, which serve many points each; what only the first days after a change would ask for is not refined without end.</summary>
    public static BatchedSectionSolver OfNodes() => new(new() { Tolerance = 2e-3, LastLevel = 2 });

    /// <summary>A solver ten times as exact as points need.</summary>
    public static BatchedSectionSolver Exact() => new(new() { Tolerance = 4e-4 });

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

        var samples = new SectionSamples(layer, old)
        {
            Surface = batch.IsSealed ? SurfaceShape.Sealed : SurfaceShape.Constant,
        };
        for (var i = 0; i < batch.Count; i++)
        {
            samples.PointDepthMm[i] = batch.BarDepthMm[i];
            samples.SurfaceContent[i] = batch.SurfaceChloride[i];
        }

        SectionEvent[] events = [.. batch.Events.Select(e => Event(batch.Count, e))];
        solver.Solve(samples, batch.TimesYr, events).Content.CopyTo(contents, 0);
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
