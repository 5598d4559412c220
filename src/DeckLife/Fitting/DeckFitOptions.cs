using System.Collections.Immutable;
using DeckLife.Quantities;

namespace DeckLife.Fitting;

/// <summary>Choices of a deck fit; the defaults are the documented ones.</summary>
public sealed record DeckFitOptions
{
    /// <summary>Whether the one background of the deck is estimated or held.</summary>
    public BackgroundTreatment Background { get; init; } = BackgroundTreatment.Fitted;

    /// <summary>The background where it is held [kg/m³].</summary>
    public ChlorideContent FixedBackground { get; init; }

    /// <summary>
    /// What the errors of the slices mean: one standard deviation, a share of the content, or the given standard deviations times one
    /// estimated factor. The content of n replicates has 1/√n of the error of one.
    /// </summary>
    public SliceWeights Weights { get; init; } = SliceWeights.Constant;

    /// <summary>The prior distributions.</summary>
    public DeckPriors Priors { get; init; } = new();

    /// <summary>Seed of the chains; 0 is a seed.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Number of chains, at least 2.</summary>
    public int Chains { get; init; } = 4;

    /// <summary>Sweeps of each chain that tune it and are thrown away, at least 100.</summary>
    public int WarmUp { get; init; } = 500;

    /// <summary>Sweeps of each chain from which draws are kept, at least 100.</summary>
    public int Sweeps { get; init; } = 2000;

    /// <summary>Draws kept of all chains together, at least 100 and at most <see cref="Sweeps"/> times <see cref="Chains"/>; the sweeps are thinned to at least as many.</summary>
    public int Draws { get; init; } = 4000;

    /// <summary>How often the chains may be made four times as long when they have not converged, before the fit is refused; at least 0.</summary>
    public int Extensions { get; init; } = 2;

    /// <summary>Largest rank-normalised split R-hat of a converged fit; 1.01 after Vehtari et al. (Bayesian Analysis 16, 2021).</summary>
    public double LargestSplitRhat { get; init; } = 1.01;

    /// <summary>Smallest bulk effective sample size of a converged fit; 400, that is 100 a chain, after the same source.</summary>
    public double SmallestEffectiveSampleSize { get; init; } = 400;

    /// <summary>Most chains run at the same time; it never changes a result.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;

    /// <summary>The exposure age at which the deck's D is stated; absent: the greatest of its cores, the age of the last survey.</summary>
    public Age? ReferenceExposureAge { get; init; }

    /// <summary>Age of the concrete when the first salt came.</summary>
    public Age ConcreteAgeAtFirstSalt { get; init; }

    /// <summary>
    /// The ageing exponent that brings cores to one age where it isn't estimated: the exponent of the instantaneous coefficient.
    /// It is estimated when absent and the oldest core is at least <see cref="SmallestAgeRatio"/> times as old as the youngest.
    /// </summary>
    public double? FixedAgeingExponent { get; init; }

    /// <summary>Ratio of the greatest exposure age to the smallest from which the ageing exponent is estimated.</summary>
    /// <remarks>
    /// Judgement: D changes by the factor ratio^m, 1.07 at 1.25 for m 0.3 - less than the error of one core's D, so that below it the prior would speak
    /// alone. At 1.1 the exponent is estimated from more decks and stays near its prior; at 1.5 from fewer.
    /// </remarks>
    public double SmallestAgeRatio { get; init; } = 1.25;

    /// <summary>Names of the cores that were taken where trouble was seen; the others count as taken at random.</summary>
    public ImmutableArray<string> TargetedCores { get; init; } = [];

    /// <summary>
    /// Share of the deck's area that looks like the places of the targeted cores, from 0 to 1 (for example the delaminated share of a
    /// sounding): the deck is then the mixture of both kinds by area, not by number of cores.
    /// </summary>
    public double? TargetedAreaShare { get; init; }
}
