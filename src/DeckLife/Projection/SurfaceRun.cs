using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>What stands on the concrete's surface in time: open to salt, sealed off, or let through in part.</summary>
internal static class SurfaceRun
{
    /// <summary>The changes, by date.</summary>
    /// <param name="works">What is done.</param>
    /// <param name="openAt">The intervention whose barrier leaks at the place; −1 for none.</param>
    /// <returns>When, whether no salt passes, and the share of the surface content that is left.</returns>
    public static List<(double AtYr, bool IsSealed, double Factor)> Of(
        IReadOnlyList<ScheduledWork> works,
        int openAt
    )
    {
        var changes = new List<(double AtYr, bool IsSealed, double Factor)>();
        for (var k = 0; k < works.Count; k++)
        {
            var step = works[k].Intervention;
            if (!step.ChangesSection)
            {
                continue;
            }

            if (step.Protection is not { } protection)
            {
                changes.Add((works[k].AtYr, false, 1));
                continue;
            }

            changes.Add(
                protection.Kind == ProtectionKind.Barrier
                    ? (works[k].AtYr, k != openAt, 1)
                    : (works[k].AtYr, false, protection.PassingFraction)
            );
            var next = double.PositiveInfinity;
            for (var later = k + 1; later < works.Count && double.IsInfinity(next); later++)
            {
                if (works[later].Intervention.ChangesSection)
                {
                    next = works[later].AtYr;
                }
            }

            if (works[k].ProtectionEndYr < next - WorkSchedule.ShortestGapYr)
            {
                changes.Add((works[k].ProtectionEndYr, false, 1));
            }
        }

        return changes;
    }
}
