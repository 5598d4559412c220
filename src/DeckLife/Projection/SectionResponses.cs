namespace DeckLife.Projection;

/// <summary>What one unit of each content that drives a section does at the bar in time: their sum, each times its content, is the history.</summary>
internal sealed class SectionResponses
{
    private readonly SectionBatch model;
    private readonly SectionGeometry geometry;
    private readonly bool isWhole;
    private readonly int times;

    /// <summary>Prepares the responses of sections like those of a batch.</summary>
    /// <param name="batch">The batch; its dates, materials and surface are used.</param>
    /// <param name="geometry">The sections' geometry.</param>
    public SectionResponses(SectionBatch batch, SectionGeometry geometry)
    {
        model = batch;
        this.geometry = geometry;
        times = batch.TimesYr.Length;
        var layers = batch
            .Events.Where(e => e.LayerThicknessMm is not null)
            .Select(e => e.LayerInitial)
            .Prepend(batch.LayerInitial)
            .ToArray();
        // With all contents 1 the section stays at 1: the background's response follows from the others.
        isWhole = Array.TrueForAll(layers, c => c == layers[0]);
        Count = isWhole ? 2 : 3;
    }

    /// <summary>Number of responses: of the surface content, of the layers' own (as they are, or of 1 where they are all the same), of the background.</summary>
    public int Count { get; }

    /// <summary>Values a section: all times of each response.</summary>
    public int Values => Count * times;

    /// <summary>Solves the responses of sections.</summary>
    /// <param name="places">Cover [mm], ln of the deck's coefficient, ln of the material's.</param>
    /// <param name="solver">The solver.</param>
    /// <returns>Shape [places × responses × times].</returns>
    public double[] Solve(
        List<(double CoverMm, double LnOld, double LnMaterial)> places,
        ISectionSolver solver
    )
    {
        var result = new double[places.Count * Values];
        var response = 0;
        Add(1, 0, 0);
        Add(0, isWhole ? 1 : double.NaN, 0);
        if (!isWhole)
        {
            Add(0, 0, 1);
        }

        return result;

        void Add(double surface, double layers, double background)
        {
            var contents = new double[times * places.Count];
            solver.Solve(Batch(places, surface, layers, background), contents);
            for (var p = 0; p < places.Count; p++)
            {
                for (var t = 0; t < times; t++)
                {
                    result[(p * Count + response) * times + t] = contents[t * places.Count + p];
                }
            }

            response++;
        }
    }

    /// <summary>Puts a history together.</summary>
    /// <param name="batch">The batch.</param>
    /// <param name="section">The section in it.</param>
    /// <param name="row">Its responses.</param>
    /// <param name="contents">Receives the history, shape [times × sections of the batch].</param>
    public void Contents(
        SectionBatch batch,
        int section,
        ReadOnlySpan<float> row,
        double[] contents
    )
    {
        var background = batch.Background;
        var surface = batch.OldSurfaceChloride[section];
        var count = batch.Count;
        if (isWhole)
        {
            var layers = batch.LayerInitial - background;
            surface -= background;
            for (var t = 0; t < times; t++)
            {
                contents[t * count + section] =
                    background + surface * row[t] + layers * row[times + t];
            }

            return;
        }

        for (var t = 0; t < times; t++)
        {
            contents[t * count + section] =
                surface * row[t] + row[times + t] + background * row[2 * times + t];
        }
    }

    // Layers NaN: with their own contents.
    private SectionBatch Batch(
        List<(double CoverMm, double LnOld, double LnMaterial)> places,
        double surface,
        double layers,
        double background
    )
    {
        var family = model.Family!;
        double[] Depths(int d) => [.. places.Select(p => geometry.At(d, p.CoverMm))];
        double[] Coefficients(int layer) =>
            [
                .. places.Select(p =>
                    family.Materials[layer] < 0
                        ? Math.Exp(p.LnOld)
                        : family.Factors[layer] * Math.Exp(p.LnMaterial)
                ),
            ];
        var batch = new SectionBatch(places.Count)
        {
            TimesYr = model.TimesYr,
            LayerAgeing = model.LayerAgeing,
            OldAgeing = model.OldAgeing,
            OldInstantaneousRatio = model.OldInstantaneousRatio,
            Background = background,
            LayerInitial = double.IsNaN(layers) ? model.LayerInitial : layers,
            Events =
            [
                .. model.Events.Select(
                    (e, n) =>
                        new SectionBatchEvent
                        {
                            AtYr = e.AtYr,
                            RemovedMm = e.RemovedMm is null ? null : Depths(3 + 2 * n),
                            LayerThicknessMm = e.LayerThicknessMm is null
                                ? null
                                : Depths(4 + 2 * n),
                            LayerDiffusion = e.LayerThicknessMm is null
                                ? null
                                : Coefficients(1 + n),
                            LayerInitial = double.IsNaN(layers) ? e.LayerInitial : layers,
                            LayerAgeing = e.LayerAgeing,
                        }
                ),
            ],
        };
        Depths(0).CopyTo(batch.RemovedMm, 0);
        Depths(1).CopyTo(batch.LayerThicknessMm, 0);
        Depths(2).CopyTo(batch.OldThicknessMm, 0);
        Coefficients(0).CopyTo(batch.LayerDiffusion, 0);
        for (var p = 0; p < places.Count; p++)
        {
            batch.BarDepthMm[p] =
                places[p].CoverMm - batch.RemovedMm[p] + batch.LayerThicknessMm[p];
            batch.OldDiffusion[p] = Math.Exp(places[p].LnOld);
            batch.ProfileSpreadMm[p] = Math.Sqrt(
                model.SquaredSpreadPerDiffusion * batch.OldDiffusion[p]
            );
            batch.OldSurfaceChloride[p] = surface;
            batch.SurfaceChloride[p] = surface;
        }

        return batch;
    }
}
