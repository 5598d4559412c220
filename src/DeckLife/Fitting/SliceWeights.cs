namespace DeckLife.Fitting;

/// <summary>What the errors of the slices mean.</summary>
public enum SliceWeights
{
    /// <summary>One standard deviation for all slices, estimated from the residuals.</summary>
    Constant,

    /// <summary>Errors in proportion to the content (a coefficient of variation), estimated.</summary>
    Relative,

    /// <summary>A standard deviation given for each slice, or taken from its replicates.</summary>
    Given,
}
