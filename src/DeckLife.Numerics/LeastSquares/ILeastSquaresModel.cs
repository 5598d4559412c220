namespace DeckLife.Numerics.LeastSquares;

/// <summary>A nonlinear least-squares problem: residuals and their exact derivatives.</summary>
public interface ILeastSquaresModel
{
    /// <summary>Number of residuals.</summary>
    int Residuals { get; }

    /// <summary>Number of parameters.</summary>
    int Parameters { get; }

    /// <summary>Computes residuals and derivatives; values that are not finite make the engine shorten its step.</summary>
    /// <param name="parameters">The parameters.</param>
    /// <param name="residuals">Receives model - data.</param>
    /// <param name="jacobian">Receives the derivatives of the residuals, one row a residual; empty: not wanted.</param>
    void Evaluate(ReadOnlySpan<double> parameters, Span<double> residuals, Span<double> jacobian);
}
