using DeckLife.Numerics.Sensitivity;

namespace DeckLife.Studies;

/// <summary>What one method says of one output; one of the optional members is there.</summary>
public sealed record StudyOutputResult
{
    /// <summary>Number of the method in the study, from 0.</summary>
    public required int MethodNumber { get; init; }

    /// <summary>The method.</summary>
    public required StudyMethod Method { get; init; }

    /// <summary>The output.</summary>
    public required StudyOutput Output { get; init; }

    /// <summary>Number of evaluations of the section or deck; of reliability the draws asked for, without the search for design points.</summary>
    public required long Evaluations { get; init; }

    /// <summary>Plain draws.</summary>
    public DrawSummary? Draws { get; init; }

    /// <summary>Shares of variance.</summary>
    public SobolResult? Sobol { get; init; }

    /// <summary>Shapley effects.</summary>
    public ShapleyResult? Shapley { get; init; }

    /// <summary>Elementary effects.</summary>
    public MorrisResult? Morris { get; init; }

    /// <summary>One-at-a-time swings.</summary>
    public SwingResult? Swings { get; init; }

    /// <summary>Reliability.</summary>
    public StudyReliability? Reliability { get; init; }
}
