namespace DeckLife.Numerics.LeastSquares;

/// <summary>How a least-squares run ended.</summary>
public enum LeastSquaresStatus
{
    /// <summary>Step, gradient or predicted decrease vanished.</summary>
    Converged,

    /// <summary>The limit of iterations was met; the best point so far is given.</summary>
    IterationLimit,

    /// <summary>The residuals are not finite at the start.</summary>
    NotFinite,
}
