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
    public bool AsPoints { get; init; }

    /// <summary>Number of slices to leave out at the surface by hand; absent: the skin rule decides.</summary>
    public int? SkipSurface { get; init; }
}
