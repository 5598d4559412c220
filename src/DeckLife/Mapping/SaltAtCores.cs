using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Population;

namespace DeckLife.Mapping;

/// <summary>How much saltier, and more open to salt, the places of the cores are than the deck: one score a core, as severity weighs Cs and D.</summary>
/// <param name="Weight">Correlation of severity with that score.</param>
/// <param name="Readings">The score of each core with the variance of its error, what varies within a cell left out.</param>
internal sealed record SaltAtCores(double Weight, ImmutableArray<PlaceReading> Readings)
{
    // What is left for propagation, threshold and all else that cores and covers don't read: never nothing (judgement).
    private const double LeastRest = 0.1;

    /// <summary>Reads the cores; nothing where none with a position could be fitted.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="cores">The fits of its cores.</param>
    /// <param name="labErrorSd">The laboratory's error by the deck fit [kg/m³]: one core has too few slices to tell its own; 0: as each core says.</param>
    /// <param name="centre">The middle of what is known about the deck.</param>
    /// <param name="clock">How diffusion adds up.</param>
    /// <param name="places">The cells.</param>
    /// <param name="coverWeight">Correlation of severity with cover.</param>
    public static SaltAtCores? Of(
        Deck deck,
        ImmutableArray<ProfileFit> cores,
        double labErrorSd,
        KnowledgeDraw centre,
        ExposureClock clock,
        MapPlaces places,
        double coverWeight
    )
    {
        var deckwide = centre.Population;
        var (surface, own) = Weights(deck, centre, clock);
        var weight = Math.Sqrt(surface * surface + own * own);
        if (!(weight > 0))
        {
            return null;
        }

        var (alongSurface, alongOwn) = (surface / weight, own / weight);
        var rest = Math.Sqrt(Math.Max(0, 1 - deckwide.Correlation * deckwide.Correlation));
        var readings = ImmutableArray.CreateBuilder<PlaceReading>();
        foreach (var core in cores)
        {
            if (
                core.Status == FitStatus.Refused
                || core.Profile.OnCrack
                || core.Profile is not { X: { } x, Y: { } y }
                || places.At(x, y) is not { } cell
                || core.Covariance.Length != 9
                || core.SurfaceChloride is not { Value: > 0 } cs
                || core.DiffusionCoefficient is not { Value: > 0 } d
            )
            {
                continue;
            }

            var age = core.Profile.ExposureAge.Years;
            var atSurvey = Math.Log(d.Value * age / clock.EffectiveYears(age));
            // Gradient of the score by (ln Cs, ln D).
            var byD = rest > 0 ? alongOwn / rest : 0;
            var byCs = alongSurface - deckwide.Correlation * byD;
            (byCs, byD) = (
                Over(byCs, deckwide.SdLnSurfaceChloride),
                Over(byD, deckwide.SdLnDiffusionCoefficient)
            );
            var score =
                byCs * (Math.Log(cs.Value) - deckwide.MeanLnSurfaceChloride)
                + byD * (atSurvey - deckwide.MeanLnDiffusionCoefficient);
            var scale =
                labErrorSd > 0
                && core.Options.Weights == SliceWeights.Constant
                && core.ResidualStandardDeviation is { } sd
                && sd > 0
                    ? labErrorSd * labErrorSd / (sd * sd)
                    : 1;
            var v = core.Covariance;
            var variance =
                scale
                * (
                    byCs * byCs * v[0] / (cs.Value * cs.Value)
                    + 2 * byCs * byD * v[1] / cs.Value
                    + byD * byD * v[4]
                );
            if (double.IsFinite(score) && double.IsFinite(variance))
            {
                readings.Add(new(cell, score, Math.Max(0, variance)));
            }
        }

        var most = Math.Sqrt(Math.Max(0, 1 - LeastRest - coverWeight * coverWeight));
        return readings.Count == 0 || most == 0
            ? null
            : new(Math.Min(weight, most), readings.ToImmutable());
    }

    private static double Over(double value, double sd) => sd > 0 ? value / sd : 0;

    // Correlations of severity with the score of ln Cs, D going along as it is correlated, and with what of ln D goes its own way.
    private static (double Surface, double Own) Weights(
        Deck deck,
        KnowledgeDraw centre,
        ExposureClock clock
    )
    {
        var p = centre.Population;
        var rest = Math.Sqrt(Math.Max(0, 1 - p.Correlation * p.Correlation));
        return (
            SeverityWeight.Of(
                deck,
                clock,
                score =>
                    centre with
                    {
                        Population = p with
                        {
                            MeanLnSurfaceChloride =
                                p.MeanLnSurfaceChloride + score * p.SdLnSurfaceChloride,
                            SdLnSurfaceChloride = 0,
                            MeanLnDiffusionCoefficient =
                                p.MeanLnDiffusionCoefficient
                                + score * p.Correlation * p.SdLnDiffusionCoefficient,
                            SdLnDiffusionCoefficient = rest * p.SdLnDiffusionCoefficient,
                            Correlation = 0,
                        },
                    }
            ),
            SeverityWeight.Of(
                deck,
                clock,
                score =>
                    centre with
                    {
                        Population = p with
                        {
                            MeanLnDiffusionCoefficient =
                                p.MeanLnDiffusionCoefficient
                                + score * rest * p.SdLnDiffusionCoefficient,
                            SdLnDiffusionCoefficient =
                                Math.Abs(p.Correlation) * p.SdLnDiffusionCoefficient,
                            Correlation = Math.Sign(p.Correlation),
                        },
                    }
            )
        );
    }
}
