namespace DeckLife.Decisions;

/// <summary>What the best case of a depth map brings against one of the deck's own strategies, means over the draws.</summary>
/// <param name="Saved">Present value saved; negative: it costs more; absent where ends or works have no price.</param>
/// <param name="ErrorOfSaved">Monte Carlo standard error of it.</param>
/// <param name="YearsMore">Years until the end criterion that it adds, those beyond the horizon counted as the horizon.</param>
/// <param name="ErrorOfYears">Monte Carlo standard error of them.</param>
public sealed record DepthAdvantage(
    double? Saved,
    double? ErrorOfSaved,
    double YearsMore,
    double ErrorOfYears
)
{
    /// <summary>Whether the case is the better by more than twice the error: by present value where there is one, else by years.</summary>
    public bool IsBetter =>
        Saved is { } saved ? saved > 2 * ErrorOfSaved : YearsMore > 2 * ErrorOfYears;

    /// <summary>Whether the strategy is the better by as much.</summary>
    public bool IsWorse =>
        Saved is { } saved ? saved < -2 * ErrorOfSaved : YearsMore < -2 * ErrorOfYears;
}
