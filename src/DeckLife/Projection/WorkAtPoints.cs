using DeckLife.Population;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>What one intervention does at each point: depth, undercut or not, where the bar lies then.</summary>
/// <remarks>
/// Repaired places are filled to the grade of what is around them, so that depth and cover of a point do not depend on whether
/// it had been repaired before. Depths count from the concrete's surface: what thin protection lies on it comes off first.
/// </remarks>
internal sealed class WorkAtPoints
{
    private WorkAtPoints(ScheduledWork work, double[] neededMm)
    {
        Work = work;
        NeededMm = neededMm;
        var count = neededMm.Length;
        DepthMm = new double[count];
        RenewedMm = new double[count];
        IsUndercut = new bool[count];
        BarBeforeMm = new double[count];
        SectionBeforeMm = new double[count];
        BarAfterMm = new double[count];
        SectionAfterMm = new double[count];
    }

    /// <summary>The intervention with its date.</summary>
    public ScheduledWork Work { get; }

    /// <summary>The intervention.</summary>
    public PlannedIntervention Step => Work.Intervention;

    /// <summary>Depth below which the content lies under the rule's limit [mm]; 0 without such a rule.</summary>
    public double[] NeededMm { get; }

    /// <summary>Planned depth of removal [mm].</summary>
    public double[] DepthMm { get; }

    /// <summary>Depth of removal where the concrete comes out to under the bar [mm].</summary>
    public double[] RenewedMm { get; }

    /// <summary>Whether the planned depth exposes more than half of the bar, so that removal goes on to under it.</summary>
    public bool[] IsUndercut { get; }

    /// <summary>Cover before [mm].</summary>
    public double[] BarBeforeMm { get; }

    /// <summary>Thickness of concrete and overlays before [mm].</summary>
    public double[] SectionBeforeMm { get; }

    /// <summary>Cover after [mm]; below 0 where the bar is left exposed.</summary>
    public double[] BarAfterMm { get; }

    /// <summary>Thickness of concrete and overlays after [mm].</summary>
    public double[] SectionAfterMm { get; }

    /// <summary>Thickness of the layer over the planned depth [mm].</summary>
    public double LayerMm => Step.Material is null ? 0 : Step.ThicknessMm;

    /// <summary>Thickness of the layer where the concrete came out to under the bar [mm].</summary>
    public double RenewedLayerMm(int point) => LayerMm + RenewedMm[point] - DepthMm[point];

    /// <summary>Decides the depths.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="points">The points.</param>
    /// <param name="work">The intervention with its date.</param>
    /// <param name="before">The intervention before; absent: the deck of the survey.</param>
    /// <param name="neededMm">Depth that the rule's limit asks for at each point [mm].</param>
    public static WorkAtPoints Of(
        Deck deck,
        AreaPoints points,
        ScheduledWork work,
        WorkAtPoints? before,
        double[] neededMm
    )
    {
        var result = new WorkAtPoints(work, neededMm);
        var diameter = deck.TopBarDiameter.Millimetres;
        var surface = SurveyedSection.Of(deck);
        for (var i = 0; i < points.Count; i++)
        {
            var bar = before?.BarAfterMm[i] ?? points.CoverMm[i];
            var section = before?.SectionAfterMm[i] ?? surface.ThicknessMm;
            var most = section - StrategyPlanner.LeastRemainingMm;
            var planned = work.Intervention.Limit is null
                ? work.Intervention.LeastDepthMm
                : work.Intervention.DepthFor(neededMm[i]);
            // What lies above the profile's own surface comes off first.
            var depth = Math.Min(
                before is null ? Math.Max(0, planned - surface.AboveMm) : planned,
                most
            );
            result.BarBeforeMm[i] = bar;
            result.SectionBeforeMm[i] = section;
            result.DepthMm[i] = depth;
            result.IsUndercut[i] = depth > 0 && BarRule.IsUndercut(depth, bar, diameter);
            result.RenewedMm[i] = Math.Min(BarRule.UndercutDepthMm(depth, bar, diameter), most);
            result.BarAfterMm[i] = bar + result.LayerMm - depth;
            result.SectionAfterMm[i] = section + result.LayerMm - depth;
        }

        return result;
    }
}
