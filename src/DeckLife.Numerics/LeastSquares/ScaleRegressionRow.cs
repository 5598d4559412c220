namespace DeckLife.Numerics.LeastSquares;

/// <summary>How one row of a scale regression enters its likelihood.</summary>
public enum ScaleRegressionRow
{
    /// <summary>The value was measured.</summary>
    Measured,

    /// <summary>The value lies somewhere below the one given.</summary>
    Below,
}
