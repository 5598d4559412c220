namespace DeckLife.Projection;

/// <summary>Sums up what an intervention does over the points of one draw.</summary>
internal static class WorkQuantitiesAtPoints
{
    /// <summary>What the planned depths alone do.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="work">The intervention.</param>
    public static InterventionDraw Planned(Deck deck, WorkAtPoints work)
    {
        var step = work.Step;
        var result = new InterventionDraw
        {
            AtYr = work.Work.AtYr,
            ClassShares = new double[step.DepthsMm.Length],
            LeastRemainingMm = double.PositiveInfinity,
        };
        var count = work.DepthMm.Length;
        var share = 1.0 / count;
        var underBars = 0.0;
        for (var i = 0; i < count; i++)
        {
            var depth = work.DepthMm[i];
            var planned = step.Limit is null ? step.LeastDepthMm : step.DepthFor(work.NeededMm[i]);
            result.MeanRemovalMm += depth * share;
            result.MeanPlacedMm += work.LayerMm * share;
            result.Struck +=
                depth > 0 && work.BarBeforeMm[i] < depth + deck.RemovalTolerance.Millimetres
                    ? share
                    : 0;
            result.AboveLimit += work.NeededMm[i] > planned ? share : 0;
            result.ClassShares[step.DepthsMm.IndexOf(planned)] += share;
            underBars += (work.SectionBeforeMm[i] - work.RenewedMm[i]) * share;
            result.LeastRemainingMm = Math.Min(
                result.LeastRemainingMm,
                work.SectionBeforeMm[i] - depth
            );
        }

        result.RemainingUnderBarsMm = underBars;
        return result;
    }

    /// <summary>Adds what repairs and undercutting take off beyond the planned depths, and the load.</summary>
    /// <param name="work">The intervention.</param>
    /// <param name="stack">What lies on the deck.</param>
    /// <param name="quantities">What is known so far.</param>
    public static void Complete(WorkAtPoints work, LayerStack stack, InterventionDraw quantities)
    {
        quantities.MeanRemovalMm += quantities.ExtraRemovalMm;
        quantities.MeanPlacedMm += quantities.ExtraRemovalMm;
        stack.Apply(work);
        quantities.AddedKgPerM2 = stack.AddedKgPerM2;
    }
}
