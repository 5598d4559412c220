namespace DeckLife.Fitting;

/// <summary>One estimated value with its standard error and limits; what does not exist is absent, with its reason.</summary>
/// <param name="Value">The estimate, in the canonical unit of its quantity.</param>
public sealed record Estimate(double Value)
{
    /// <summary>Standard error, where it exists.</summary>
    public double? StandardError { get; init; }

    /// <summary>Lower 95 % limit, where it exists.</summary>
    public double? Lower95 { get; init; }

    /// <summary>Upper 95 % limit, where it exists.</summary>
    public double? Upper95 { get; init; }

    /// <summary>
    /// Lower 95 % limit if the errors are known to be constant, beside <see cref="Lower95"/> where that holds for other kinds of error too.
    /// </summary>
    public double? ConstantErrorsLower95 { get; init; }

    /// <summary>Upper 95 % limit if the errors are known to be constant; see <see cref="ConstantErrorsLower95"/>.</summary>
    public double? ConstantErrorsUpper95 { get; init; }

    /// <summary>Lower end of the plain interval, estimate - t s.e., shown beside the limits.</summary>
    public double? PlainLower95 { get; init; }

    /// <summary>Upper end of the plain interval, estimate + t s.e., shown beside the limits.</summary>
    public double? PlainUpper95 { get; init; }

    /// <summary>How the limits were got, for example "profile likelihood, F(1, n-p)".</summary>
    public string? LimitMethod { get; init; }

    /// <summary>Whether the value was given, not estimated.</summary>
    public bool IsFixed { get; init; }

    /// <summary>Whether the estimate lies at the end of its allowed interval.</summary>
    public bool IsAtBound { get; init; }

    /// <summary>Why a standard error or a limit is absent.</summary>
    public string? MissingReason { get; init; }
}
