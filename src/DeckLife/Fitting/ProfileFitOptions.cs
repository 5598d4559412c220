using DeckLife.Quantities;

namespace DeckLife.Fitting;

/// <summary>Choices of a profile fit; the defaults are the documented ones.</summary>
public sealed record ProfileFitOptions
{
    /// <summary>Whether the background is estimated or held.</summary>
    public BackgroundTreatment Background { get; init; } = BackgroundTreatment.Fitted;

    /// <summary>The background where it is held [kg/m³].</summary>
    public ChlorideContent FixedBackground { get; init; }

    /// <summary>What the errors of the slices mean.</summary>
    public SliceWeights Weights { get; init; } = SliceWeights.Constant;

    /// <summary>Fit contents at mid-depth instead of slice means (biases D upwards; flagged).</summary>
    /// <remarks>A mean over w has the variance w²/12 of a box more spread than the content itself: ∫D dt comes out larger by w²/24.</remarks>
    public bool AsPoints { get; init; }

    /// <summary>Number of slices to leave out at the surface by hand; absent: the skin rule decides.</summary>
    public int? SkipSurface { get; init; }

    /// <summary>The law of the errors; Student's t resists slips.</summary>
    public ErrorLaw Law { get; init; } = ErrorLaw.Normal;

    /// <summary>How the limits are got.</summary>
    public LimitMethod Limits { get; init; } = LimitMethod.ProfileLikelihood;

    /// <summary>Number of bootstrap replicates; fewer than 200 count as 200.</summary>
    public int BootstrapReplicates { get; init; } = 1999;

    /// <summary>Seed of the bootstrap; 0 is a seed.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Lower end of the search for D; absent: 2 sqrt(D t) of a fifth of the shallowest slice's centre depth.</summary>
    public DiffusionCoefficient? SearchLow { get; init; }

    /// <summary>Upper end of the search for D; absent: 2 sqrt(D t) of 20 times the deepest slice's centre depth.</summary>
    public DiffusionCoefficient? SearchHigh { get; init; }

    /// <summary>
    /// Content below which the error no longer shrinks in proportion, under relative weights, as a share of the largest
    /// content; the largest detection limit counts where it is higher.
    /// </summary>
    /// <remarks>
    /// Judgement: without a floor a slice near 0 would have no error and decide the background alone; 2 % is 0.12 kg/m³ where the surface has
    /// 6 kg/m³. With half of it slices below the floor weigh four times as much, with twice of it a quarter.
    /// </remarks>
    public double RelativeFloorShare { get; init; } = 0.02;

    /// <summary>Surface content above which it is flagged as beyond what pore solution holds.</summary>
    /// <remarks>
    /// Saturated sodium chloride solution holds about 190 g of chloride a litre at 20 °C (26.4 % NaCl by mass, 1.20 g/mL: from
    /// memory of handbook tables); 15 % of the concrete's volume filled with it (common practice for porosity) gives 28.5 kg/m³.
    /// </remarks>
    public ChlorideContent PlausibleSurface { get; init; } =
        ChlorideContent.FromKilogramsPerCubicMetre(28.5);

    /// <summary>Whether to refit without each slice in turn.</summary>
    public bool Influence { get; init; } = true;

    /// <summary>
    /// Whether the limits of a fit with constant weights hold for every kind of error from constant to in proportion to the content, as far as the
    /// slices leave it likely; a fit with relative weights is then set beside it. Say no where the errors are known to be constant.
    /// </summary>
    public bool LimitsOverErrorKinds { get; init; } = true;
}
