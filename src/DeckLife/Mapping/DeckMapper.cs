using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Numerics.Sampling;
using DeckLife.Population;
using DeckLife.Surveys;

namespace DeckLife.Mapping;

/// <summary>Draws the map of where: spreads the deck's shares over its plan by what the surveys saw at each place.</summary>
/// <remarks>
/// Each place has a severity, standard normal over the deck; it is active or damaged where the severity exceeds what leaves the draw's share above
/// it. The severity is the cover's part (kriged from the readings), a smooth field with exponential correlation, and local scatter; where the deck
/// states zones, a part of the smooth field goes with the zone whatever the distance. Cores are readings of the smooth field with the weight that the
/// model gives Cs and D, and an error. The field's length, local share and zone share are weighed by the evidence of surveys and cores on a grid,
/// none of them chosen. Given a draw and these, the field is found by Laplace's approximation.
/// Source: clipped Gaussian fields of geostatistics, in the form of Diggle and Ribeiro, Model-based Geostatistics (2007); Rasmussen and Williams,
/// Gaussian Processes for Machine Learning (2006), ch. 3 (memory).
/// </remarks>
internal static class DeckMapper
{
    // Numerical choices: the field's work grows as the cube of the cells, and 256 of them make cells of 1.5 m on a deck of 48 by 12 m, the spacing of
    // usual half-cell grids; finer than 0.9 m no survey sees. The draws are middles of equal parts of all used ones, which hold the
    // mean of them better than as many taken at random. Steps of 7 through the field's candidates, which share no factor with 24, pair each part of the draws
    // with all of them. Six lengths, four local shares and two zone shares: the evidence is flat between neighbours.
    private const int MostCells = 256;
    private const double LeastSideM = 0.9;
    private const int Draws = 24;
    private const int Spread = 7;
    private const int Nodes = 16;
    private const int Lengths = 6;

    private static readonly double[] LocalShares = [0.15, 0.4, 0.65, 0.9];
    private static readonly double[] ZoneShares = [0, 0.5];
    private static readonly double[] Later = [10, 20, 30];

    /// <summary>Draws the map.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="sampler">Where the draws come from.</param>
    /// <param name="clock">How diffusion adds up.</param>
    /// <param name="cover">What the cover readings say.</param>
    /// <param name="evidence">What the other surveys found.</param>
    /// <param name="learned">The draws that the projection uses.</param>
    /// <param name="cores">The fits of the deck's cores, those with positions being readings of their places.</param>
    /// <param name="labErrorSd">The laboratory's error by the deck fit [kg/m³]; 0: as each core says.</param>
    /// <param name="cancellation">Ends it early.</param>
    /// <returns>The map; nothing where no survey has positions, or where the draws disagree with the surveys too much to be learned.</returns>
    public static DeckMap? Draw(
        Deck deck,
        KnowledgeSampler sampler,
        ExposureClock clock,
        CoverSurvey cover,
        SurveyEvidence evidence,
        LearnedDraws learned,
        ImmutableArray<ProfileFit> cores,
        double labErrorSd,
        CancellationToken cancellation = default
    )
    {
        if (
            !deck.Surveys.Learn
            || (!evidence.IsEmpty && !learned.IsLearned)
            || DeckPlan.Of(deck) is not { } plan
        )
        {
            return null;
        }

        var grid = plan.Grid(MostCells, LeastSideM);
        var cells = OnDeck(deck, grid);
        var all = PlaceEvidence.Of(deck, grid, evidence);
        PlaceEvidence[] places = [.. cells.Select(c => all[c])];
        var where = new MapPlaces(grid, cells, deck.Zones);
        var covers = CoverOnCells.Of(deck, cover, where);
        var centre = sampler.Centre();
        var weight = covers is null ? 0 : CoverWeight(centre, deck, clock);
        var salt = SaltAtCores.Of(deck, cores, labErrorSd, centre, clock, where, weight);
        if (
            covers is null
            && salt is null
            && !places.Any(p => p.Nodes > 0 || p.Unsound + p.Patched > 0)
        )
        {
            return null;
        }

        var threads = deck.Analysis.Threads ?? 0;
        double[] years = [.. Later.Where(t => t <= deck.Horizon.Years)];
        var draws = Select(deck, sampler, clock, learned, years, threads, cancellation);
        var seen = evidence.NodesAreOnSoundPlaces ? Seen(deck, evidence) : 0;
        var candidates = Candidates(deck, grid, where.HasZones);
        var central = draws[draws.Length / 2];
        var evidences = FixedOrderParallel.Map(
            candidates.Length,
            i =>
            {
                var (field, ofCores) = Prior(where, covers, weight, salt, candidates[i]);
                return ofCores + Given(field, places, central, seen).LogEvidence;
            },
            threads,
            cancellation
        );
        var largest = evidences.Max();
        double[] weights = [.. evidences.Select(e => Math.Exp(e - largest))];
        var sum = weights.Sum();
        weights = [.. weights.Select(w => w / sum)];
        var picks = Comb(weights, Draws);
        var maps = FixedOrderParallel.Map(
            Draws,
            i =>
                Shares(
                    Prior(where, covers, weight, salt, candidates[picks[i * Spread % Draws]]).Field,
                    places,
                    draws[i],
                    seen
                ),
            threads,
            cancellation
        );
        var result = Enumerable
            .Range(0, cells.Length)
            .Select(c => new DeckMapCell(
                grid.X(cells[c]),
                grid.Y(cells[c]),
                places[c].Unsound,
                places[c].Patched,
                places[c].Nodes,
                maps.Average(m => m[c][0]),
                maps.Average(m => m[c][1]),
                [.. years.Select((_, t) => maps.Average(m => m[c][2 + t]))]
            ))
            .ToImmutableArray();
        var (p05, p50, p95) = LengthPercentiles(candidates, weights);
        return new()
        {
            CellLengthM = grid.StepX,
            CellWidthM = grid.StepY,
            Cells = result,
            LaterYr = [.. years],
            DeckActive = draws.Average(d => NormalQuantile.Probability(d.Active)),
            DeckDamaged = draws.Average(d => NormalQuantile.Probability(d.Damaged)),
            LengthM = p50,
            LengthP05M = p05,
            LengthP95M = p95,
            LocalShare = candidates.Zip(weights, (c, w) => w * c.LocalShare).Sum(),
            CoverWeight = weight,
            CoreWeight = salt?.Weight ?? 0,
            Cores = salt?.Readings.Length ?? 0,
            ZoneShare = candidates.Zip(weights, (c, w) => w * c.ZoneShare).Sum(),
            Potentials = evidence.Potentials,
            Cover = cover.Field,
            Zones = DeckZones.Of(deck, grid, result),
        };
    }

    private static double Seen(Deck deck, SurveyEvidence evidence)
    {
        var unpatched = new SurveyLikelihood(evidence, deck.Surveys).UnpatchedAmongDamaged;
        return unpatched * deck.Surveys.DetectionProbability + 1 - unpatched;
    }

    // Cells that lie on the deck: all, unless the plan is much larger than the deck (a skewed or curved one); then those near a surveyed place.
    private static int[] OnDeck(Deck deck, DeckGrid grid)
    {
        var cells = Enumerable.Range(0, grid.Count);
        if (grid.Plan.LengthM * grid.Plan.WidthM < 1.15 * deck.AreaM2)
        {
            return [.. cells];
        }

        var places = DeckPlan.Places(deck).ToArray();
        var reach = 1.5 * Math.Max(grid.StepX, grid.StepY);
        return
        [
            .. cells.Where(c =>
                places.Any(p =>
                    Math.Abs(p.X - grid.X(c)) <= reach && Math.Abs(p.Y - grid.Y(c)) <= reach
                )
            ),
        ];
    }

    // Draws that stand for all used ones: the middles of equal parts of them, ordered by their active share.
    private static DrawScores[] Select(
        Deck deck,
        KnowledgeSampler sampler,
        ExposureClock clock,
        LearnedDraws learned,
        double[] years,
        int threads,
        CancellationToken cancellation
    )
    {
        var used = learned.Used;
        var scores = FixedOrderParallel.Map(
            used.Length,
            i => DrawScores.Of(sampler.Draw(used[i]), deck.Analysis.Seed, clock, years),
            threads,
            cancellation
        );
        var ordered = scores.OrderBy(s => s.Active).ThenBy(s => s.Damaged).ToArray();
        return
        [
            .. Enumerable
                .Range(0, Draws)
                .Select(i => ordered[(int)((i + 0.5) / Draws * ordered.Length)]),
        ];
    }

    private static double CoverWeight(KnowledgeDraw centre, Deck deck, ExposureClock clock) =>
        SeverityWeight.Of(
            deck,
            clock,
            score =>
                centre with
                {
                    Population = centre.Population with
                    {
                        Cover = PointDistribution.NormalAboveZero(
                            centre.Population.Cover.Quantile(NormalQuantile.Probability(-score)),
                            0
                        ),
                    },
                }
        );

    private static Candidate[] Candidates(Deck deck, DeckGrid grid, bool hasZones)
    {
        var shortest = 0.7 * Math.Max(grid.StepX, grid.StepY);
        var longest = Math.Max(2 * shortest, Math.Max(grid.Plan.LengthM, grid.Plan.WidthM) / 3);
        double[] lengths = deck.Surveys.CorrelationLengthM is { } stated
            ? [stated]
            :
            [
                .. Enumerable
                    .Range(0, Lengths)
                    .Select(i => shortest * Math.Pow(longest / shortest, i / (Lengths - 1.0))),
            ];
        return
        [
            .. lengths.SelectMany(l =>
                LocalShares.SelectMany(s =>
                    ZoneShares
                        .Take(hasZones ? ZoneShares.Length : 1)
                        .Select(z => new Candidate(l, s, z))
                )
            ),
        ];
    }

    // The field before the surveys of places, cores read in; and the logarithm of the cores' evidence.
    private static (SeverityField Field, double OfCores) Prior(
        MapPlaces where,
        CoverOnCells? covers,
        double weight,
        SaltAtCores? salt,
        Candidate candidate
    )
    {
        var rest = 1 - weight * weight;
        var smooth = 1 - candidate.LocalShare;
        var correlation = where.Correlation(candidate.LengthM, candidate.ZoneShare);
        double[] covariance = [.. correlation.Select(r => rest * smooth * r)];
        var mean = new double[where.Count];
        var local = rest * candidate.LocalShare;
        var ofCores = 0.0;
        if (salt is not null)
        {
            // Salt has its share of the field: as smooth, as local, as much of its zone.
            ofCores =
                MapPlaces.Condition(
                    mean,
                    covariance,
                    correlation,
                    salt.Weight * smooth,
                    smooth,
                    [
                        .. salt.Readings.Select(r =>
                            r with
                            {
                                ErrorVariance = r.ErrorVariance + candidate.LocalShare,
                            }
                        ),
                    ]
                ) ?? double.NegativeInfinity;
            var middle = mean.Average();
            mean = [.. mean.Select(m => m - middle)];
        }

        if (covers is not null)
        {
            for (var i = 0; i < covariance.Length; i++)
            {
                covariance[i] += weight * weight * covers.Covariance[i];
            }

            for (var i = 0; i < mean.Length; i++)
            {
                mean[i] -= weight * covers.Mean[i];
            }

            local += weight * weight * covers.LocalShare;
        }

        Centre(covariance, where.Count);
        return (new(mean, covariance, Math.Sqrt(local)), ofCores);
    }

    // The field's mean over the plan is 0: the deck's share is the draw's own.
    private static void Centre(double[] covariance, int n)
    {
        var rows = new double[n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                rows[i] += covariance[i * n + j] / n;
            }
        }

        var whole = rows.Average();
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                covariance[i * n + j] += whole - rows[i] - rows[j];
            }
        }
    }

    private static (double[] Mode, double[] Sd, double LogEvidence) Given(
        SeverityField field,
        PlaceEvidence[] places,
        DrawScores draw,
        double seen
    ) => field.Given((c, f) => places[c].Log(f, Limits(field, draw, c), seen));

    private static SeverityLimits Limits(SeverityField field, DrawScores draw, int cell) =>
        new(draw.Active * field.Scale[cell], draw.Damaged * field.Scale[cell], field.LocalSd);

    // By cell: active, damaged, and damaged at the later times.
    private static double[][] Shares(
        SeverityField field,
        PlaceEvidence[] places,
        DrawScores draw,
        double seen
    )
    {
        var (mode, sd, _) = Given(field, places, draw, seen);
        var shares = new double[places.Length][];
        for (var c = 0; c < places.Length; c++)
        {
            var limits = Limits(field, draw, c);
            var sums = new double[2 + draw.Later.Length];
            for (var k = 0; k < Nodes; k++)
            {
                var f = mode[c] + sd[c] * NormalQuantile.At((k + 0.5) / Nodes);
                var (active, damaged) = places[c].Shares(f, limits, seen);
                sums[0] += active / Nodes;
                sums[1] += damaged / Nodes;
                for (var t = 0; t < draw.Later.Length; t++)
                {
                    sums[2 + t] +=
                        places[c].Later(f, limits, seen, draw.Later[t] * field.Scale[c]) / Nodes;
                }
            }

            shares[c] = sums;
        }

        return shares;
    }

    private static int[] Comb(double[] weights, int count)
    {
        var picks = new int[count];
        double sum = weights[0];
        for (int i = 0, k = 0; k < count; k++)
        {
            while (sum < (k + 0.5) / count && i < weights.Length - 1)
            {
                sum += weights[++i];
            }

            picks[k] = i;
        }

        return picks;
    }

    private static (double P05, double P50, double P95) LengthPercentiles(
        Candidate[] candidates,
        double[] weights
    )
    {
        var lengths = candidates
            .Zip(weights)
            .GroupBy(p => p.First.LengthM)
            .Select(g => (Length: g.Key, Weight: g.Sum(p => p.Second)))
            .OrderBy(p => p.Length)
            .ToArray();
        // Each length's weight spread over its own interval of ln ℓ.
        var half = lengths.Length > 1 ? 0.5 * Math.Log(lengths[1].Length / lengths[0].Length) : 0;
        double At(double share)
        {
            var below = 0.0;
            foreach (var (length, weight) in lengths)
            {
                if (below + weight >= share)
                {
                    return length * Math.Exp(half * (2 * (share - below) / weight - 1));
                }

                below += weight;
            }

            return lengths[^1].Length * Math.Exp(half);
        }

        return (At(0.05), At(0.5), At(0.95));
    }

    private readonly record struct Candidate(double LengthM, double LocalShare, double ZoneShare);
}
