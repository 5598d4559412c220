using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Economics;
using DeckLife.Fitting;
using DeckLife.Numerics.Sampling;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;

namespace DeckLife.Network.Decks;

/// <summary>Projects one deck of a network under every allowed strategy and start year.</summary>
/// <remarks>
/// One history a strategy and start year serves condition, cost and band. Before its start every option is the untouched deck,
/// computed once. A history is never moved in time: salt goes on coming in while a deck waits.
/// </remarks>
public static class DeckOptions
{
    /// <summary>Projects the deck.</summary>
    /// <param name="network">The network.</param>
    /// <param name="index">The deck's place in its list.</param>
    /// <param name="deck">The deck.</param>
    /// <param name="cancellation">Ends it early.</param>
    /// <returns>Its options, or why it has none: never an exception for what is wrong with the deck.</returns>
    /// <exception cref="OperationCanceledException">It was ended early.</exception>
    public static DeckRecord Of(
        NetworkDefinition network,
        int index,
        Deck deck,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(network);
        ArgumentNullException.ThrowIfNull(deck);
        var member = network.Members[index];
        var record = new DeckRecord
        {
            Index = index,
            Folder = member.Folder,
            Name = deck.Name,
            AreaDm2 = (long)Math.Round(deck.AreaM2 * 100),
            SurveyYear = deck.SurveyYear,
            Evidence = EvidenceOf(deck, member),
        };
        if (Obstacle(network, member, deck) is { } obstacle)
        {
            return record with { Failure = obstacle };
        }

        try
        {
            var seed = SeedOf(network, member);
            var scheduled = Scheduled(network, member, deck) with
            {
                Analysis = new()
                {
                    Seed = seed,
                    Draws = network.Draws,
                    Points = network.Points,
                    Threads = 1,
                },
            };
            var paths = DeckProjector.Paths(
                scheduled,
                FitOf(network, member, scheduled, cancellation),
                cancellation
            );
            return record with
            {
                Prices = string.Create(
                    CultureInfo.InvariantCulture,
                    $"{deck.Prices!.Currency} of {deck.Prices.PriceYear}"
                ),
                Options = [.. paths.Strategies.Select(p => OptionOf(network, deck, p))],
                Remarks = string.Join(
                    " ",
                    paths
                        .Refused.Select(r => $"{r.Reason.Code}: {r.Reason.Text}")
                        .Concat(paths.Flags.Select(f => $"{f.Code}: {f.Text}"))
                ),
            };
        }
        catch (ProjectionRefusedException refused)
        {
            return record with { Failure = refused.Message };
        }
        catch (DeckFitRefusedException refused)
        {
            return record with { Failure = refused.Message };
        }
    }

    /// <summary>The deck's own seed: decks of one network do not share their draws.</summary>
    /// <param name="network">The network.</param>
    /// <param name="member">The deck.</param>
    public static ulong SeedOf(NetworkDefinition network, NetworkMember member)
    {
        ArgumentNullException.ThrowIfNull(network);
        ArgumentNullException.ThrowIfNull(member);
        return new RandomStream(network.Seed, "deck " + member.Folder).NextBits();
    }

    private static string? Obstacle(NetworkDefinition network, NetworkMember member, Deck deck)
    {
        if (deck.SurveyYear > network.FirstYear)
        {
            return string.Create(
                CultureInfo.InvariantCulture,
                $"surveyed in {deck.SurveyYear}, after the program's first year {network.FirstYear}: begin the program no earlier than the survey"
            );
        }

        if (deck.Prices is null)
        {
            return "no prices: give them in the deck's folder or among the network's common facts";
        }

        if (deck.Cores.IsEmpty && KindOf(network, member) is null)
        {
            return member.ExposureClass is null
                ? "no cores, and the network names no exposure class for this deck"
                : $"no cores, and the network has no exposure class '{member.ExposureClass}'";
        }

        foreach (var name in member.Strategies)
        {
            if (!deck.Strategies.Any(s => s.Name == name))
            {
                return $"the network allows a strategy '{name}' that this deck does not have";
            }
        }

        return null;
    }

    private static ExposureClass? KindOf(NetworkDefinition network, NetworkMember member) =>
        network.Classes.FirstOrDefault(c => c.Name == member.ExposureClass);

    private static DeckFit FitOf(
        NetworkDefinition network,
        NetworkMember member,
        Deck deck,
        CancellationToken cancellation
    )
    {
        DeckProjector.Check(deck);
        if (deck.Cores.IsEmpty)
        {
            return ClassFit.From(
                KindOf(network, member)!,
                deck.ExposureAge.Years,
                deck.Analysis.Seed
            );
        }

        var cores = deck.Cores.Select(c => ProfileFitter.Fit(c)).ToArray();
        cancellation.ThrowIfCancellationRequested();
        return DeckFitter.Fit(cores, DeckAnalysis.OptionsFor(deck) with { Threads = 1 });
    }

    // The untouched deck, then each allowed strategy with its first intervention in each start year; later ones keep their distance.
    private static Deck Scheduled(NetworkDefinition network, NetworkMember member, Deck deck)
    {
        var strategies = ImmutableArray.CreateBuilder<Strategy>();
        strategies.Add(new() { Name = "" });
        foreach (var strategy in deck.Strategies)
        {
            if (
                strategy.Interventions.IsEmpty
                || (!member.Strategies.IsEmpty && !member.Strategies.Contains(strategy.Name))
            )
            {
                continue;
            }

            var first = strategy.Interventions.Min(i => i.At.Years);
            foreach (var year in network.StartYears)
            {
                var shift = year - deck.SurveyYear - first;
                strategies.Add(
                    strategy with
                    {
                        Name = ScheduledName(strategy.Name, year),
                        Interventions =
                        [
                            .. strategy
                                .Interventions.Select(i =>
                                    i with
                                    {
                                        At = Age.FromYears(Math.Max(0, i.At.Years + shift)),
                                    }
                                )
                                .Where(i => deck.SurveyYear + i.At.Years <= network.LastYear),
                        ],
                    }
                );
            }
        }

        return deck with
        {
            Strategies = strategies.ToImmutable(),
            Horizon = Age.FromYears(Math.Max(1, network.LastYear - deck.SurveyYear)),
        };
    }

    private static DeckOption OptionOf(NetworkDefinition network, Deck deck, StrategyPaths paths)
    {
        var offset = network.FirstYear - deck.SurveyYear;
        var years = network.ConditionYears;
        var draws = paths.Damaged.Length;
        var damaged = ImmutableArray.CreateBuilder<int>(draws * years);
        foreach (var path in paths.Damaged)
        {
            for (var y = 0; y < years; y++)
            {
                // The horizon is a whole number of years, so that the n-th time is year n.
                damaged.Add((int)Math.Round(1e6 * Math.Clamp(path[offset + y], 0, 1)));
            }
        }

        var cost = new double[network.Budgets.Length];
        foreach (var payment in paths.Payments.SelectMany(p => p))
        {
            if (payment.PaidBy != Payer.Agency)
            {
                continue;
            }

            var year = (int)Math.Floor(payment.TimeYr + 1e-9) - offset;
            if (year >= 0 && year < cost.Length)
            {
                cost[year] += payment.Amount / draws;
            }
        }

        var (strategy, start) = Of(paths.Strategy.Name);
        return new(
            strategy,
            start,
            [.. cost.Select(c => (long)Math.Ceiling(c - 1e-6))],
            damaged.MoveToImmutable()
        );
    }

    // Strategies of one deck need names of their own; the year comes first, so that no name can hide it.
    private static string ScheduledName(string name, int year) =>
        string.Create(CultureInfo.InvariantCulture, $"{year} {name}");

    private static (string? Strategy, int? StartYear) Of(string scheduled)
    {
        var gap = scheduled.IndexOf(' ', StringComparison.Ordinal);
        return gap < 0
            ? (null, null)
            : (
                scheduled[(gap + 1)..],
                int.Parse(scheduled.AsSpan(0, gap), NumberStyles.None, CultureInfo.InvariantCulture)
            );
    }

    private static string EvidenceOf(Deck deck, NetworkMember member)
    {
        var parts = new List<string>();
        if (!deck.Cores.IsEmpty)
        {
            parts.Add(Count(deck.Cores.Length, "core"));
        }
        else if (member.ExposureClass is { } kind)
        {
            parts.Add($"exposure class {kind}");
        }

        parts.Add(
            deck.Covers.IsEmpty
                ? deck.StatedCoverMm is null
                    ? "no cover"
                    : "stated cover"
                : Count(deck.Covers.Length, "cover reading")
        );
        if (!deck.HalfCells.IsEmpty)
        {
            parts.Add(Count(deck.HalfCells.Length, "half-cell node"));
        }

        if (!deck.Soundings.IsEmpty)
        {
            parts.Add("sounding");
        }

        return string.Join(", ", parts);
    }

    private static string Count(int number, string what) =>
        string.Create(CultureInfo.InvariantCulture, $"{number} {what}{(number == 1 ? "" : "s")}");
}
