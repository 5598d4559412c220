namespace DeckLife.Decisions;

/// <summary>What one more year costs, bought by the next dearer intervention that keeps the limits.</summary>
/// <param name="PerYear">More first cost for each more year of expected life, in the price list's currency.</param>
/// <param name="ErrorOfPerYear">Monte Carlo standard error of it.</param>
/// <param name="ExtraYears">Years gained, mean over the draws, years beyond the horizon left out [yr].</param>
/// <param name="ExtraFirstCost">What the step costs more at first, mean over the draws.</param>
/// <param name="Next">The case that the step leads to.</param>
public sealed record YearPrice(
    double PerYear,
    double ErrorOfPerYear,
    double ExtraYears,
    double ExtraFirstCost,
    DepthMapCell Next
);
