using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Numerics.Sampling;
using DeckLife.Population;

namespace DeckLife.Network.Decks;

/// <summary>A deck fit without cores: draws of a deck's population out of its exposure class.</summary>
public static class ClassFit
{
    /// <summary>Draws kept: enough that a survey can choose among them.</summary>
    public const int Draws = 4000;

    /// <summary>Makes the fit.</summary>
    /// <param name="kind">The exposure class.</param>
    /// <param name="exposureYr">Exposure of the deck at its survey [yr], to which the class's D belongs.</param>
    /// <param name="seed">The deck's seed.</param>
    /// <returns>A fit with no cores, status <see cref="FitStatus.Limited"/> and its reason.</returns>
    /// <remarks>
    /// Both spreads are lognormal. Of the variance of a logarithm the within-deck share becomes the spread between places of one deck,
    /// the rest that of the deck's mean. Checked by: DeckOptionsTests.
    /// </remarks>
    public static DeckFit From(ExposureClass kind, double exposureYr, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(kind);
        var (surfaceMean, surfaceBetween, surfaceWithin) = Split(
            kind.SurfaceChloride,
            kind.WithinDeckShare
        );
        var (diffusionMean, diffusionBetween, diffusionWithin) = Split(
            kind.DiffusionCoefficient,
            kind.WithinDeckShare
        );
        var stream = new RandomStream(seed, "deck out of its exposure class");
        var draws = ImmutableArray.CreateBuilder<DeckHyperDraw>(Draws);
        for (var i = 0; i < Draws; i++)
        {
            draws.Add(
                new(
                    surfaceMean + surfaceBetween * stream.NextNormal(),
                    diffusionMean + diffusionBetween * stream.NextNormal(),
                    surfaceWithin,
                    diffusionWithin,
                    0,
                    kind.BackgroundKgPerM3,
                    0
                )
            );
        }

        return new()
        {
            Cores = 0,
            SurfaceChloride = Median(surfaceMean, surfaceBetween),
            DiffusionCoefficient = Median(diffusionMean, diffusionBetween),
            Background = Fixed(kind.BackgroundKgPerM3),
            SdLnSurfaceChloride = Fixed(surfaceWithin),
            SdLnDiffusionCoefficient = Fixed(diffusionWithin),
            Correlation = Fixed(0),
            LabErrorSd = Fixed(0),
            Method = $"no cores: exposure class {kind.Name} ({kind.Source})",
            Draws = draws.MoveToImmutable(),
            Status = FitStatus.Limited,
            Reason =
                "no core of this deck; its surface content and diffusion coefficient are those of its exposure class",
            ReferenceExposureYears = exposureYr,
        };
    }

    private static (double Mean, double Between, double Within) Split(
        UncertainValue value,
        double withinShare
    )
    {
        var variance = Math.Log(1 + value.CoefficientOfVariation * value.CoefficientOfVariation);
        return (
            Math.Log(value.Mean) - variance / 2,
            Math.Sqrt(variance * (1 - withinShare)),
            Math.Sqrt(variance * withinShare)
        );
    }

    private static Estimate Median(double mean, double sd) =>
        new(Math.Exp(mean))
        {
            StandardError = Math.Exp(mean) * sd,
            Lower95 = Math.Exp(mean - 1.959963984540054 * sd),
            Upper95 = Math.Exp(mean + 1.959963984540054 * sd),
            LimitMethod = "exposure class, between decks",
        };

    private static Estimate Fixed(double value) =>
        new(value) { IsFixed = true, MissingReason = "given by the exposure class" };
}
