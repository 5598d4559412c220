using System.Collections.Immutable;
using DeckLife.Population;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>Walks one place through a strategy.</summary>
internal sealed class TimelineWalk
{
    private readonly Deck deck;
    private readonly TimelinePlace place;
    private readonly ExposureClock clock;
    private readonly KnowledgeDraw draw;
    private readonly AreaPoints points;
    private readonly UntreatedArea untreated;
    private readonly ImmutableArray<TimelineRow>.Builder rows =
        ImmutableArray.CreateBuilder<TimelineRow>();
    private readonly ImmutableArray<TimelineEvent>.Builder events =
        ImmutableArray.CreateBuilder<TimelineEvent>();
    private readonly ImmutableArray<TimelineFate>.Builder fates =
        ImmutableArray.CreateBuilder<TimelineFate>();

    /// <summary>Prepares the place.</summary>
    public TimelineWalk(Deck deck, TimelinePlace place)
    {
        this.deck = deck;
        this.place = place;
        clock = new(deck.ExposureAge.Years, deck.ConcreteAgeAtFirstSalt.Years, deck.AgeingExponent);
        var surface = place.SurfaceChloride.KilogramsPerCubicMetre;
        var diffusion = place.Diffusion.SquareMillimetresPerYear;
        draw = new(
            -1,
            new()
            {
                Cover = PointDistribution.NormalAboveZero(Cover, 0),
                MeanLnSurfaceChloride = Math.Log(surface),
                SdLnSurfaceChloride = 0,
                MeanLnDiffusionCoefficient = Math.Log(diffusion),
                SdLnDiffusionCoefficient = 0,
                BackgroundKgPerM3 = place.Background.KilogramsPerCubicMetre,
                Soffit = SoffitFace.Of(deck, 0),
                Threshold = PointDistribution.WithinDeck(UncertainValue.Exactly(Threshold), 0, 0),
                PropagationYr = PointDistribution.WithinDeck(
                    UncertainValue.Exactly(Math.Max(Propagation, 1e-9)),
                    0,
                    0
                ),
            },
            0,
            [.. deck.Materials.Select(_ => 0.0)],
            [.. deck.Materials.Select(_ => 0.5)]
        );
        points = new([Cover], [surface], [diffusion], [Propagation], [0.0]);
        untreated = new(
            points,
            draw.Population.Threshold,
            draw.Population.BackgroundKgPerM3,
            clock,
            draw.Population.Soffit
        );
    }

    private double Cover => place.Cover.Millimetres;

    private double Threshold => place.Threshold.KilogramsPerCubicMetre;

    private double Propagation => place.Propagation.Years;

    private double FirstSalt => -deck.ExposureAge.Years;

    /// <summary>Follows a strategy.</summary>
    public PointTimeline Follow(Strategy strategy)
    {
        var plan =
            new StrategyPlanner(deck, draw, points, clock).Plan(strategy, out var refusal)
            ?? throw new ProjectionRefusedException([refusal!]);
        var solver = new BatchedSectionSolver();
        var works = new WorkPlanner(deck, clock, solver, draw, points, untreated).Depths(
            WorkSchedule.For(plan, draw, deck.Horizon.Years).Works
        );
        var columns = new ColumnSolver(
            deck,
            clock,
            solver,
            ProjectionRun.SolverSteps,
            draw,
            points,
            untreated,
            works
        );
        var column = columns.Solve(-1, -1, [0]);
        var corrosion = CorrosionClock.Plain;
        var born = FirstSalt;
        var from = FirstSalt;
        var isCovered = false;
        for (var k = 0; k <= works.Count; k++)
        {
            var to = k < works.Count ? works[k].Work.AtYr : deck.Horizon.Years;
            var initiation = Initiation(column, born, to);
            var damage = Damage(corrosion, initiation, to);
            Walk(column, from, to, k == 0 ? Cover : works[k - 1].BarAfterMm[0], initiation, damage);
            if (k == works.Count)
            {
                fates.Add(new(born, initiation, damage));
                break;
            }

            var step = works[k].Step;
            var repaired = step.RepairsDamage && damage is not null;
            isCovered |= step.Covers;
            var before = column.Content(0, Cover, to, k - 1);
            if (repaired || works[k].IsUndercut[0])
            {
                fates.Add(new(born, initiation, damage));
                column = columns.Solve(k, -1, [0]);
                corrosion = CorrosionClock.Plain;
                born = to;
            }

            corrosion = corrosion.From(
                to,
                isCovered ? deck.CorrosionRateUnderOverlay : 1,
                isRim: false
            );
            var renewed = repaired || works[k].IsUndercut[0];
            events.Add(
                new()
                {
                    TimeYr = to,
                    RemovedMm = renewed ? works[k].RenewedMm[0] : works[k].DepthMm[0],
                    PlacedMm = renewed ? works[k].RenewedLayerMm(0) : works[k].LayerMm,
                    Material = string.Join(
                        ", ",
                        new[] { step.Material?.Name, step.Protection?.Name }.OfType<string>()
                    )
                        is { Length: > 0 } names
                        ? names
                        : null,
                    IsRepaired = repaired,
                    IsUndercut = works[k].IsUndercut[0],
                    ContentBeforeKgPerM3 = before,
                    ContentAfterKgPerM3 = column.Content(0, Cover, to, k),
                }
            );
            from = to;
        }

        return PointTimeline.Made(
            strategy,
            place,
            rows.ToImmutable(),
            events.ToImmutable(),
            fates.ToImmutable()
        );

        void Walk(
            Column of,
            double start,
            double end,
            double coverMm,
            double? initiation,
            double? damage
        )
        {
            var phase = rows.Count == 0 ? -1 : events.Count - 1;
            var times = new List<double> { start };
            for (var year = Math.Floor(start) + 1; year < end; year++)
            {
                times.Add(year);
            }

            times.Add(end);
            foreach (var time in times)
            {
                rows.Add(
                    new(
                        time,
                        of.Content(0, Cover, time, phase),
                        Math.Max(0, of.Highest(0, Cover, Math.Min(time, Before(end)))),
                        coverMm,
                        damage <= time ? PointCondition.Damaged
                            : initiation <= time ? PointCondition.Active
                            : PointCondition.Passive
                    )
                );
            }
        }
    }

    // Just before an intervention, what comes after it does not count.
    private static double Before(double time) => Math.BitDecrement(time);

    private double? Initiation(Column column, double born, double to)
    {
        var last = Before(to);
        if (last < born || column.Highest(0, Cover, last) < Threshold)
        {
            return null;
        }

        double low = born,
            high = last;
        if (column.Highest(0, Cover, low) >= Threshold)
        {
            return low;
        }

        while (high - low > 1e-9 * Math.Max(1, Math.Abs(high)))
        {
            var middle = 0.5 * (low + high);
            if (column.Highest(0, Cover, middle) < Threshold)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return high;
    }

    private double? Damage(CorrosionClock corrosion, double? initiation, double to)
    {
        if (initiation is not { } begun || corrosion.StartOfDamage(to, Propagation) < begun)
        {
            return null;
        }

        double low = begun,
            high = to;
        while (high - low > 1e-9 * Math.Max(1, Math.Abs(high)))
        {
            var middle = 0.5 * (low + high);
            if (corrosion.StartOfDamage(middle, Propagation) < begun)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return high;
    }
}
