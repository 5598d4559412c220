namespace DeckLife.Numerics.Kernels;

/// <summary>What all points of a closed-form content have in common.</summary>
/// <param name="Years">The time, as a factor of the coefficient: s = D Years where nothing else is drawn.</param>
/// <param name="LogRatio">ln(tref/t), the factor of a drawn ageing exponent.</param>
/// <param name="IsInstantaneous">Whether a drawn ageing exponent divides by 1 - m as well.</param>
public readonly record struct ClosedFormNumbers(
    double Years,
    double LogRatio,
    bool IsInstantaneous
);
