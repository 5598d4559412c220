namespace DeckLife.Projection;

/// <summary>Sections of old concrete under a new layer, one a point, from the moment the layer is placed.</summary>
/// <remarks>
/// Depths count from the new surface. Initially the new layer holds its own content and the old concrete the
/// profile C0 + (Cs − C0) erfc((x + removed) / spread), x from the interface, over a salted underside that of the slab with both faces held:
/// residual chloride is never reset.
/// </remarks>
internal sealed class SectionBatch
{
    /// <summary>Makes room for a number of sections.</summary>
    public SectionBatch(int count)
    {
        Count = count;
        LayerThicknessMm = new double[count];
        OldThicknessMm = new double[count];
        BarDepthMm = new double[count];
        RemovedMm = new double[count];
        ProfileSpreadMm = new double[count];
        OldSurfaceChloride = new double[count];
        SurfaceChloride = new double[count];
        LayerDiffusion = new double[count];
        OldDiffusion = new double[count];
    }

    /// <summary>Number of sections.</summary>
    public int Count { get; set; }

    /// <summary>Thickness of the new layer [mm]; 0: bare old concrete with a new surface.</summary>
    public double[] LayerThicknessMm { get; }

    /// <summary>Thickness of the old concrete that is left [mm].</summary>
    public double[] OldThicknessMm { get; }

    /// <summary>Depth of the bar below the new surface [mm].</summary>
    public double[] BarDepthMm { get; }

    /// <summary>Depth of old concrete that was taken off [mm].</summary>
    public double[] RemovedMm { get; }

    /// <summary>2 √s of the old profile [mm].</summary>
    public double[] ProfileSpreadMm { get; }

    /// <summary>Surface content behind the old profile [kg/m³].</summary>
    public double[] OldSurfaceChloride { get; }

    /// <summary>Content of the new surface [kg/m³].</summary>
    public double[] SurfaceChloride { get; }

    /// <summary>Diffusion coefficient of the new layer at its reference age [mm²/yr].</summary>
    public double[] LayerDiffusion { get; }

    /// <summary>Apparent diffusion coefficient of the old concrete at the survey [mm²/yr].</summary>
    public double[] OldDiffusion { get; }

    /// <summary>Background content of the old concrete [kg/m³].</summary>
    public double Background { get; set; }

    /// <summary>Content of the new material [kg/m³].</summary>
    public double LayerInitial { get; set; }

    /// <summary>Content held at the underside since the first salt [kg/m³]; absent: sealed.</summary>
    public double? SoffitChloride { get; init; }

    /// <summary>Times since placing, from 0 [yr].</summary>
    public required double[] TimesYr { get; init; }

    /// <summary>∫ of the new layer's time factor from placing, at <see cref="TimesYr"/> [yr]; for solvers that do not follow <see cref="LayerAgeing"/> themselves.</summary>
    public double[] LayerYears { get; init; } = [];

    /// <summary>∫ of the old concrete's time factor from placing, at <see cref="TimesYr"/> [yr]; for solvers that do not follow <see cref="OldAgeing"/> themselves.</summary>
    public double[] OldYears { get; init; } = [];

    /// <summary>What its sections share with those of every other draw; absent: nothing.</summary>
    public SectionFamily? Family { get; init; }

    /// <summary>Whether no salt passes the surface at first.</summary>
    public bool IsSealed { get; init; }

    /// <summary>What is changed later, by date.</summary>
    public IReadOnlyList<SectionBatchEvent> Events { get; init; } = [];

    /// <summary>How the new layer ages.</summary>
    public AgeingLaw LayerAgeing { get; init; } = AgeingLaw.None;

    /// <summary>How the old concrete ages.</summary>
    public AgeingLaw OldAgeing { get; init; } = AgeingLaw.None;

    /// <summary>Instantaneous over apparent coefficient of the old concrete at the reference age of <see cref="OldAgeing"/>.</summary>
    public double OldInstantaneousRatio { get; init; } = 1;

    /// <summary>The old profile's spread squared over its coefficient, 4 times its years of exposure [yr]: the same in every section, and rounded so that it is one number in
    /// every batch, whichever of them a table is made for.</summary>
    public double SquaredSpreadPerDiffusion =>
        Math.Round(ProfileSpreadMm[0] * ProfileSpreadMm[0] / OldDiffusion[0], 6);

    /// <summary>Some of the sections.</summary>
    /// <param name="sections">Which, rising.</param>
    public SectionBatch Only(IReadOnlyList<int> sections)
    {
        double[] Of(double[] values) => [.. sections.Select(i => values[i])];
        var only = new SectionBatch(sections.Count)
        {
            Background = Background,
            LayerInitial = LayerInitial,
            SoffitChloride = SoffitChloride,
            TimesYr = TimesYr,
            LayerYears = LayerYears,
            OldYears = OldYears,
            IsSealed = IsSealed,
            LayerAgeing = LayerAgeing,
            OldAgeing = OldAgeing,
            OldInstantaneousRatio = OldInstantaneousRatio,
            Events =
            [
                .. Events.Select(e => new SectionBatchEvent
                {
                    AtYr = e.AtYr,
                    RemovedMm = e.RemovedMm is { } removed ? Of(removed) : null,
                    LayerThicknessMm = e.LayerThicknessMm is { } thickness ? Of(thickness) : null,
                    LayerDiffusion = e.LayerDiffusion is { } diffusion ? Of(diffusion) : null,
                    LayerInitial = e.LayerInitial,
                    LayerAgeing = e.LayerAgeing,
                    SurfaceChloride = e.SurfaceChloride is { } surface ? Of(surface) : null,
                    IsSealed = e.IsSealed,
                }),
            ],
        };
        foreach (
            var (from, to) in new[]
            {
                (LayerThicknessMm, only.LayerThicknessMm),
                (OldThicknessMm, only.OldThicknessMm),
                (BarDepthMm, only.BarDepthMm),
                (RemovedMm, only.RemovedMm),
                (ProfileSpreadMm, only.ProfileSpreadMm),
                (OldSurfaceChloride, only.OldSurfaceChloride),
                (SurfaceChloride, only.SurfaceChloride),
                (LayerDiffusion, only.LayerDiffusion),
                (OldDiffusion, only.OldDiffusion),
            }
        )
        {
            Of(from).CopyTo(to, 0);
        }

        return only;
    }
}
