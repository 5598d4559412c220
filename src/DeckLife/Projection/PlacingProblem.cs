using DeckLife.Population;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>What one intervention does at each point of one draw: depth, undercut or not, new section.</summary>
internal sealed class PlacingProblem
{
    private readonly Deck deck;
    private readonly ExposureClock clock;
    private readonly PlannedIntervention intervention;
    private readonly AreaPoints points;
    private readonly double background;
    private readonly double effectiveYears;
    private readonly PointDistribution? layerDiffusion;
    private readonly double[] depthMm;
    private readonly double[] neededMm;

    /// <summary>Decides the depths.</summary>
    public PlacingProblem(
        Deck deck,
        ExposureClock clock,
        PlannedIntervention intervention,
        KnowledgeDraw draw,
        AreaPoints points,
        double background
    )
    {
        this.deck = deck;
        this.clock = clock;
        this.intervention = intervention;
        this.points = points;
        this.background = background;
        effectiveYears = clock.EffectiveYears(clock.ExposureAtSurveyYr + intervention.AtYr);
        if (intervention.Material is { } material)
        {
            layerDiffusion = PointDistribution.WithinDeck(
                material.DiffusionCoefficient,
                material.WithinDeckShare,
                draw.MaterialScores[intervention.MaterialIndex]
            );
        }

        depthMm = new double[points.Count];
        neededMm = new double[points.Count];
        for (var i = 0; i < points.Count; i++)
        {
            if (intervention.Limit is { } limit)
            {
                neededMm[i] = ResidualDepth.Above(
                    points.SurfaceChloride[i],
                    background,
                    Spread(i),
                    limit.KilogramsPerCubicMetre
                );
                depthMm[i] = intervention.DepthFor(neededMm[i]);
            }
            else
            {
                depthMm[i] = intervention.LeastDepthMm;
            }
        }
    }

    private double Diameter => deck.TopBarDiameter.Millimetres;

    /// <summary>Whether removal exposes more than half of a point's bar, so that it goes on to under it.</summary>
    public bool IsUndercut(int i) => BarRule.IsUndercut(depthMm[i], points.CoverMm[i], Diameter);

    /// <summary>Makes the sections of some points.</summary>
    /// <param name="times">Times since placing [yr].</param>
    /// <param name="isIn">Which points.</param>
    /// <param name="renewed">Whether the bar is undercut and lies in new material; else the planned depth comes off.</param>
    /// <param name="places">Where each point's section stands; −1 for none.</param>
    public SectionBatch Batch(double[] times, Func<int, bool> isIn, bool renewed, out int[] places)
    {
        places = new int[points.Count];
        var count = 0;
        for (var i = 0; i < points.Count; i++)
        {
            places[i] = isIn(i) ? count++ : -1;
        }

        var batch = new SectionBatch(count)
        {
            TimesYr = times,
            LayerYears = [.. times.Select(LayerYears)],
            OldYears =
            [
                .. times.Select(t =>
                    clock.EffectiveYears(clock.ExposureAtSurveyYr + intervention.AtYr + t)
                    - effectiveYears
                ),
            ],
            LayerAgeing = intervention.Material is { } material
                ? new(
                    material.AgeingExponent,
                    material.ReferenceAge.Years,
                    material.AgeAtExposure.Years,
                    material.ConstantAfter?.Years ?? double.PositiveInfinity
                )
                : AgeingLaw.None,
            OldAgeing =
                deck.AgeingExponent == 0
                    ? AgeingLaw.None
                    : new(
                        deck.AgeingExponent,
                        clock.ConcreteAgeAtSurveyYr,
                        clock.ConcreteAgeAtSurveyYr + intervention.AtYr,
                        double.PositiveInfinity
                    ),
            OldInstantaneousRatio = clock.InstantaneousAtSurvey,
            Background = background,
            LayerInitial = intervention.Material?.InitialChloride.KilogramsPerCubicMetre ?? 0,
        };
        for (var i = 0; i < points.Count; i++)
        {
            if (places[i] >= 0)
            {
                Fill(batch, places[i], i, renewed);
            }
        }

        return batch;
    }

    /// <summary>Sums up what the intervention does over the deck.</summary>
    /// <param name="repairShare">Share of each point that is damaged and repaired.</param>
    public InterventionDraw Quantities(double[] repairShare)
    {
        var result = new InterventionDraw
        {
            ClassShares = new double[intervention.DepthsMm.Length],
        };
        for (var i = 0; i < points.Count; i++)
        {
            var deep = RenewedDepth(i);
            var removed = IsUndercut(i) ? deep : depthMm[i] + repairShare[i] * (deep - depthMm[i]);
            result.MeanRemovalMm += removed / points.Count;
            result.MeanPlacedMm += (intervention.ThicknessMm + removed - depthMm[i]) / points.Count;
            result.Repaired += repairShare[i] / points.Count;
            result.Undercut += IsUndercut(i) ? (1 - repairShare[i]) / points.Count : 0;
            result.Struck +=
                depthMm[i] > 0 && points.CoverMm[i] < depthMm[i] + deck.RemovalTolerance.Millimetres
                    ? 1.0 / points.Count
                    : 0;
            result.AboveLimit += neededMm[i] > depthMm[i] ? 1.0 / points.Count : 0;
            result.ClassShares[intervention.DepthsMm.IndexOf(depthMm[i])] += 1.0 / points.Count;
        }

        return result;
    }

    private double Spread(int i) => 2 * Math.Sqrt(points.DiffusionMm2PerYr[i] * effectiveYears);

    private double RenewedDepth(int i) =>
        Math.Min(
            BarRule.UndercutDepthMm(depthMm[i], points.CoverMm[i], Diameter),
            deck.Thickness.Millimetres - StrategyPlanner.LeastRemainingMm
        );

    private double LayerYears(double time) =>
        intervention.Material is { } material ? MaterialClock.EffectiveYears(material, time) : time;

    private void Fill(SectionBatch batch, int at, int i, bool renewed)
    {
        var removed = renewed ? RenewedDepth(i) : depthMm[i];
        var layer = intervention.ThicknessMm + removed - depthMm[i];
        var bar = intervention.ThicknessMm + points.CoverMm[i] - depthMm[i];
        // A bar that is partly exposed still touches old concrete: it is held against what lies there.
        batch.BarDepthMm[at] = Math.Clamp(
            renewed ? bar : Math.Max(bar, layer),
            1,
            layer + deck.Thickness.Millimetres - removed - 6
        );
        batch.LayerThicknessMm[at] = layer;
        batch.OldThicknessMm[at] = deck.Thickness.Millimetres - removed;
        batch.RemovedMm[at] = removed;
        batch.ProfileSpreadMm[at] = Spread(i);
        batch.OldSurfaceChloride[at] = points.SurfaceChloride[i];
        batch.SurfaceChloride[at] = points.SurfaceChloride[i];
        batch.OldDiffusion[at] = points.DiffusionMm2PerYr[i];
        batch.LayerDiffusion[at] =
            layerDiffusion?.Quantile(
                PointDistribution.StandardNormalCumulative(points.MaterialScore[i])
            )
            ?? points.DiffusionMm2PerYr[i];
    }
}
