using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>Keeps the two counters apart: what is damaged now, and what was patched since the last full-width overlay.</summary>
/// <remarks>What the model calls damaged until the first repair includes what had been damaged and patched before the survey.</remarks>
internal sealed class PatchCount
{
    private readonly double before;
    private bool isRepaired;
    private double patches;

    /// <summary>Starts the count.</summary>
    /// <param name="patchedToday">Share of the area patched at the survey.</param>
    public PatchCount(double patchedToday)
    {
        before = patchedToday;
        patches = patchedToday;
    }

    /// <summary>Takes in an intervention.</summary>
    /// <param name="step">The intervention.</param>
    /// <param name="share">What the model calls damaged and is repaired.</param>
    /// <param name="unpatched">What of it had not been patched since the last full-width overlay.</param>
    /// <returns>What is repaired, without what had been before the survey.</returns>
    public double Repair(PlannedIntervention step, double share, double unpatched)
    {
        var repaired = 0.0;
        if (step.RepairsDamage)
        {
            repaired = isRepaired ? share : Math.Max(0, share - before);
            patches = Math.Min(
                1,
                patches + (isRepaired ? unpatched : Math.Max(0, unpatched - before))
            );
            isRepaired = true;
        }

        // A full-width overlay starts the count again.
        patches = step.Covers ? 0 : patches;
        return repaired;
    }

    /// <summary>Counts the times of one phase.</summary>
    /// <param name="grid">The times.</param>
    /// <param name="phase">The phase.</param>
    /// <param name="damaged">What the model calls damaged; left as what is damaged and not patched.</param>
    /// <param name="unpatched">What of that was not patched since the last full-width overlay.</param>
    /// <param name="both">Receives what is damaged or patched.</param>
    public void Apply(TimeGrid grid, int phase, double[] damaged, double[] unpatched, double[] both)
    {
        for (var j = 0; j < damaged.Length; j++)
        {
            if (grid.Phase[j] != phase)
            {
                continue;
            }

            if (isRepaired)
            {
                both[j] = Math.Min(1, Math.Max(damaged[j], unpatched[j] + patches));
            }
            else
            {
                both[j] = Math.Max(damaged[j], patches);
                damaged[j] = Math.Max(0, damaged[j] - before);
            }
        }
    }
}
