using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Decisions;
using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Mapping;
using DeckLife.Materials;
using DeckLife.Population;
using DeckLife.Propagation;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;

namespace DeckLife.Projection;

/// <summary>Projects a deck under each of its strategies.</summary>
public static class DeckProjector
{
    // Ten of these lie beyond the 5th and ten beyond the 95th percentile.
    private const int FewestForEndsOfBand = 200;

    /// <summary>Projects a deck: draws of what is not known, each with the same points for every strategy.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="fit">What its cores say.</param>
    /// <param name="cores">The fit of each core, handed on to the result.</param>
    /// <param name="progress">Told the share that is done, 0 to 1; absent: nobody.</param>
    /// <param name="cancellation">Ends the projection early.</param>
    /// <returns>The projection: the same bytes for the same deck, fit and seed, whatever the number of threads.</returns>
    /// <exception cref="ProjectionRefusedException">The deck can't be projected; every reason is given.</exception>
    /// <exception cref="OperationCanceledException">It was ended early.</exception>
    public static DeckProjection Project(
        Deck deck,
        DeckFit fit,
        ImmutableArray<ProfileFit> cores,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default
    ) => Project(deck, fit, new() { Cores = cores, Progress = progress }, cancellation);

    /// <summary>Projects without the record of what the surveys changed, which costs a projection of its own.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="fit">What its cores say.</param>
    /// <param name="cancellation">Ends it early.</param>
    /// <param name="solver">That of a projection which differs from this one in nothing that moves salt; absent: its own.</param>
    internal static DeckProjection ProjectWithoutRecord(
        Deck deck,
        DeckFit fit,
        CancellationToken cancellation,
        ISectionSolver? solver = null
    ) =>
        Project(
            deck,
            fit,
            new()
            {
                Solver = solver,
                KeepsRecord = false,
                Effort = LearningEffort.OfAnExploration,
            },
            cancellation
        );

    /// <summary>Projects a deck and keeps each draw: what a program of many decks adds up.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="fit">What its cores, or what is known of decks like it, say.</param>
    /// <param name="cancellation">Ends it early.</param>
    /// <returns>The paths; the same bytes for the same deck, fit and seed, whatever the number of threads.</returns>
    /// <exception cref="ProjectionRefusedException">The deck can't be projected; every reason is given.</exception>
    /// <exception cref="OperationCanceledException">It was ended early.</exception>
    public static DeckPaths Paths(Deck deck, DeckFit fit, CancellationToken cancellation = default)
    {
        var kept = ImmutableArray<StrategyPaths>.Empty;
        var projection = Project(
            deck,
            fit,
            new()
            {
                KeepsRecord = false,
                Effort = LearningEffort.OfANetwork(deck.Analysis.Draws),
                Receive = (plans, results) =>
                    kept = [
                        .. plans.Select(
                            (p, s) =>
                                StrategyPaths.Of(
                                    p.Strategy,
                                    results[s],
                                    draw => StrategyCosts.OfWorks(deck, p, draw)
                                )
                        ),
                    ],
            },
            cancellation
        );
        return new(kept, projection.Refused, projection.Flags);
    }

    /// <summary>Looks whether a deck can be projected, before anything is fitted.</summary>
    /// <param name="deck">The deck.</param>
    /// <exception cref="ProjectionRefusedException">It can't; every reason is given.</exception>
    public static void Check(Deck deck)
    {
        ArgumentNullException.ThrowIfNull(deck);
        _ = CheckedCover(deck);
    }

    /// <summary>The middle of what is known about a deck.</summary>
    internal static KnowledgeDraw Centre(Deck deck, DeckFit fit) =>
        new KnowledgeSampler(
            deck,
            fit,
            CheckedCover(deck),
            deck.Analysis.Seed,
            deck.Analysis.Draws
        ).Centre();

    /// <summary>The solver of a projection: by tables where enough sections are asked for.</summary>
    internal static ISectionSolver SolverFor(Deck deck, DeckFit fit, CoverSurvey cover) =>
        SectionDomain.Of(deck, fit, cover) is { } domain
            ? new TabulatedSectionSolver(
                domain,
                new BatchedSectionSolver(),
                BatchedSectionSolver.OfNodes()
            )
            : new BatchedSectionSolver();

    /// <summary>Projects a deck as asked.</summary>
    internal static DeckProjection Project(
        Deck deck,
        DeckFit fit,
        ProjectionRequest request,
        CancellationToken cancellation
    )
    {
        ArgumentNullException.ThrowIfNull(deck);
        ArgumentNullException.ThrowIfNull(fit);
        var cover = CheckedCover(deck);
        var solver = request.Solver ?? SolverFor(deck, fit, cover);
        var settings = deck.Analysis;
        var clock = new ExposureClock(
            deck.ExposureAge.Years,
            deck.ConcreteAgeAtFirstSalt.Years,
            deck.AgeingExponent
        );
        var (sampler, evidence, learned) = DeckKnowledge.Learn(
            deck,
            fit,
            cover,
            clock,
            request.Effort,
            cancellation
        );
        var (plans, refused) = Plan(deck, clock, sampler.Centre(), settings);
        var run = new ProjectionRun(deck, clock, solver, sampler, request.Progress, cancellation);
        var map = request.KeepsRecord
            ? DeckMapper.Draw(
                deck,
                sampler,
                clock,
                cover,
                evidence,
                learned,
                request.Cores,
                fit.LabErrorSd.Value,
                cancellation
            )
            : null;
        var keepsHindcast = request.KeepsRecord && learned.Evidence is not null;
        // The untouched deck goes along for the record: before an intervention every strategy shares its numbers.
        StrategyPlan[] withoutRim = deck.Halo is null
            ? []
            :
            [
                .. plans
                    .Where(p => p.Interventions.Any(i => i.RepairsDamage))
                    .Select(p => p with { CountsHalo = false }),
            ];
        var results = run.Follow(
            [
                .. plans,
                .. withoutRim,
                .. keepsHindcast ? [Hindcasts.Nothing] : Array.Empty<StrategyPlan>(),
            ],
            learned.Used
        );
        var rimless = withoutRim
            .Select((p, n) => (p.Strategy.Name, Draws: results[plans.Length + n]))
            .ToDictionary(p => p.Name, p => p.Draws);
        request.Receive?.Invoke(plans, results[..plans.Length]);
        var followed = new Followed(plans, results[..plans.Length], rimless, refused)
        {
            Hindcast = keepsHindcast ? Hindcasts.Make(run, learned, results[^1]) : null,
            Drawn = [.. learned.Used.Select(sampler.Draw)],
            OfPoints = request.KeepsRecord
                ? NumericalNoise.OfPoints(
                    deck,
                    plans,
                    clock,
                    solver,
                    sampler,
                    learned.Used,
                    cancellation
                )
                : null,
            OfSolver = request.KeepsRecord
                ? NumericalNoise.OfSolver(
                    deck,
                    plans,
                    clock,
                    solver,
                    sampler,
                    learned.Used,
                    cancellation
                )
                : null,
        };
        return Assemble(deck, fit, request, cover, learned, followed) with { Map = map };
    }

    private static DeckProjection Assemble(
        Deck deck,
        DeckFit fit,
        ProjectionRequest request,
        CoverSurvey cover,
        LearnedDraws learned,
        Followed followed
    )
    {
        using var phase = PhaseTrace.Begin("sum up");
        var (plans, results, rimless, refused) = followed;
        var costs = new StrategyCosts(deck, plans, results.Length == 0 ? 0 : results[0].Length);
        var strategies = new List<StrategyProjection>();
        var outcomes = ImmutableArray.CreateBuilder<StrategyOutcomes>();
        for (var s = 0; s < plans.Length; s++)
        {
            var lives = new StrategyLives(deck, results[s]);
            costs.Add(s, results[s], lives.First);
            var projection = StrategySummary.Make(deck, plans[s], results[s], lives);
            strategies.Add(
                rimless.TryGetValue(projection.Strategy.Name, out var others)
                    ? projection with
                    {
                        DeckBeneathWithoutRim = StrategySummary.Beneath(
                            deck,
                            new StrategyLives(deck, others)
                        ),
                    }
                    : projection
            );
            outcomes.Add(
                new()
                {
                    Name = plans[s].Strategy.Name,
                    LivesYr = [.. lives.First],
                    PresentValues = costs.PresentValues(s),
                    FirstCosts = costs.FirstCosts(s),
                    Damaged = DrawRecorder.Damaged(results[s]),
                    VarianceOfYearsByPoints = followed.OfPoints?.OfYears(s, lives.First),
                    VarianceOfPresentValueByPoints = followed.OfPoints?.OfPresentValues(
                        s,
                        costs.PresentValues(s)
                    ),
                    VarianceOfYearsBySolver = followed.OfSolver?.OfYears(s, lives.First),
                    VarianceOfPresentValueBySolver = followed.OfSolver?.OfPresentValues(
                        s,
                        costs.PresentValues(s)
                    ),
                }
            );
        }

        var flags = ImmutableArray.CreateBuilder<Diagnostic>();
        if (fit.Draws.IsEmpty)
        {
            flags.Add(DiagnosticCatalogue.NoPosteriorDraws.With());
        }

        flags.AddRange(costs.Flags);
        flags.AddRange(MixFlags.For(deck));
        flags.AddRange(followed.Hindcast is null ? [] : Hindcasts.Flags(learned));
        // A network asks for few draws a deck on purpose: its sums hold many decks.
        if (request.KeepsRecord && deck.Analysis.Draws < FewestForEndsOfBand)
        {
            flags.Add(DiagnosticCatalogue.FewDraws.With(deck.Analysis.Draws));
        }

        return new()
        {
            Deck = deck,
            Cores = request.Cores,
            Fit = fit,
            Strategies = [.. strategies.Select((p, s) => costs.Complete(s, p))],
            Assumptions = ProjectionNotes.Assumptions(deck, cover, followed.Hindcast),
            Cautions = ProjectionNotes.Cautions(strategies.Any(p => p.StructuralFlags.Any())),
            Refused = refused,
            Settings = deck.Analysis,
            Hindcast = followed.Hindcast,
            Draws = new()
            {
                Indices = learned.Used,
                Knowledge = followed.Drawn,
                Inputs = [.. DrawRecorder.Inputs(deck, followed.Drawn), .. costs.Inputs()],
                Strategies = outcomes.ToImmutable(),
            },
            Flags = flags.ToImmutable(),
        };
    }

    internal static (StrategyPlan[] Plans, ImmutableArray<RefusedStrategy> Refused) Plan(
        Deck deck,
        ExposureClock clock,
        KnowledgeDraw centre,
        AnalysisSettings settings
    )
    {
        var planner = new StrategyPlanner(
            deck,
            centre,
            AreaPoints.From(
                centre.Population,
                // A numerical choice: planned depths are rounded up to 5 mm, and with 512 points those of the demonstration deck are the same.
                UnitPoints.ForArea(settings.Seed, -1, 2048, AreaPoints.Dimensions)
            ),
            clock
        );
        var plans = new List<StrategyPlan>();
        var refused = ImmutableArray.CreateBuilder<RefusedStrategy>();
        foreach (var strategy in deck.Strategies)
        {
            if (planner.Plan(strategy, out var refusal) is { } plan)
            {
                plans.Add(plan);
            }
            else
            {
                refused.Add(new(strategy, refusal!));
            }
        }

        return ([.. plans], refused.ToImmutable());
    }

    internal static CoverSurvey CheckedCover(Deck deck)
    {
        var problems = ImmutableArray.CreateBuilder<Diagnostic>();
        void Need(bool holds, string what, object value, string allowed)
        {
            if (!holds)
            {
                problems.Add(DiagnosticCatalogue.ProjectionInput.With(what, value, allowed));
            }
        }

        var settings = deck.Analysis;
        Need(deck.Horizon.Years > 0, "the horizon [yr]", deck.Horizon.Years, "it must be positive");
        Need(
            deck.ExposureAge.Years > 0,
            "the exposure at the survey [yr]",
            deck.ExposureAge.Years,
            "it must be positive"
        );
        Need(
            deck.DamageLimit is > 0 and < 1,
            "the damage limit",
            deck.DamageLimit,
            "it lies between 0 and 1"
        );
        Need(settings.Draws >= 20, "the number of draws", settings.Draws, "at least 20 are needed");
        Need(
            settings.Points >= 16,
            "the number of points",
            settings.Points,
            "at least 16 are needed"
        );
        Need(
            deck.AgeingExponent is >= 0 and < 1,
            "the ageing exponent",
            deck.AgeingExponent,
            "it lies between 0 and 1, 1 not included"
        );
        Need(
            deck.CorrosionRateUnderOverlay is > 0 and <= 10,
            "the corrosion rate under an overlay, relative to before",
            deck.CorrosionRateUnderOverlay,
            "it lies above 0 and at most at 10"
        );
        Need(
            deck.Propagation.Model == PropagationModel.StatedPeriod
                || deck.Propagation.CorrosionRate is { Mean: > 0 },
            "the corrosion rate of the propagation model [uA/cm2]",
            deck.Propagation.CorrosionRate?.Mean.ToString(CultureInfo.InvariantCulture) ?? "absent",
            "this model needs one above 0"
        );
        Need(
            deck.Propagation.Model != PropagationModel.CriticalLoss
                || deck.Propagation.CriticalLossUm > 0,
            "the critical loss of the propagation model [um]",
            deck.Propagation.CriticalLossUm?.ToString(CultureInfo.InvariantCulture) ?? "absent",
            "this model needs one above 0"
        );
        var cover =
            CoverSurvey.Of(deck)
            ?? (
                deck.StatedCoverMm is { } stated
                    ? new(0, stated.Mean, stated.Mean * stated.CoefficientOfVariation)
                    : null
            );
        if (cover is null)
        {
            problems.Add(
                DiagnosticCatalogue.NoCover.With(deck.Covers.Length, CoverSurvey.FewestReadings)
            );
        }

        if (
            deck.Threshold.Extraction != deck.Extraction
            && deck.Threshold.Extraction != ChlorideExtraction.NotStated
            && deck.Extraction != ChlorideExtraction.NotStated
        )
        {
            problems.Add(
                DiagnosticCatalogue.ExtractionMismatch.With(
                    Words(deck.Threshold.Extraction),
                    Words(deck.Extraction)
                )
            );
        }

        return problems.Count == 0
            ? cover! with
            {
                MeanMm = cover!.MeanMm + SurveyedSection.Of(deck).CoverShiftMm,
            }
            : throw new ProjectionRefusedException(problems.ToImmutable());
    }

    private static string Words(ChlorideExtraction extraction) =>
        extraction == ChlorideExtraction.AcidSoluble ? "acid-soluble" : "water-soluble";

    private sealed record Followed(
        StrategyPlan[] Plans,
        StrategyDraw[][] Results,
        Dictionary<string, StrategyDraw[]> Rimless,
        ImmutableArray<RefusedStrategy> Refused
    )
    {
        public required SurveyHindcast? Hindcast { get; init; }

        public required ImmutableArray<KnowledgeDraw> Drawn { get; init; }

        public required NumericalNoise? OfPoints { get; init; }

        public required NumericalNoise? OfSolver { get; init; }
    }
}
