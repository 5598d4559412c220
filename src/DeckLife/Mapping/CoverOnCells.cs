using DeckLife.Numerics.SpatialStatistics;
using DeckLife.Population;

namespace DeckLife.Mapping;

/// <summary>Covers over the cells of a plan, as standard scores, given the readings: kriging with the estimated field.</summary>
/// <param name="Mean">Mean score of each cell; its mean over the deck is taken away, which the deck's own cover already has.</param>
/// <param name="Covariance">Covariance of the smooth part, n × n.</param>
/// <param name="LocalShare">Share of the variance that varies within a cell.</param>
/// <param name="ZoneShare">Share of the variance between zones; 0 where the readings don't show any.</param>
/// <remarks>Source: Cressie, Statistics for Spatial Data (1993), simple kriging (memory).</remarks>
internal sealed record CoverOnCells(
    double[] Mean,
    double[] Covariance,
    double LocalShare,
    double ZoneShare
)
{
    /// <summary>Shares of the variance between zones that are tried: a numerical choice, the likelihood being flat between them.</summary>
    private static readonly double[] ZoneShares = [0.15, 0.3, 0.5, 0.7];

    /// <summary>Carries the readings to the cells; nothing where they show neither correlation nor zones, so that they tell nothing of other places.</summary>
    public static CoverOnCells? Of(Deck deck, CoverSurvey cover, MapPlaces places)
    {
        if (
            cover.StandardDeviationMm <= 0
            || deck.Covers.Length < CoverSurvey.FewestReadings
            || !deck.Covers.All(c => c.X is not null && c.Y is not null)
        )
        {
            return null;
        }

        var best = cover.Field is { IsShown: true } field
            ? Kriged(
                deck,
                cover,
                places,
                new(field.Length, field.NuggetShare, 0),
                onlyEvidence: false
            )
            : null;
        if (places.HasZones && BestZones(deck, cover, places) is { } zones)
        {
            // As for a correlation length: kept where none lies outside the 95 % limits.
            var none =
                best?.LogLikelihood
                ?? Kriged(deck, cover, places, new(1, 1, 0), onlyEvidence: true)?.LogLikelihood
                ?? double.NegativeInfinity;
            if (2 * (zones.LogLikelihood - none) > ExponentialFieldEstimate.Cut)
            {
                return Kriged(deck, cover, places, zones.Form, onlyEvidence: false)?.Covers;
            }
        }

        return best?.Covers;
    }

    // Zones with what varies inside them: the field of the readings less their zone's mean.
    private static (Form Form, double LogLikelihood)? BestZones(
        Deck deck,
        CoverSurvey cover,
        MapPlaces places
    )
    {
        var byZone = deck
            .Covers.GroupBy(c => places.ZoneAt(c.X!.Value, c.Y!.Value))
            .ToDictionary(g => g.Key, g => g.Average(c => c.Cover.Millimetres));
        if (byZone.Count < 2)
        {
            return null;
        }

        var within = ExponentialField.Estimate(
            [.. deck.Covers.Select(c => c.X!.Value)],
            [.. deck.Covers.Select(c => c.Y!.Value)],
            [
                .. deck.Covers.Select(c =>
                    c.Cover.Millimetres - byZone[places.ZoneAt(c.X!.Value, c.Y!.Value)]
                ),
            ],
            deck.Analysis.Threads ?? 0
        );
        var (length, nugget) = within is { IsShown: true } shown
            ? (shown.Length, shown.NuggetShare)
            : (1, 1.0);
        (Form, double)? best = null;
        foreach (var share in ZoneShares)
        {
            var form = new Form(length, nugget, share);
            if (
                Kriged(deck, cover, places, form, onlyEvidence: true) is { } tried
                && (best is null || tried.LogLikelihood > best.Value.Item2)
            )
            {
                best = (form, tried.LogLikelihood);
            }
        }

        return best;
    }

    private static (CoverOnCells? Covers, double LogLikelihood)? Kriged(
        Deck deck,
        CoverSurvey cover,
        MapPlaces places,
        Form form,
        bool onlyEvidence
    )
    {
        var local = (1 - form.ZoneShare) * form.NuggetShare;
        var smooth = 1 - local;
        // As shares of what is smooth.
        var correlation = places.Correlation(
            form.LengthM,
            smooth > 0 ? form.ZoneShare / smooth : 0
        );
        // Readings of one cell as one, at its centre.
        var read = deck
            .Covers.GroupBy(c => places.At(c.X!.Value, c.Y!.Value))
            .Where(g => g.Key is not null)
            .OrderBy(g => g.Key)
            .Select(g => new PlaceReading(
                g.Key!.Value,
                (g.Average(c => c.Cover.Millimetres) - cover.MeanMm) / cover.StandardDeviationMm,
                local / g.Count()
            ))
            .ToArray();
        var mean = new double[places.Count];
        double[]? covariance = onlyEvidence ? null : [.. correlation.Select(r => smooth * r)];
        if (
            MapPlaces.Condition(mean, covariance, correlation, smooth, smooth, read)
            is not { } likelihood
        )
        {
            return null;
        }

        var middle = mean.Average();
        return (
            covariance is null
                ? null
                : new([.. mean.Select(v => v - middle)], covariance, local, form.ZoneShare),
            likelihood
        );
    }

    private readonly record struct Form(double LengthM, double NuggetShare, double ZoneShare);
}
