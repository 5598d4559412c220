namespace DeckLife.Numerics.Sensitivity;

/// <summary>What one input does to the output when it goes from a low to a high quantile alone.</summary>
/// <param name="Input">Number of the input, from 0.</param>
/// <param name="LowInput">The input at its low quantile.</param>
/// <param name="HighInput">The input at its high quantile.</param>
/// <param name="AtLow">The output there.</param>
/// <param name="AtHigh">The output there.</param>
public sealed record Swing(
    int Input,
    double LowInput,
    double HighInput,
    double AtLow,
    double AtHigh
)
{
    /// <summary>The change of the output from the low to the high end.</summary>
    public double Change => AtHigh - AtLow;
}
