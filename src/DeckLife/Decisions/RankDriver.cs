namespace DeckLife.Decisions;

/// <summary>How one input decides between the leading strategy and the next.</summary>
/// <param name="Input">The input.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="Share">Share of the variance of the two strategies' difference that the input explains by itself.</param>
/// <param name="ErrorOfShare">Standard error of that share.</param>
/// <param name="LeadsWhenLow">Probability that the leading strategy is the cheaper of the two where the input lies in its lowest third.</param>
/// <param name="LeadsWhenHigh">The same in its highest third.</param>
public sealed record RankDriver(
    string Input,
    InputSource Source,
    double Share,
    double ErrorOfShare,
    double LeadsWhenLow,
    double LeadsWhenHigh
);
