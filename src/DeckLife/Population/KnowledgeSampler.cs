using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Numerics.Sampling;
using DeckLife.Propagation;

namespace DeckLife.Population;

/// <summary>Draws what is not known about a deck: the outer loop of a projection.</summary>
internal sealed class KnowledgeSampler
{
    private const int FixedNumbers = 10;

    private readonly Deck deck;
    private readonly DeckFit fit;
    private readonly CoverSurvey cover;
    private readonly ulong seed;
    private readonly int draws;
    private readonly double shiftSd;

    /// <summary>Prepares the draws.</summary>
    /// <param name="deck">The deck.</param>
    /// <param name="fit">What its cores say.</param>
    /// <param name="cover">What its cover readings say.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="draws">Number of draws that will be asked for.</param>
    /// <param name="finiteAreaSd">Standard deviation of the shift that comes from the deck being one finite area.</param>
    public KnowledgeSampler(
        Deck deck,
        DeckFit fit,
        CoverSurvey cover,
        ulong seed,
        int draws,
        double finiteAreaSd = 0
    )
    {
        var model = deck.Surveys.ModelDiscrepancySd;
        shiftSd =
            finiteAreaSd == 0 ? model : Math.Sqrt(model * model + finiteAreaSd * finiteAreaSd);
        this.deck = deck;
        this.fit = fit;
        this.cover = cover;
        this.seed = seed;
        this.draws = draws;
    }

    /// <summary>The middle of what is known, from which depths of removal are decided once.</summary>
    public KnowledgeDraw Centre()
    {
        var hyper = fit.Draws.IsEmpty
            ? new DeckHyperDraw(
                Math.Log(fit.SurfaceChloride.Value),
                Math.Log(fit.DiffusionCoefficient.Value),
                Math.Max(0, fit.SdLnSurfaceChloride.Value),
                Math.Max(0, fit.SdLnDiffusionCoefficient.Value),
                Math.Clamp(fit.Correlation.Value, -1, 1),
                Math.Max(0, fit.Background.Value),
                0
            )
            : new DeckHyperDraw(
                Median(d => d.MeanLnSurfaceChloride),
                Median(d => d.MeanLnDiffusionCoefficient),
                Median(d => d.SdLnSurfaceChloride),
                Median(d => d.SdLnDiffusionCoefficient),
                Median(d => d.Correlation),
                Median(d => d.BackgroundKgPerM3),
                Median(d => d.LabErrorSdKgPerM3)
            );
        Span<double> u = stackalloc double[FixedNumbers + 2 * deck.Materials.Length];
        u.Fill(0.5);
        return Make(-1, hyper, u);
    }

    /// <summary>Makes one draw; the same for the same seed and index, whoever asks.</summary>
    /// <param name="index">Index, 0 up to the number of draws.</param>
    public KnowledgeDraw Draw(int index)
    {
        Span<double> u = stackalloc double[FixedNumbers + 2 * deck.Materials.Length];
        UnitPoints.ForKnowledge(seed, index, u);
        return Make(index, Hyper(index, u), u);
    }

    private static double Score(double uniform) => NormalQuantile.At(uniform);

    private double Median(Func<DeckHyperDraw, double> value)
    {
        var values = fit.Draws.Select(value).Order().ToArray();
        return 0.5 * (values[(values.Length - 1) / 2] + values[values.Length / 2]);
    }

    private KnowledgeDraw Make(int index, DeckHyperDraw hyper, ReadOnlySpan<double> u)
    {
        var materials = deck.Materials.Length;
        var population = new DeckPopulation
        {
            Cover = cover.Draw(u[0], Score(u[1])),
            MeanLnSurfaceChloride = hyper.MeanLnSurfaceChloride,
            SdLnSurfaceChloride = hyper.SdLnSurfaceChloride,
            MeanLnDiffusionCoefficient = hyper.MeanLnDiffusionCoefficient,
            SdLnDiffusionCoefficient = hyper.SdLnDiffusionCoefficient,
            Correlation = hyper.Correlation,
            BackgroundKgPerM3 = hyper.BackgroundKgPerM3,
            Soffit = SoffitFace.Of(deck, Score(u[8])),
            Threshold = PointDistribution.WithinDeck(
                deck.Threshold.Content,
                deck.Threshold.WithinDeckShare,
                Score(u[2])
            ),
            PropagationYr = PointDistribution.WithinDeck(
                deck.Propagation.Driver,
                deck.Propagation.WithinDeckShare,
                Score(u[3])
            ),
        };
        if (deck.Propagation.Model != PropagationModel.StatedPeriod)
        {
            var diameter = deck.TopBarDiameter.Millimetres;
            population = population with
            {
                PropagationOf = (rate, coverMm) =>
                    deck.Propagation.YearsAt(rate, coverMm, diameter),
            };
        }

        var scores = ImmutableArray.CreateBuilder<double>(materials);
        var lives = ImmutableArray.CreateBuilder<double>(materials);
        for (var m = 0; m < materials; m++)
        {
            scores.Add(Score(u[FixedNumbers + 2 * m]));
            lives.Add(u[FixedNumbers + 2 * m + 1]);
        }

        return new(
            index,
            population,
            Score(u[7]) * shiftSd,
            scores.MoveToImmutable(),
            lives.MoveToImmutable()
        )
        {
            Seed = seed,
        };
    }

    private DeckHyperDraw Hyper(int index, ReadOnlySpan<double> u)
    {
        var available = fit.Draws.Length;
        if (available > 0)
        {
            // Spread over the whole chain, so that a short projection still sees all of it; surveys that are hard to explain ask for more.
            return draws <= available && index < draws
                ? fit.Draws[(int)((long)index * available / draws)]
                : fit.Draws[index % available];
        }

        return new(
            LogMoved(fit.SurfaceChloride, Score(u[4])),
            LogMoved(fit.DiffusionCoefficient, Score(u[5])),
            Math.Max(0, fit.SdLnSurfaceChloride.Value),
            Math.Max(0, fit.SdLnDiffusionCoefficient.Value),
            Math.Clamp(fit.Correlation.Value, -1, 1),
            Math.Max(0, fit.Background.Value + Score(u[6]) * (fit.Background.StandardError ?? 0)),
            Math.Max(0, fit.LabErrorSd.Value)
        );
    }

    // A standard error of a positive quantity, moved on the logarithm so that it stays positive.
    private static double LogMoved(Estimate estimate, double score) =>
        Math.Log(estimate.Value) + score * (estimate.StandardError ?? 0) / estimate.Value;
}
