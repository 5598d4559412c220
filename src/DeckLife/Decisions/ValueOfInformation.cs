using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Population;
using DeckLife.Projection;

namespace DeckLife.Decisions;

/// <summary>What it is worth to know more before deciding, in money.</summary>
public sealed record ValueOfInformation
{
    /// <summary>Deck area for one independent place of sounding where no survey shows its correlation [m²]; judgement.</summary>
    internal const double AreaOfAPlaceM2 = 25;

    /// <summary>The strategy that would be chosen now: least mean present value.</summary>
    public required string ChosenNow { get; init; }

    /// <summary>Value of knowing everything before deciding: no survey is worth more.</summary>
    public required double Perfect { get; init; }

    /// <summary>Monte Carlo standard error of it.</summary>
    public required double ErrorOfPerfect { get; init; }

    /// <summary>The currency.</summary>
    public required string Currency { get; init; }

    /// <summary>What each offer is worth.</summary>
    public ImmutableArray<InformationValue> Offers { get; init; } = [];

    /// <summary>The offers that a deck states; else as many cores again as there are (at least 4), 100 more cover readings, and sounding once more.</summary>
    /// <param name="projection">The projection.</param>
    public static ImmutableArray<InformationOffer> OffersFor(DeckProjection projection)
    {
        ArgumentNullException.ThrowIfNull(projection);
        if (!projection.Deck.InformationOffers.IsEmpty)
        {
            return projection.Deck.InformationOffers;
        }

        var places = projection.Hindcast is { SoundingPlaces: >= 1 } hindcast
            ? hindcast.SoundingPlaces
            : projection.Deck.AreaM2 / AreaOfAPlaceM2;
        return
        [
            new(InformationKind.Cores, Math.Max(4, projection.Cores.Length)),
            new(InformationKind.CoverReadings, 100),
            new(InformationKind.Sounding, Math.Max(1, (int)Math.Round(places))),
        ];
    }

    /// <summary>Works it out; nothing where fewer than two strategies are ranked, or the draws were not kept.</summary>
    /// <param name="projection">The projection.</param>
    /// <param name="offers">What could be learned; empty: <see cref="OffersFor"/>.</param>
    /// <param name="cancellation">Ends it early.</param>
    public static ValueOfInformation? Of(
        DeckProjection projection,
        ImmutableArray<InformationOffer> offers = default,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(projection);
        using var phase = PhaseTrace.Begin("worth of information");
        if (
            projection
            is not {
                Draws: { Strategies.Length: > 1 } draws,
                Deck.Prices: { PricesTheEnd: true } prices
            }
        )
        {
            return null;
        }

        var deck = projection.Deck;
        var all = draws.Strategies.Select(s => s.PresentValues).ToArray();
        var now = Enumerable.Range(0, all.Length).MinBy(s => all[s].Average());
        var (perfect, error) = PairedMean.Of([
            .. Enumerable.Range(0, draws.Count).Select(k => all[now][k] - all.Min(v => v[k])),
        ]);
        var places = Thinned(draws.Count);
        var costs = all.Select(v => places.Select(k => v[k]).ToArray()).ToArray();
        var indices = places.Select(k => draws.Indices[k]).ToArray();
        return new()
        {
            ChosenNow = draws.Strategies[now].Name,
            Perfect = perfect,
            ErrorOfPerfect = error,
            Currency = prices.Currency,
            Offers =
            [
                .. (offers.IsDefaultOrEmpty ? OffersFor(projection) : offers)
                    .Where(o => o.Count >= (o.Kind == InformationKind.CoverReadings ? 2 : 1))
                    .Select(offer =>
                    {
                        var (value, errorOfValue, change, effective) = PreposteriorSimulation.Run(
                            costs,
                            indices,
                            Model(projection, draws, places, offer),
                            deck.Analysis.Threads ?? 0,
                            cancellation
                        );
                        return new InformationValue(offer, value, errorOfValue, change, effective);
                    }),
            ],
        };
    }

    private static ISampleModel Model(
        DeckProjection projection,
        ProjectionDraws draws,
        int[] places,
        InformationOffer offer
    )
    {
        var deck = projection.Deck;
        var states = places.Select(k => draws.Knowledge[k].Population).ToArray();
        return offer.Kind switch
        {
            InformationKind.Cores => new CoreSamples(
                states,
                projection.Cores,
                offer.Count,
                deck.Analysis.Seed
            ),
            InformationKind.CoverReadings => new CoverSamples(
                [.. states.Select(s => (s.Cover.Quantile(0.5), DrawRecorder.Spread(s.Cover)))],
                offer.Count,
                deck.Analysis.Seed
            ),
            _ => new SoundingSamples(
                [
                    .. places.Select(k =>
                        draws.Strategies[0].DamagedAt(0, k) * deck.Surveys.DetectionProbability
                    ),
                ],
                offer.Count,
                deck.Analysis.Seed
            ),
        };
    }

    // Evenly spaced places, at most so many as can be weighed against each other.
    private static int[] Thinned(int draws)
    {
        var count = Math.Min(draws, PreposteriorSimulation.MostDraws);
        return [.. Enumerable.Range(0, count).Select(i => (int)((long)i * draws / count))];
    }
}
