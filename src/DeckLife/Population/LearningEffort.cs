namespace DeckLife.Population;

/// <summary>How many draws are weighed by the surveys.</summary>
/// <param name="FirstDraws">Draws weighed at first.</param>
/// <param name="AimedAt">Effective number aimed at: below it more draws are weighed.</param>
internal sealed record LearningEffort(int FirstDraws, double AimedAt)
{
    // Numerical choice: the 5 % point of a band from 400 draws has a standard error of 1.1 % in probability, √(0.05·0.95/400).
    private const double EffectiveDraws = 400;

    // Effective number for each draw that a deck of a network is projected with: so that few of its draws are the same one twice.
    private const double EffectiveForEachDraw = 10;

    /// <summary>For one deck.</summary>
    public static LearningEffort Full { get; } = new(20_000, EffectiveDraws);

    /// <summary>
    /// Where many cases are looked through coarsely: their hundred draws rest on as large an effective number, since too small a one still
    /// asks for more.
    /// </summary>
    public static LearningEffort OfAnExploration { get; } = new(4_000, EffectiveDraws);

    /// <summary>For each deck of a network.</summary>
    /// <param name="draws">Draws that it is projected with.</param>
    public static LearningEffort OfANetwork(int draws) =>
        new(1_000, Math.Min(EffectiveDraws, EffectiveForEachDraw * draws));
}
