using DeckLife.Population;

namespace DeckLife.Projection;

/// <summary>What an intervention makes of the cohorts: the damaged are repaired, the undercut renewed, the rest keep their salt and their clock.</summary>
/// <remarks>
/// A place repaired again is taken to lie over concrete as salty as if it had not been repaired before, a place at which a second
/// overlay cracks over concrete as if the first had not: both on the safe side, and both keep the number of columns to solve small.
/// </remarks>
internal sealed class CohortSplitter
{
    /// <summary>Share of a point below which a repaired part is not followed further: a numerical choice, far below the scatter that the points leave.</summary>
    private const double LeastShare = 1e-6;

    /// <summary>Share of the deck below which a cohort is not followed further: a numerical choice, ten thousand of them being one part in ten thousand.</summary>
    private const double LeastCohort = 1e-8;

    // A numerical choice: a quarter is then 64 points or more.
    private const int LeastForQuarter = 256;

    private readonly Deck deck;
    private readonly AreaPoints points;
    private readonly CohortStates states;
    private readonly ColumnSolver columns;
    private readonly IReadOnlyList<WorkAtPoints> works;
    private readonly Dictionary<(int, int), Column> made = [];
    private readonly int followed;
    private bool isCovered;

    /// <summary>Puts the pieces together.</summary>
    public CohortSplitter(
        Deck deck,
        AreaPoints points,
        CohortStates states,
        ColumnSolver columns,
        IReadOnlyList<WorkAtPoints> works
    )
    {
        this.deck = deck;
        this.points = points;
        this.states = states;
        this.columns = columns;
        this.works = works;
        // Repaired parts are a few per cent of the deck: a quarter of the points, itself a point set of low discrepancy, stands for them.
        followed = points.Count >= LeastForQuarter ? points.Count / 4 : points.Count;
    }

    /// <summary>Whether the rim around repairs is followed with its own rate.</summary>
    public bool CountsHalo { get; init; } = true;

    private double FollowedWeight => (double)points.Count / followed;

    /// <summary>The whole deck, nothing done to it yet.</summary>
    public List<Cohort> Untouched()
    {
        var first = columns.FirstSolved(-1);
        var which = Enumerable
            .Range(0, points.Count)
            .Where(i => !works.Take(first + 1).Any(w => w.IsUndercut[i]))
            .ToArray();
        var all = Enumerable.Range(0, points.Count).ToArray();
        var ones = new double[points.Count];
        Array.Fill(ones, 1);
        var column = columns.Solve(-1, -1, which);
        made.Add((-1, -1), column);
        return
        [
            new(
                (-1, -1),
                column,
                all,
                new double[points.Count],
                ones,
                1,
                false,
                double.NegativeInfinity,
                CorrosionClock.Plain,
                false
            ),
        ];
    }

    /// <summary>Takes the cohorts through an intervention.</summary>
    /// <param name="cohorts">The cohorts before.</param>
    /// <param name="k">The intervention.</param>
    /// <param name="quantities">Receives what is repaired and undercut.</param>
    /// <returns>The cohorts after.</returns>
    public List<Cohort> Split(List<Cohort> cohorts, int k, InterventionDraw quantities)
    {
        var work = works[k];
        var drafts = new List<CohortDraft>();
        foreach (var cohort in cohorts)
        {
            SplitOne(cohort, k, drafts, quantities);
        }

        quantities.Repaired /= points.Count;
        quantities.NewlyRepaired /= points.Count;
        quantities.Undercut /= points.Count;
        quantities.RemovedByPotential /= points.Count;
        quantities.ExtraRemovalMm /= points.Count;
        var renewed = Math.Min(
            1,
            quantities.Repaired + quantities.Undercut + quantities.RemovedByPotential
        );
        isCovered |= work.Step.Covers;
        var rate = isCovered ? deck.CorrosionRateUnderOverlay : 1;
        var rim = CountsHalo && deck.Halo is { } halo ? RimShare(halo.AreaRatio, renewed) : 0;
        quantities.RimFraction = rim * (1 - renewed);
        var parts = drafts
            .SelectMany(d => Rims(d, work.Work.AtYr, rate, rim))
            .SelectMany(d => Opened(d, k))
            .Where(d => d.Mass > LeastCohort * points.Count)
            .ToArray();
        foreach (var group in parts.GroupBy(d => d.Key))
        {
            if (!made.ContainsKey(group.Key))
            {
                var which = group.SelectMany(d => d.Points).Distinct().Order().ToArray();
                made.Add(group.Key, columns.Solve(group.Key.RenewedAt, group.Key.OpenAt, which));
            }
        }

        return
        [
            .. parts
                .OrderBy(d => d.Key)
                .Select(d => new Cohort(
                    d.Key,
                    made[d.Key],
                    d.Points,
                    d.Lower,
                    d.Upper,
                    d.Weight,
                    d.IsThinned,
                    d.BornYr,
                    d.Clock,
                    !work.Step.Covers && (d.IsRenewed || d.IsPatched)
                )),
        ];
    }

    private static double RimShare(double ratio, double renewed) =>
        renewed <= 0 ? 0
        : renewed >= 1 ? 1
        : Math.Min(1, ratio * renewed / (1 - renewed));

    private void SplitOne(
        Cohort cohort,
        int k,
        List<CohortDraft> drafts,
        InterventionDraw quantities
    )
    {
        var work = works[k];
        var at = work.Work.AtYr;
        var count = cohort.Points.Length;
        var damaged = new double[points.Count];
        var active = new double[points.Count];
        if (work.Step.RepairsDamage)
        {
            states.DamagedShares(cohort, at, damaged);
        }

        var limit = work.Step.HalfCellLimitMv;
        if (limit is not null)
        {
            cohort.Column.Shares(at, active);
        }

        var kept = new CohortDraft(cohort);
        var passive = new CohortDraft(cohort);
        var repaired = new CohortDraft(cohort, (k, -1), at);
        var undercut = new CohortDraft(cohort, (k, -1), at);
        var beyondActive = new CohortDraft(cohort, (k, -1), at);
        var beyondPassive = new CohortDraft(cohort, (k, -1), at);
        for (var e = 0; e < count; e++)
        {
            var i = cohort.Points[e];
            double low = cohort.Lower[e],
                high = cohort.Upper[e];
            var done = work.Step.RepairsDamage ? Math.Clamp(damaged[i], low, high) : low;
            var extra = cohort.Weight * (work.RenewedMm[i] - work.DepthMm[i]);
            quantities.Repaired += cohort.Weight * (done - low);
            quantities.NewlyRepaired += cohort.IsPatched ? 0 : cohort.Weight * (done - low);
            if (work.IsUndercut[i])
            {
                quantities.Undercut += cohort.Weight * (high - done);
                quantities.ExtraRemovalMm += extra * (high - low);
                undercut.Add(i, low, high, 0);
                continue;
            }

            quantities.ExtraRemovalMm += extra * (done - low);
            repaired.Add(i, low, done, LeastShare);
            if (limit is not { } potential)
            {
                kept.Add(i, done, high, 0);
                continue;
            }

            var begun = Math.Clamp(active[i], done, high);
            kept.Add(i, done, begun, 0);
            passive.Add(i, begun, high, 0);
            beyondActive.Add(i, done, begun, LeastShare);
            beyondPassive.Add(i, begun, high, LeastShare);
            var share =
                deck.Surveys.ActiveShareBeyond(potential) * (begun - done)
                + deck.Surveys.PassiveShareBeyond(potential) * (high - begun);
            quantities.RemovedByPotential += cohort.Weight * share;
            quantities.ExtraRemovalMm += extra * share;
        }

        if (limit is { } value)
        {
            var (ofActive, ofPassive) = (
                deck.Surveys.ActiveShareBeyond(value),
                deck.Surveys.PassiveShareBeyond(value)
            );
            kept.Weight *= 1 - ofActive;
            passive.Weight *= 1 - ofPassive;
            beyondActive.Weight *= ofActive;
            beyondPassive.Weight *= ofPassive;
            drafts.Add(passive);
            drafts.Add(Thinned(beyondActive));
            drafts.Add(Thinned(beyondPassive));
        }

        drafts.Add(kept);
        drafts.Add(undercut);
        drafts.Add(Thinned(repaired));
    }

    private CohortDraft Thinned(CohortDraft draft)
    {
        if (draft.IsThinned)
        {
            return draft;
        }

        draft.Thin(followed);
        draft.Weight *= FollowedWeight;
        draft.IsThinned = true;
        return draft;
    }

    // Renewed bars lie in new material: the rim is made of what stays beside them.
    private IEnumerable<CohortDraft> Rims(CohortDraft draft, double atYr, double rate, double rim)
    {
        if (draft.IsRenewed || rim <= 0 || draft.IsRim)
        {
            draft.Clock = draft.Clock.From(
                atYr,
                rate * (draft.IsRim ? deck.Halo!.RateFactor : 1),
                draft.IsRim
            );
            yield return draft;
            yield break;
        }

        var beside = draft.Copy();
        beside.IsRim = true;
        beside.Weight *= rim;
        beside.Clock = beside.Clock.From(atYr, rate * deck.Halo!.RateFactor, true);
        yield return beside;
        if (rim < 1)
        {
            draft.Weight *= 1 - rim;
            draft.Clock = draft.Clock.From(atYr, rate, false);
            yield return draft;
        }
    }

    private IEnumerable<CohortDraft> Opened(CohortDraft draft, int k)
    {
        var step = works[k].Step;
        var open = step.Protection is { Kind: Rehabilitation.ProtectionKind.Barrier } barrier
            ? barrier.PassingFraction
            : step.Material?.CrackedFraction ?? 0;
        if (open <= 0)
        {
            yield return draft;
            yield break;
        }

        var cracked = Thinned(draft.Copy());
        cracked.Weight *= open;
        cracked.Key = (draft.Key.RenewedAt, k);
        yield return cracked;
        if (open < 1)
        {
            draft.Weight *= 1 - open;
            yield return draft;
        }
    }
}
