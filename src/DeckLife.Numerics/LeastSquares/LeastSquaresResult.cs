using System.Collections.Immutable;

namespace DeckLife.Numerics.LeastSquares;

/// <summary>The end of a least-squares run.</summary>
public sealed record LeastSquaresResult
{
    /// <summary>How it ended.</summary>
    public required LeastSquaresStatus Status { get; init; }

    /// <summary>The parameters.</summary>
    public required ImmutableArray<double> Parameters { get; init; }

    /// <summary>The residual sum of squares.</summary>
    public required double SumOfSquares { get; init; }

    /// <summary>Residuals less parameters.</summary>
    public required int DegreesOfFreedom { get; init; }

    /// <summary>Covariance s² (JᵀJ)⁻¹ by rows; empty where <see cref="MissingReason"/> says why.</summary>
    public ImmutableArray<double> Covariance { get; init; } = [];

    /// <summary>Standard errors; empty where <see cref="MissingReason"/> says why.</summary>
    public ImmutableArray<double> StandardErrors { get; init; } = [];

    /// <summary>Why the covariance is absent.</summary>
    public string? MissingReason { get; init; }

    /// <summary>Accepted steps.</summary>
    public int Iterations { get; init; }
}
