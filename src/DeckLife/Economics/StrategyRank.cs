namespace DeckLife.Economics;

/// <summary>Where one strategy stands among the others over the draws.</summary>
/// <param name="CheapestProbability">Share of the draws where it costs least; draws where several cost the same are shared between them.</param>
/// <param name="ErrorOfCheapestProbability">Monte Carlo standard error of that share.</param>
/// <param name="ExpectedRegret">Mean over the draws of what it costs more than the cheapest of the same draw, in the present values' currency.</param>
public readonly record struct StrategyRank(
    double CheapestProbability,
    double ErrorOfCheapestProbability,
    double ExpectedRegret
);
